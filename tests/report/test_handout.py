"""The hand-out: paints by letter, puddles in parts, a box a wash, nothing that needs colour."""

import re
from dataclasses import replace

from fewtubes.mixing.mixture import Optics
from fewtubes.picture.sheet import INK, SOFT_INK
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.handout import (
    WHITE,
    HandoutWash,
    handout_subjects,
    handout_tubes,
)
from fewtubes.report.illustrated.handout_page import handout_page
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import Puddling

BOX = '<span class="box"></span>'


def test_every_paint_has_a_letter_its_name_and_its_colour_index_names(
    plan: Plan, optics: Optics
) -> None:
    tubes = handout_tubes(Basis(plan, optics))
    assert [tube.letter for tube in tubes] == ["A", "B", "C"]
    assert [tube.name for tube in tubes] == [planned.tube.name for planned in plan.tubes]
    codes = [planned.tube.pigments[0][0].code for planned in plan.tubes]
    assert [tube.codes for tube in tubes] == codes


def test_puddles_stand_by_letters_with_their_swatches(plan: Plan, optics: Optics) -> None:
    """By hand: magenta and gold in 2 : 1 at half strength for the petal, and for the step."""
    (subject,) = handout_subjects(Basis(plan, optics))
    assert subject.name == "rose"
    assert len(subject.pictures) == 1
    (puddle,) = subject.puddles
    assert puddle.parts == (("A", 2), ("B", 1))
    assert puddle.washes == (HandoutWash("half-strength", "1 + 1 water", "1 petal"),)
    assert subject.left_out == "2 throat"
    assert subject.white == ""


def test_a_puddle_for_steps_alone_says_between_which_numbers(plan: Plan, optics: Optics) -> None:
    """The flower has a petal, numbered 1, and a throat, 2; no fold is drawn."""
    step = next(n for n, one in enumerate(plan.samples) if one.sample.is_step)
    (puddle,) = plan.mixed.mixed
    alone = replace(plan, mixed=replace(plan.mixed, mixed=(replace(puddle, colours=(step,)),)))
    (subject,) = handout_subjects(Basis(alone, optics))
    assert subject.puddles[0].washes[0].uses == "between 1 petal and fold"
    ends = replace(plan.samples[step].sample, between=("throat", "petal"))
    samples = [*plan.samples]
    samples[step] = replace(samples[step], sample=ends)
    (subject,) = handout_subjects(Basis(replace(alone, samples=tuple(samples)), optics))
    assert subject.puddles[0].washes[0].uses == "between 2 throat and 1 petal"


def test_one_sitting_is_one_list_of_puddles(plan: Plan, optics: Optics) -> None:
    (puddle,) = plan.mixed.mixed
    shared = replace(
        plan.mixed, puddling=Puddling.ONE_SITTING, mixed=(replace(puddle, subject=""),)
    )
    (subject,) = handout_subjects(Basis(replace(plan, mixed=shared), optics))
    assert subject.name == "All in one sitting"
    assert len(subject.puddles) == 1
    rose = next(part for part in Basis(plan, optics).flowers)
    two = [
        *plan.samples,
        *(replace(s, sample=replace(s.sample, flower="iris")) for s in rose.samples),
    ]
    page = handout_page(Basis(replace(plan, mixed=shared, samples=tuple(two)), optics))
    assert "<figcaption>rose</figcaption>" in page  # two drawings have to be told apart
    assert "<figcaption>iris</figcaption>" in page
    assert "<figcaption>" not in handout_page(Basis(plan, optics))


def test_the_page_is_for_painters_not_for_buyers(plan: Plan, optics: Optics) -> None:
    page = handout_page(Basis(plan, optics))
    assert page.count(BOX) == 3 + 1  # three paints, one wash
    assert '<span>Name:</span> <span class="line"></span>' in page
    assert page.count('<span class="part">A</span>') == 2
    assert page.count('<span class="part">B</span>') == 1
    text = re.sub(r"<style>.*?</style>|<[^>]+>", " ", page, flags=re.DOTALL)
    for word in ("EUR", "ΔE", "proven", "CIELAB"):
        assert word not in text


def test_it_is_fit_for_copying_in_black_and_white(plan: Plan, optics: Optics) -> None:
    """No colour but white and the inks, so that nothing is told by colour."""
    page = handout_page(Basis(plan, optics))
    assert set(re.findall(r"#[0-9a-f]{6}", page)) <= {WHITE, INK, SOFT_INK}


def test_cautions_are_for_whoever_paints(plan: Plan, optics: Optics) -> None:
    group = ClassWish(12, TubesFor.PANS, Pupils.CHILDREN)
    children = replace(plan, scenario=replace(plan.scenario, group=group))
    page = handout_page(Basis(children, optics))
    assert "Never put the brush in your mouth." in page
    assert "labelled as fit for children" in page
    assert "from the pan" in page
    alone = handout_page(Basis(plan, optics))
    assert "no eating, drinking or smoking" in alone
    assert "from the pan" not in alone


def test_what_a_tube_holds_is_told_by_its_letter(plan: Plan, optics: Optics) -> None:
    concerned = [caution for caution in plan.cautions if caution.tubes]
    assert concerned
    page = handout_page(Basis(plan, optics))
    names = [planned.tube.name for planned in plan.tubes]
    for caution in concerned:
        letters = [("A", "B", "C")[names.index(name)] for name in caution.tubes]
        assert f"<b>{' and '.join(letters)}:</b>" in page


def test_cautions_of_the_same_paints_stand_together(plan: Plan, optics: Optics) -> None:
    again = replace(plan.cautions[-1], text="Fades.", short="")
    page = handout_page(Basis(replace(plan, cautions=(*plan.cautions, again)), optics))
    assert "<b>B:</b> Holds nickel. Fades." in page
    assert "For whoever leads the class" not in page  # this painter is alone


def test_hostile_names_cannot_break_it(hostile: tuple[str, Plan], optics: Optics) -> None:
    _, plan = hostile
    page = handout_page(Basis(plan, optics))
    body = page[page.index("<body>") :]
    assert "<script" not in body
    assert "\x1b" not in page
    page.encode("utf-8")


def test_without_any_tube_it_says_so(empty_plan: Plan, optics: Optics) -> None:
    page = handout_page(Basis(empty_plan, optics))
    assert "There is no tube to paint with." in page
