"""The short report in the terminal: what one buys, mixes and has to know."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from rich.cells import cell_len
from tests.remixed import with_samples
from tests.report.conftest import make_tube
from tests.report.test_steadiness import FOUND

from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Caution, Nearer, Obstacle, Remedy
from fewtubes.shopping.puddles import Puddling

Printed = Callable[..., str]
Flat = Callable[[str], str]


@pytest.fixture
def short(printed: Printed) -> Printed:
    """Return a function that prints a plan in short."""
    return lambda plan, **options: printed(plan, full=False, **options)


def test_it_begins_with_the_answer(plan: Plan, short: Printed, printed: Printed) -> None:
    text = short(plan)
    assert text.startswith("A window box\n  Asked: at most EUR 20.00")
    answer = text.partition("\nAnswer\n")[2].partition("\nTo buy\n")[0]
    assert "2 tubes to buy for EUR 19.00; EUR 1.00 of the budget is left." in answer
    assert answer in printed(plan)
    assert plan.scenario.shows not in text
    assert plan.scenario.shows in printed(plan)


@pytest.mark.parametrize("width", [80, 120])
def test_a_tube_takes_a_line(plan: Plan, short: Printed, width: int) -> None:
    text = short(plan, width=width)
    bought = text.partition("To buy\n")[2].partition("\n\n")[0].splitlines()
    assert len(bought) == 1 + len(plan.bought) + 1  # titles and total
    assert re.search(r"^magenta +PV19 +I +.*2 × 5 ml +13\.00$", bought[1])
    assert bought[-1].split() == ["total", "19.00"]


def test_columns_make_room_for_the_name(plan: Plan, short: Printed) -> None:
    """What is left out of the list first is told in full, and in a wider terminal."""
    assert "hangs on it" in short(plan, width=120)
    assert "hangs on it" not in short(plan, width=80)
    lines = short(plan, width=46).splitlines()
    assert any(re.fullmatch(r"magenta +I +2 × 5 ml +13\.00", line) for line in lines)


def test_where_there_is_no_room_for_columns_they_stand_below_each_other(
    plan: Plan, short: Printed
) -> None:
    lines = short(plan, width=24).splitlines()
    assert "  magenta" in lines
    assert "  total EUR 19.00" in lines


def test_own_tubes_are_named(plan: Plan, short: Printed, flat: Flat) -> None:
    assert "Of your own blue." in flat(short(plan))
    idle = replace(plan.tubes[2], recipes=0)
    assert "blue (in no mix)." in flat(short(replace(plan, tubes=(*plan.tubes[:2], idle))))
    aside = flat(short(replace(plan, set_aside=(plan.tubes[0].tube,))))
    assert "Set aside, because the wishes keep them out of use: magenta." in aside


def test_flowers_covered_whole_share_a_line(plan: Plan, short: Printed, flat: Flat) -> None:
    (rose,) = plan.flowers
    whole = [replace(rose, name=name, coverage=1.0, covered=3) for name in ("iris", "poppy, red")]
    text = flat(short(replace(plan, flowers=(rose, *whole))))
    assert "Covered 100 %: iris; poppy, red 70 %: rose (2 of 3)" in text


def test_a_colour_out_of_reach_takes_a_line(plan: Plan, short: Printed) -> None:
    lines = short(plan).splitlines()
    assert any(re.fullmatch(r"rose / throat +6\.1 +deep violet +7\.25", line) for line in lines)


def test_ways_to_bring_a_colour(plan: Plan, short: Printed, flat: Flat) -> None:
    missed = plan.samples[1]
    (remedy,) = missed.remedies
    gold = plan.tubes[1].tube

    def told(**changes: object) -> str:
        return flat(short(with_samples(plan, replace(missed, **changes))))  # type: ignore[arg-type]

    refused = Remedy(gold, 600, allowed=False)
    assert "6.1 deep violet 7.25" in told(remedies=(refused, remedy))
    ruled_out = told(remedies=(refused,), obstacle=Obstacle.WISHES)
    assert "golden yellow (the wishes rule it out) 6.00" in ruled_out
    owned = Remedy(gold, 0, allowed=False)
    assert "golden yellow (owned, the wishes rule it out)" in told(remedies=(owned,))
    two = told(remedies=(), together=(remedy, replace(refused, allowed=True)))
    assert "both deep violet and golden yellow 13.25" in two
    nearer = told(remedies=(), nearer=Nearer(gold, 600, 4.6))
    assert "nearer, ΔE00 4.6: golden yellow 6.00" in nearer
    assert "6.1 several tubes together" in told(remedies=())
    hopeless = told(remedies=(), obstacle=Obstacle.CATALOGUE)
    assert "no mix of up to three tubes of the catalogue comes near enough" in hopeless


def test_many_colours_out_of_reach_do_not_fill_the_screen(
    plan: Plan, short: Printed, flat: Flat
) -> None:
    missed = plan.samples[1]
    heavy = [
        replace(missed, sample=replace(missed.sample, name=f"petal {n}", weight=1000 + n % 2))
        for n in range(40)
    ]
    step = replace(plan.samples[2], covered=False, obstacle=Obstacle.BUDGET)
    text = flat(short(replace(with_samples(plan, *heavy, step), coverage=0.1)))
    assert text.count("deep violet") == 12
    assert "petal 1 6.1" in text  # those that weigh most, in their order
    assert "petal 2 6.1" not in text
    assert "… and 28 more colours of no greater importance and 1 step between swatches." in text


def test_a_puddle_takes_a_line(plan: Plan, short: Printed) -> None:
    text = short(plan)
    assert "\nrose: 1 puddle\n  2 magenta : 1 yellow — petal 50 % (1.3)\n" in text
    assert "A puddle is one mix, in parts, thinned for several colours" in text


def test_what_is_not_proven_of_puddles_is_marked(plan: Plan, short: Printed, flat: Flat) -> None:
    (fewest,) = plan.mixed.fewest
    open_ = replace(plan.mixed, fewest=(replace(fewest, bound=0),))
    assert "rose: 1 puddle (not proven)" in flat(short(replace(plan, mixed=open_)))
    each = replace(plan.mixed, puddling=Puddling.EACH_COLOUR, mixed=plan.mixed.mixed * 3)
    assert "rose: 3 puddles, where 1 would do" in flat(short(replace(plan, mixed=each)))


def test_puddles_of_one_sitting_name_the_flower(plan: Plan, short: Printed, flat: Flat) -> None:
    shared = replace(
        plan.mixed,
        puddling=Puddling.ONE_SITTING,
        mixed=tuple(replace(puddle, subject="") for puddle in plan.mixed.mixed),
    )
    text = flat(short(replace(plan, mixed=shared)))
    assert "2 magenta : 1 yellow — rose / petal 50 % (1.3)" in text
    assert "One sitting takes 1, proven the fewest." in text
    assert "rose: 1 puddle" not in text


def test_colours_left_as_bare_paper_are_told(plan: Plan, short: Printed, flat: Flat) -> None:
    from fewtubes.mixing.recipes import Recipe

    covered, missed, step = plan.samples
    edge = replace(covered.sample, name="edge")
    bare = replace(covered, sample=edge, recipe=Recipe((), (), 0.0), match=2.5)
    text = flat(short(replace(plan, samples=(covered, missed, step, bare))))
    assert "bare paper, unpainted — edge (2.5)" in text


def test_how_often_a_mix_stays_near_stands_beside_it(
    plan: Plan, short: Printed, flat: Flat
) -> None:
    text = flat(short(replace(plan, steadiness=FOUND)))
    assert "petal 50 % (1.3; stays 89.5 %)" in text
    assert "Expected coverage: 52 % (standard error 1.2 points)" in text


def test_colours_are_blocks_beside_words(plan: Plan, short: Printed) -> None:
    assert short(plan, colours=True).count("\x1b[38;2;") == 2  # wanted and mix of one swatch
    assert "██" not in short(plan)


def test_only_a_proven_answer_is_called_best(plan: Plan, short: Printed, flat: Flat) -> None:
    assert "Proven best: no choice within EUR 20.00 and 3 tubes covers more." in flat(short(plan))
    certificate = replace(plan.certificate, status=Status.STOPPED, bound=8000)
    stopped = flat(short(replace(plan, certificate=certificate, ties=5)))
    assert "best" not in stopped.lower()
    assert "(gap: 12.5 % of that)" in stopped
    assert "At least 5 palettes rank equal" in stopped


def test_trade_offs_take_a_line_each(plan: Plan, short: Printed, flat: Flat) -> None:
    text = flat(short(plan))
    assert "Lightfastness: II at worst (blue); better alone: 60 % instead of 70 %." in text
    hiding = "Hiding: semi-transparent at worst (2 tubes); better alone: at least 10 % instead of"
    assert hiding in text
    best = replace(plan.opacity, limited_by=())
    assert "Hiding" not in short(replace(plan, opacity=best))


def test_cautions_never_vanish(plan: Plan, short: Printed, flat: Flat) -> None:
    text = flat(short(plan))
    assert "- Holds nickel (golden yellow)" in text
    assert "Wash hands." in text
    long = Caution("All there is to say of it.", ("gold", "blue"), short="In few words.")
    text = flat(short(replace(plan, cautions=(long, Caution("At length.", short="Briefly.")))))
    assert "Take care - In few words (gold, blue) Briefly." in text


def test_an_empty_palette_takes_few_lines(empty_plan: Plan, short: Printed, flat: Flat) -> None:
    text = flat(short(empty_plan))
    assert "Nothing to buy; EUR 20.00 of the budget is left." in text
    assert "Why nothing: no tube that budget and wishes allow would bring more." in text
    assert "rose / throat – no mix of up to three tubes of the catalogue" in text
    assert "1 colour: no mix of up to three tubes of the catalogue comes near enough." in text
    assert "Puddles" not in text
    assert "To buy" not in text
    assert "inf" not in text


@pytest.mark.parametrize("width", [40, 80, 120])
def test_no_line_is_wider_than_the_terminal(plan: Plan, short: Printed, width: int) -> None:
    lines = short(plan, width=width).splitlines()
    assert max(map(cell_len, lines)) <= width
    assert not any(line.endswith(" ") for line in lines)


def test_hostile_names_are_printed_as_they_are(
    hostile: tuple[str, Plan], short: Printed, flat: Flat
) -> None:
    name, plan = hostile
    text = short(plan, width=1000)
    assert "\x1b" not in text
    assert "\x07" not in text
    assert len(text) < 30_000
    shown = name[:30].replace("\x1b", "\\x1b").replace("\x07", "\\x07")
    assert flat(text).count(shown) >= 6


def test_what_is_left_out_is_said(plan: Plan, short: Printed, printed: Printed) -> None:
    assert "\n  --full tells the rest: " in short(plan)
    assert "--full" not in printed(plan)


def test_a_tube_of_another_kind_keeps_its_name_apart(
    plan: Plan, short: Printed, flat: Flat
) -> None:
    other = replace(plan.tubes[1], tube=make_tube("lemon", "lemon yellow", "PY3"))
    text = flat(short(replace(plan, tubes=(*plan.tubes, other))))
    assert "2 magenta : 1 golden yellow — petal" in text


def test_what_costs_less_but_fades_is_told_so(plan: Plan, short: Printed, flat: Flat) -> None:
    """Otherwise it would deny the proof, which says that nothing as good costs less."""
    cheaper = replace(
        plan.opacity,
        spared=plan.coverage,
        spared_proven=True,
        spared_tubes=len(plan.bought),
        spared_cost=plan.cost - 225,
        spared_fading=1,
    )
    text = flat(short(replace(plan, opacity=cheaper)))
    assert "better alone: as much, takes EUR 2.25 less, but 1 more of the tubes fades." in text
    as_good = replace(cheaper, spared_cost=plan.cost, spared_fading=0)
    text = flat(short(replace(plan, opacity=as_good)))
    assert "better alone: as much, for as many tubes and the same money." in text


def test_further_lines_of_an_item_stand_below_its_first_word(plan: Plan, short: Printed) -> None:
    long = Caution("At length.", ("gold",), short=" ".join(["word"] * 30))
    lines = short(replace(plan, cautions=(long,))).splitlines()
    place = next(place for place, line in enumerate(lines) if line.startswith("  - word"))
    assert lines[place + 1].startswith("    word")
