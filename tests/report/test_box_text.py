"""What is said of one's own tubes, in words and tables."""

import csv
import io
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from rich.cells import cell_len
from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.box_findings import Addition, Box, Double, Intended
from fewtubes.comparison.box_gains import FlowerReached, Gain
from fewtubes.mixing.likeness import Likeness
from fewtubes.report.answer_files import box_files
from fewtubes.report.sentences.box_gains import gain_words, together_words
from fewtubes.report.terminal.box import (
    addition_words,
    double_words,
    idle_words,
    intended_words,
    print_box,
)
from fewtubes.shopping.plan import Plan

Flat = Callable[[str], str]


@pytest.fixture
def box(plan: Plan) -> Box:
    """Return a box of magenta, golden yellow and blue, made by hand; EUR 20.00 may be spent."""
    magenta, gold, blue = (planned.tube for planned in plan.tubes)
    violet = plan.samples[1].remedies[0].tube
    return Box(
        scenario=plan.scenario,
        owned=(magenta, gold, blue),
        set_aside=(blue,),
        coverage=0.5,
        doubles=(Double(magenta, gold, Likeness(0.42, 0.6, True), magenta, None, gold),),
        idle=(magenta, gold),
        lost_without_idle=0.25,
        additions=(Addition(violet, 200, 0.1, True), Addition(blue, 700, 0.2, True)),
        intended=(Intended(violet, magenta, Likeness(1.6, 0.9, False), False),),
        intended_from_plan=True,
        plan_proven=True,
    )


def printed(box: Box, width: int = 80) -> str:
    stream = io.StringIO()
    console = Console(
        file=stream, width=width, color_system=None, legacy_windows=False, _environ={}
    )
    print_box(box, console)
    return stream.getvalue()


def test_doubles_are_told_with_what_each_is_better_in(box: Box) -> None:
    (double,) = box.doubles
    assert double_words(double) == (
        "magenta and golden yellow are the same paint to the eye: off by at most ΔE00 0.4 from full"
        " strength to pale wash once magenta is taken at about 60 % of its strength. Keep for"
        " strength: magenta; for lightfastness: either; for transparency: golden yellow."
    )
    near = replace(double, likeness=Likeness(1.5, 1.0, False), stronger=None)
    assert double_words(near).startswith(
        "magenta and golden yellow are close: off by at most ΔE00 1.5 from full strength to pale"
        " wash. Keep for strength: either;"
    )


def test_a_weaker_edition_is_not_said_to_be_needed(box: Box) -> None:
    """The golden yellow is the magenta at 60 % of its strength, in the double made by hand."""
    (double,) = box.doubles
    assert double.spare is double.second
    water = (
        "golden yellow: magenta does the same with more water; where recipes need the weaker one,"
        " that comes of the whole numbers of parts that are tried."
    )
    needed = " Every other tube in use brings a colour that the others do not."
    assert idle_words(replace(box, idle=())) == water + needed
    assert idle_words(box) == (f"{water} magenta: without it the rest of the box covers as much.")
    (_, gold, _) = rows(box_files(replace(box, idle=()))["box-tubes.csv"])
    assert (gold["tube"], gold["could_be_missing"]) == ("gold", "yes")


@pytest.mark.parametrize(
    "changed",
    [
        {"likeness": Likeness(1.1, 0.6, True)},  # not quite the same paint
        {"stronger": None},
        {"longer_lasting": "second"},  # the weaker one is of use where work hangs
    ],
)
def test_a_weaker_tube_that_is_better_in_something_is_kept(
    box: Box, changed: dict[str, object]
) -> None:
    (double,) = box.doubles
    if changed == {"longer_lasting": "second"}:
        changed = {"longer_lasting": double.second}
    assert replace(double, **changed).spare is None  # type: ignore[arg-type]


def test_idle_tubes_may_not_all_go(box: Box) -> None:
    box = replace(box, doubles=())
    assert idle_words(box) == (
        "magenta and golden yellow: each of them could be missing, but not all; without all of them"
        " 25 % of what is to be painted would be lost."
    )
    assert idle_words(replace(box, lost_without_idle=0.0)).endswith(
        "without any or all of them the rest of the box covers as much."
    )
    one = replace(box, idle=box.idle[:1], lost_without_idle=0.0)
    assert idle_words(one) == "magenta: without it the rest of the box covers as much."
    assert idle_words(replace(box, idle=())).startswith("Nothing: every tube")


def test_the_next_tube_for_the_money_and_in_all(box: Box) -> None:
    # 10 % for 2.00 is 5 % for one; 20 % for 7.00 is 2.9 % for one.
    assert addition_words(box) == (
        "deep violet (EUR 2.00, adds 10 %) adds most for the money; blue (EUR 7.00, adds 20 %) adds"
        " most in all."
    )
    one = replace(box, additions=box.additions[:1])
    assert addition_words(one) == (
        "deep violet (EUR 2.00, adds 10 %) adds most, for the money and in all."
    )
    dear = replace(box, additions=(replace(box.additions[0], affordable=False),))
    assert addition_words(dear) == (
        "No single tube within the budget adds anything; dearer ones would."
    )
    assert addition_words(replace(box, additions=())) == (
        "No single tube that may be bought adds anything to the box."
    )
    text = printed(box)
    assert [
        line.split()[-3:] for line in text.splitlines() if line.startswith("deep violet  ")
    ] == [["%", "5", "%"]]
    assert "beyond the budget" in printed(dear)
    assert "beyond the budget" not in text


@pytest.mark.parametrize(
    ("difference", "owned", "said"),
    [
        (0.3, False, "deep violet is in the box already under another name: magenta (off by at"),
        (
            1.6,
            False,
            "deep violet is nearly in the box already: magenta is off by at most ΔE00 1.6",
        ),
        (
            2.1,
            False,
            "deep violet is not in the box; the nearest to it, magenta, is off by ΔE00 2.1, near.",
        ),
        (
            31.5,
            False,
            "deep violet is not in the box; the nearest to it, magenta, is off by ΔE00 31.5,"
            " another colour.",
        ),
        (9.0, True, "deep violet is in the box already."),
    ],
)
def test_a_tube_about_to_be_bought(box: Box, difference: float, owned: bool, said: str) -> None:
    (intended,) = box.intended
    changed = replace(intended, likeness=Likeness(difference, 1.0, False), is_owned=owned)
    assert intended_words(changed).startswith(said)


def test_an_empty_box(box: Box, flat: Flat) -> None:
    empty = replace(box, owned=(), set_aside=(), doubles=(), idle=(), intended=())
    text = flat(printed(empty))
    assert "The box is empty: the scenario names no owned tubes." in text
    assert "No two tubes in use look alike." in text
    assert "Nothing: no tube of the box is in use." in text
    assert "The box is empty, so nothing is in it already." in text
    (intended,) = box.intended
    alone = replace(intended, nearest=None, likeness=None)
    assert intended_words(alone) == "deep violet is not in the box."
    text = flat(printed(replace(empty, intended=(alone,))))
    assert "deep violet is not" not in text
    assert "The box is empty, so none of them is in it already: deep violet." in text


def test_it_tells_where_the_tubes_about_to_be_bought_come_from(box: Box, flat: Flat) -> None:
    assert "the tubes of the plan for this scenario, proven best." in flat(printed(box))
    unproven = flat(printed(replace(box, plan_proven=False)))
    assert "the tubes of the plan for this scenario, not proven." in unproven
    assert "the plan" not in flat(printed(replace(box, intended_from_plan=False)))
    assert "Nothing." in printed(replace(box, intended=()))


def test_the_contents_are_told(box: Box, flat: Flat) -> None:
    text = flat(printed(box))
    assert "3 tubes: magenta, golden yellow and blue. Alone they cover 50 %" in text
    assert "The wishes keep out of use: blue." in text


@pytest.mark.parametrize("width", [40, 80, 120])
def test_no_line_is_wider_than_the_terminal(box: Box, width: int) -> None:
    assert max(map(cell_len, printed(box, width).splitlines())) <= width


def test_hostile_names_do_no_harm(box: Box, hostile: tuple[str, Plan]) -> None:
    name, plan = hostile
    tube: Tube = plan.tubes[0].tube
    harmful = replace(
        box,
        scenario=plan.scenario,
        owned=(tube,),
        set_aside=(tube,),
        doubles=(replace(box.doubles[0], first=tube, stronger=tube),),
        idle=(tube,),
        additions=(replace(box.additions[0], tube=tube),),
        intended=(replace(box.intended[0], tube=tube, nearest=tube),),
    )
    text = printed(harmful, 1000)
    assert "\x1b" not in text
    assert "\x07" not in text
    for content in box_files(harmful).values():
        assert "\x1b" not in content
        assert not (name.startswith("=") and ",=1+1" in content)


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_tables_hold_the_same(box: Box) -> None:
    files = box_files(box)
    (double,) = rows(files["box-doubles.csv"])
    assert list(double.values()) == [
        double["name"], double["like"], "0.42", "0.6", double["name"], "", double["like"],
        "magenta", "gold",
    ]  # fmt: skip
    tubes = rows(files["box-tubes.csv"])
    assert [(row["tube"], row["in_use"], row["could_be_missing"]) for row in tubes] == [
        ("magenta", "yes", "yes"),
        ("gold", "yes", "yes"),
        ("blue", "no", "yes"),
    ]
    additions = rows(files["box-additions.csv"])
    assert [(row["price"], row["adds"]) for row in additions] == [("2.00", "10%"), ("7.00", "20%")]
    (intended,) = rows(files["about-to-buy.csv"])
    assert list(intended.values()) == [
        "deep violet", "yes", double["name"], "1.6", "", "", "", "violet",
    ]  # fmt: skip
    gaining = replace(box.intended[0], gain=GAIN)
    (intended,) = rows(box_files(replace(box, intended=(gaining,)))["about-to-buy.csv"])
    assert [*intended.values()][4:7] == ["50%", "62.5%", "rose: 2; primrose: 1"]


def test_idle_tubes_are_said_to_be_so_before_anything_is_bought(box: Box) -> None:
    # A tube that adds nothing to the box may add much to the plan, so the heading must say which.
    assert "What adds nothing to these flowers as long as nothing is bought" in printed(box)


def test_an_owned_tube_that_is_set_aside_is_said_to_be_so(box: Box) -> None:
    (intended,) = box.intended
    aside = replace(intended, is_owned=True, set_aside=True)
    assert intended_words(aside).endswith("in the box already, but the wishes keep it out of use.")


def test_the_short_form_leaves_out_which_double_to_keep(box: Box, flat: Flat) -> None:
    stream = io.StringIO()
    console = Console(file=stream, width=80, color_system=None, _environ={})
    print_box(box, console, full=True, catalogue_label="my tubes")
    short, full = flat(printed(box)), flat(stream.getvalue())
    assert "Keep for strength" in full
    assert "Keep for strength" not in short
    assert "tubes from: my tubes." in full
    for text in (short, full):
        assert text.startswith("The box for: A window box Asked: at most EUR 20.00")
        assert "golden yellow (nickel)" in text.partition("Take care")[2]
    assert "--full tells the rest" in short
    assert "--full" not in full


GAIN = Gain(0.5, 0.625, (FlowerReached("rose", 3, 5, 7), FlowerReached("primrose", 0, 1, 3)))
NO_GAIN = Gain(0.5, 0.5, ())


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {"gain": GAIN},
            "With it the box covers 62.5 % instead of 50 %; newly reached: 2 colours of rose and 1"
            " colour of primrose.",
        ),
        (
            {
                "gain": Gain(
                    0.0, 1.0, (FlowerReached("iris", 0, 4, 4), FlowerReached("pot", 0, 1, 1))
                )
            },
            "With it the box covers 100 % instead of 0 %; newly reached: 4 colours of iris (now"
            " all of it) and pot.",
        ),
        (
            {"gain": NO_GAIN},
            "It adds nothing to these flowers: with the box alone it reaches no further colour.",
        ),
        (
            {"gain": NO_GAIN, "likeness": Likeness(0.9, 1.0, False)},
            "It adds nothing: it is the same colour as magenta.",
        ),
        (
            {"gain": GAIN, "thinned": True},
            "It is the same colour as magenta, only weaker: that the box would cover 62.5 % instead"
            " of 50 % comes of the whole numbers of parts that are tried.",
        ),
        ({"kept_out": "it fades"}, "It would stay out of use: it fades."),
        ({"is_owned": True}, ""),
    ],
)
def test_what_a_tube_about_to_be_bought_adds(box: Box, changes: dict[str, Any], said: str) -> None:
    (intended,) = box.intended
    changed = replace(intended, **changes)
    assert gain_words(changed) == said
    assert intended_words(changed).endswith(said)


def test_what_all_of_them_add_is_told_too(box: Box, flat: Flat) -> None:
    assert "all of them" not in flat(printed(box))
    told = flat(printed(replace(box, gain_together=GAIN)))
    assert "With all of them the box covers 62.5 % instead of 50 %" in told
    told = flat(printed(replace(box, gain_together=NO_GAIN)))
    assert "All of them together add nothing to these flowers." in told


def test_many_flowers_are_counted_behind_the_first(box: Box) -> None:
    flowers = tuple(FlowerReached(f"f{n}", 0, 9 - n, 20) for n in range(6))
    said = together_words(Gain(0.1, 0.2, flowers))
    assert said.endswith(
        "9 colours of f0, 8 colours of f1, 7 colours of f2, 6 colours of f3 and 9 colours of 2"
        " other flowers."
    )


def test_what_is_added_to_an_empty_box_is_told(box: Box, flat: Flat) -> None:
    gaining = replace(box.intended[0], nearest=None, likeness=None, gain=GAIN)
    empty = replace(box, owned=(), set_aside=(), doubles=(), idle=(), intended=(gaining,))
    assert "deep violet: with it the box covers 62.5 % instead of 50 %" in flat(printed(empty))
