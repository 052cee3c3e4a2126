"""The comparison in the terminal: every sentence against the numbers it is drawn from."""

import io
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.compare import compare
from fewtubes.comparison.comparison import Alternatives, Comparison
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.floors import FloorFront
from fewtubes.comparison.front_steps import Front, FrontStep
from fewtubes.comparison.near_best import NearBest
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.sentences.front import (
    FloorGroup,
    floor_groups,
    floor_sentence,
    milestone_words,
)
from fewtubes.report.terminal.alternatives import alternative_sentences
from fewtubes.report.terminal.compare import (
    end_words,
    print_comparison,
    size_words,
)
from fewtubes.report.terminal.front import front_chart, print_floors
from fewtubes.scenario.class_wish import ClassWish
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.instance import Palette

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    """Return what is found for all flowers of the small catalogue, its three tubes to buy."""
    catalogue = read_catalogue(SMALL)
    scenario = Scenario(
        title="A window [bold]box",
        shows="",
        currency="EUR",
        budget=12,
        most_tubes=None,
        tolerance=12.0,
        flowers=tuple(FlowerWish(name) for name in catalogue.flowers),
        own_colours=(),
        wishes=Wishes(least_coverage=0.5),
        paper="plain",
        light="E",
    )
    return compare(catalogue, scenario, extent=Extent(within=1.0))


def palette(*bought: int, cost: int = 0, value: int = 0) -> Palette:
    return Palette(bought, (), value, cost, 1, len(bought))


def front(*steps: tuple[int, int], sure: bool = True) -> Front:
    """Return a front of costs and values."""
    return Front(
        tuple(
            FrontStep(palette(cost=cost, value=value), proven=sure, sure_up_to_next=sure)
            for cost, value in steps
        )
    )


def with_fronts(comparison: Comparison, free: Front, kept: Front) -> Comparison:
    """Return a comparison of two fronts whose values are hundredths of all there is."""
    finer = tuple(replace(s, weight=100 * s.weight) for s in comparison.question.samples)
    comparison = replace(comparison, question=replace(comparison.question, samples=finer))
    total = comparison.total

    def scaled(some: Front) -> Front:
        return Front(
            tuple(
                replace(
                    step, palette=replace(step.palette, value=step.palette.value * total // 100)
                )
                for step in some.steps
            )
        )

    return replace(
        comparison,
        floors=(
            FloorFront(None, scaled(free), (), ()),
            FloorFront(Lightfastness.I, scaled(kept), (), ()),
        ),
    )


FREE = front((0, 0), (300, 40), (1000, 90), (1500, 100))


def printed(comparison: Comparison, *, full: bool = True) -> str:
    console = Console(file=io.StringIO(), width=80, _environ={})
    print_comparison(comparison, console, full=full)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


def test_of_a_class_paints_are_compared(comparison: Comparison) -> None:
    """A paint is bought once for everybody or as many times as they are: prices are of them all."""
    before = printed(comparison)
    assert "One tube more, and what it gains" in before
    assert "Prices are of all" not in before
    scenario = replace(comparison.question.scenario, group=ClassWish(12))
    of_class = replace(comparison, question=replace(comparison.question, scenario=scenario))
    told = " ".join(printed(of_class).split())
    assert "One paint more, and what it gains paints covers" in told
    assert "1 paint:" in told
    assert "Prices are of all that is bought for 12 painters (a tube of each); each paint" in told
    counted = re.findall(r"[0-9]+ tubes?|number of tubes|Tubes|no tube", told)
    assert not counted


def test_it_fits_80_columns_and_takes_titles_literally(comparison: Comparison) -> None:
    for full in (False, True):
        told = printed(comparison, full=full)
        assert max(map(len, told.splitlines())) <= 80
        assert "A window [bold]box" in told
        assert "All of it is proven" in told
        assert "at least 50 %" in told


def test_sizes_tell_what_they_gain(comparison: Comparison) -> None:
    assert len(comparison.sizes) > 2  # else there is little to tell
    for place, size in enumerate(comparison.sizes[1:], start=1):
        words = size_words(comparison, place)
        for number in size.palette.bought:
            assert comparison.question.tubes[number].name in words
        gained = set(size.palette.covered) - set(comparison.sizes[place - 1].palette.covered)
        assert ("Newly reached" in words) == bool(gained)
        told = sum(
            int(word) for word in words.split("Newly reached: ")[-1].split() if word.isdigit()
        )
        assert told == len(gained)


def test_a_size_without_gain_says_so(comparison: Comparison) -> None:
    last = comparison.sizes[-1]
    longer = replace(
        comparison, sizes=(*comparison.sizes, replace(last, best=replace(last.best, size=9)))
    )
    assert (
        size_words(longer, len(comparison.sizes)) == "9 tubes: one more gains nothing; see above."
    )
    stopped = replace(last, best=replace(last.best, size=9, proven=False))
    longer = replace(comparison, sizes=(*comparison.sizes, stopped))
    assert size_words(longer, len(comparison.sizes)) == (
        "9 tubes: none better was found in the time; see above."
    )


def test_why_the_sizes_end(comparison: Comparison) -> None:
    last = comparison.sizes[-1]
    part = replace(
        comparison,
        sizes=(*comparison.sizes[:-1], replace(last, palette=replace(last.palette, value=1))),
    )
    looked = replace(comparison.by_size, looked_up_to=8)
    beyond = replace(comparison.by_size, looked_up_to=last.best.size)
    whole = replace(last, palette=replace(last.palette, value=comparison.total))
    assert "everything is covered" in end_words(replace(comparison, sizes=(whole,)))
    assert "no number of tubes" in end_words(replace(part, all_gained=True, by_size=looked))
    assert "No palette of up to 8 tubes" in end_words(
        replace(part, all_gained=False, by_size=looked)
    )
    limited = replace(part, all_gained=False, by_size=beyond)
    assert "were not looked at" in end_words(limited)


def test_the_picture_by_hand() -> None:
    """Columns 63 × cost / 15.00: 0, 13, 42, 63; lines 12 × (1 - value / 100): 12, 7, 1, 0."""
    lines = front_chart(FREE, total=100, budget=1200, currency="EUR")
    drawn = [line.partition("|")[2].ljust(64) for line in lines[:13]]
    steps = [(row, line.index("o")) for row, line in enumerate(drawn) if "o" in line]
    assert steps == [(0, 63), (1, 42), (7, 13), (12, 0)]
    assert drawn[7][14:42] == "-" * 28
    assert drawn[5][50] == ":"  # 63 × 12.00 / 15.00 = 50.4
    assert lines[0].startswith("  100 % |")
    assert lines[-1].strip() == "budget 12.00"
    assert "?" not in "".join(lines)
    assert "o" not in "".join(
        front_chart(front((0, 0), (9, 5), sure=False), total=5, budget=9, currency="EUR")[:13]
    )
    assert "Nothing can be drawn" in front_chart(front(), total=5, budget=9, currency="EUR")[0]


def test_milestones(comparison: Comparison) -> None:
    words = milestone_words(with_fronts(comparison, FREE, FREE))
    assert words == "For example: 40 % for EUR 3.00, 90 % for EUR 10.00 and 100 % for EUR 15.00."
    words = milestone_words(with_fronts(comparison, front((0, 0), (100, 60), sure=False), FREE))
    assert "60 % for at most EUR 1.00" in words
    assert "So far as is known, 60 % is the most that any money can buy." in words


def test_a_gain_between_round_coverages_is_told(comparison: Comparison) -> None:
    """No round coverage is passed by paint alone here, and yet paint gains something."""
    for free in (front((0, 0), (300, 20)), front((0, 60), (300, 70))):
        most = free.steps[-1].palette.value
        words = milestone_words(with_fronts(comparison, free, FREE))
        assert words == (
            f"For example: {most} % for EUR 3.00. {most} % is the most that any money can buy."
        )
    nothing = milestone_words(with_fronts(comparison, front((0, 60)), FREE))
    assert nothing.startswith("No tube that may be bought gains anything.")
    unknown = milestone_words(with_fronts(comparison, front((0, 60), sure=False), FREE))
    assert unknown.startswith("No tube that gains anything was found in time.")


def test_steps_that_are_not_proven_are_not_said_to_be_the_best(comparison: Comparison) -> None:
    def told(free: Front) -> str:
        return " ".join(printed(with_fronts(comparison, free, FREE)).split())

    claim = "no palette covers more for as little, and none as much for less"
    assert f"4 steps: at each, {claim}. All are proven" in told(FREE)
    assert claim not in told(front((0, 0), (300, 40), sure=False))
    last = replace(FREE.steps[3], proven=False, sure_up_to_next=False)
    half = replace(FREE, steps=(*FREE.steps[:3], last))
    assert f"4 steps: at each not marked ?, {claim}. 1 step, marked ?," in told(half)
    gap = replace(FREE, steps=(*FREE.steps[:3], replace(FREE.steps[3], sure_up_to_next=False)))
    assert f"4 steps: at each, {claim}. Others may be missing" in told(gap)


@pytest.mark.parametrize(
    ("kept", "expected"),
    [
        (FREE, "costs nothing; 90 % within the budget for as little money."),
        (
            front((0, 0), (800, 70), (1450, 95)),
            "loses 20 % within the budget, covering 70 % instead of 90 %; 90 % costs EUR 4.50"
            " more, EUR 14.50 in all.",
        ),
        (
            front((0, 0), (800, 70)),
            "loses 20 % within the budget, covering 70 % instead of 90 %; no money would buy 90 %,"
            " the most is 70 %.",
        ),
        (
            front((0, 0), (1100, 90)),
            "loses nothing within the budget; 90 % costs EUR 1.00 more, EUR 11.00 in all.",
        ),
    ],
    ids=["free", "dearer", "never", "within"],
)
def test_floors_by_hand(comparison: Comparison, kept: Front, expected: str) -> None:
    """Budget 12.00; without the floor 90 % for 10.00."""
    made = with_fronts(comparison, FREE, kept)
    assert floor_sentence(made, made.floors[1]) == f"Lightfastness I throughout: {expected}"


def test_floors_that_cost_the_same_stand_together(comparison: Comparison) -> None:
    made = with_fronts(comparison, FREE, FREE)
    clearer = replace(made.floors[1], floor=Transparency.TRANSPARENT)
    costly = with_fronts(comparison, FREE, front((0, 0), (1100, 90))).floors[1]
    dearer = replace(costly, floor=Lightfastness.II)
    found = replace(made, floors=(*made.floors, dearer, clearer))
    first, second = floor_groups(found)
    assert first == FloorGroup(
        "Costs nothing; 90 % within the budget for as little money:",
        ("lightfastness I throughout", "every tube transparent"),
    )
    assert second.head.startswith("Lightfastness II or better throughout: loses nothing")
    assert second.floors == ()
    stream = io.StringIO()
    print_floors(found, Console(file=stream, width=80, color_system=None, _environ={}))
    assert stream.getvalue().splitlines()[2:] == [
        "  - Costs nothing; 90 % within the budget for as little money:",
        "    - lightfastness I throughout",
        "    - every tube transparent",
        "  - Lightfastness II or better throughout: loses nothing within the budget; 90 %",
        "    costs EUR 1.00 more, EUR 11.00 in all.",
    ]


@pytest.mark.parametrize(
    ("free", "kept", "expected"),
    [
        (
            True,
            front((0, 0), (300, 40), (1000, 90), sure=False),
            "costs nothing; 90 % within the budget for as little money.",
        ),
        (
            False,
            FREE,
            "costs nothing so far as is known; 90 % within the budget for the same money.",
        ),
        (
            True,
            front((0, 0), (800, 70), sure=False),
            "loses 20 % within the budget, covering 70 % instead of 90 % (not proven); the most"
            " found at any price is 70 %.",
        ),
        (
            True,
            front((0, 0), (1100, 90), sure=False),
            "loses nothing within the budget; 90 % costs EUR 1.00 more, EUR 11.00 in all (not"
            " proven).",
        ),
    ],
    ids=["free", "free_in_doubt", "never_in_doubt", "dearer_in_doubt"],
)
def test_what_a_floor_costs_claims_no_more_than_is_proven(
    comparison: Comparison, free: bool, kept: Front, expected: str
) -> None:
    """As by hand above; a floor never gains, so that to lose nothing needs no proof under it."""
    without = front((0, 0), (300, 40), (1000, 90), (1500, 100), sure=free)
    made = with_fronts(comparison, without, kept)
    assert floor_sentence(made, made.floors[1]) == f"Lightfastness I throughout: {expected}"


def test_floors_that_cannot_be_had_or_proven(comparison: Comparison) -> None:
    made = with_fronts(comparison, FREE, front((0, 0), (800, 70), sure=False))
    assert "(not proven)" in floor_sentence(made, made.floors[1])
    tube = comparison.question.tubes[0]
    stuck = replace(made.floors[1], in_the_way=(tube,), front=front())
    assert floor_sentence(made, stuck) == (
        f"Lightfastness I throughout: cannot be had, because the must-have {tube.name} will not do."
    )
    aside = replace(made.floors[1], set_aside=(tube,))
    assert f"(your {tube.name} left in the box)" in floor_sentence(made, aside)


def kin_of(comparison: Comparison, near: NearBest, **found: object) -> Alternatives:
    assert comparison.alternatives is not None
    made: Alternatives = replace(comparison.alternatives, own=near.palettes[0], near=near, **found)  # type: ignore[arg-type]
    return made


def test_near_best_in_words(comparison: Comparison) -> None:
    tubes = comparison.question.tubes
    near = NearBest(
        palettes=(palette(0, 1), palette(0, 2)),
        size=2,
        least_value=0,
        complete=False,
        proven=True,
        indispensable=frozenset({0}),
    )
    shared = {"shared": frozenset({0}), "groups": (frozenset({1, 2}),), "swaps": ()}
    words = " ".join(alternative_sentences(comparison, kin_of(comparison, near, **shared)))
    assert "more than 2 palettes" in words
    assert f"In every one of these 2 palettes: {tubes[0].name}." in words
    assert f"comes as near without {tubes[0].name}." in words
    assert f"exactly one of: {tubes[1].name} or {tubes[2].name}." in words
    complete = replace(near, complete=True)
    words = " ".join(alternative_sentences(comparison, kin_of(comparison, complete, **shared)))
    assert "There are 2 palettes" in words
    stopped = replace(near, proven=False)
    words = " ".join(alternative_sentences(comparison, kin_of(comparison, stopped, **shared)))
    assert "the search was stopped" in words


def test_one_near_best_palette_is_said_which(comparison: Comparison) -> None:
    names = [tube.name for tube in comparison.question.tubes]
    near = NearBest(
        palettes=(palette(0, 1),),
        size=2,
        least_value=0,
        complete=False,
        proven=False,
        indispensable=frozenset(),
    )
    alone = kin_of(comparison, near)
    (words,) = alternative_sentences(comparison, alone)
    assert words.startswith("At least one palette within the budget covers 0 % or more with no")
    assert "tube it could do without: the one above; the search was stopped" in words
    equal = replace(alone, own=palette(0, 2))
    (words,) = alternative_sentences(comparison, equal)
    assert f"without: that of {names[0]} and {names[1]}; the search" in words
    first = replace(alone, near=replace(near, proven=True))
    (words,) = alternative_sentences(comparison, first)
    assert words.startswith("More than one palette within the budget covers 0 % or more")
    assert words.endswith("; none of them ranks before the one above.")


def test_what_is_not_proven_is_said(comparison: Comparison) -> None:
    last = comparison.sizes[-1]
    unproven = replace(last, best=replace(last.best, proven=False))
    told = " ".join(printed(replace(comparison, sizes=(*comparison.sizes[:-1], unproven))).split())
    assert "Not all of it is proven" in told
    assert "Open: sizes." in told
    assert "not proven" in told


def test_hostile_names_do_no_harm(comparison: Comparison, flat: Callable[[str], str]) -> None:
    question = comparison.question
    bad = {
        id_: replace(tube, name="[/]\x1b[31m" + "x" * 500)
        for id_, tube in question.catalogue.tubes.items()
    }
    catalogue = replace(question.catalogue, tubes=bad)
    told = printed(replace(comparison, question=replace(question, catalogue=catalogue)))
    assert "\x1b" not in told
    assert "[/]" in flat(told)


def test_tubes_whose_names_hold_commas_are_parted_by_semicolons(comparison: Comparison) -> None:
    catalogue = comparison.question.catalogue
    tubes = {
        id_: replace(tube, name=f"{tube.name}, strong") for id_, tube in catalogue.tubes.items()
    }
    question = replace(comparison.question, catalogue=replace(catalogue, tubes=tubes))
    renamed = replace(comparison, question=question)
    console = Console(file=io.StringIO(), width=200)
    print_comparison(renamed, console, full=True)
    told = console.file.getvalue()  # type: ignore[attr-defined]
    assert "Lemon, strong; Leaf green, strong" in told or "Deep blue, strong; " in told
    assert "strong, " not in told


def test_the_short_form_leaves_out_picture_and_colours(comparison: Comparison) -> None:
    short, full = printed(comparison, full=False), printed(comparison)
    assert "Newly reached" in full
    assert "Newly reached" not in short
    assert "100 % |" in full
    assert "100 % |" not in short
    assert "For example: " in short
    assert "--full tells the rest" in short
    assert "--full" not in full
    assert len(short.splitlines()) < len(full.splitlines()) * 4 / 5
