"""What is said of puddles: how many, whether that is proven, of what they are made."""

import csv
import io
from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.coverage.samples import Sample
from fewtubes.report.sentences.puddles import addition_words, puddle_words, thinned_words
from fewtubes.scenario.wanted import OwnColour
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddle_tables import puddles
from fewtubes.shopping.puddles import OWN_COLOURS, Addition, FewestPuddles, Puddling
from fewtubes.words.proof.puddles import fewest_words, sitting_words

Printed = Callable[..., str]
Flat = Callable[[str], str]

NAMES = {"magenta": "magenta", "gold": "golden yellow", "blue": "blue"}


@pytest.mark.parametrize(
    ("number", "bound", "mixed", "said"),
    [
        (2, 2, 2, "2 puddles: fewer will not do, which is proven."),
        (1, 1, 3, "3 puddles, where 1 would do: fewer will not do, which is proven."),
        (
            3,
            2,
            3,
            "3 puddles: the fewest found; 2 or more are needed, but fewer are not ruled out.",
        ),
        (2, 2, None, "Alone it would take 2 puddles: fewer will not do, which is proven."),
        (0, 0, 0, "No puddle is needed."),
    ],
)
def test_only_what_is_proven_is_called_so(
    number: int, bound: int, mixed: int | None, said: str
) -> None:
    assert fewest_words(number, bound, mixed=mixed, fitted=False) == said


def test_a_proof_for_fitted_paints_says_so() -> None:
    said = "fewer will not do, which is proven for these fitted paints."
    assert fewest_words(2, 2, mixed=2, fitted=True).endswith(said)
    assert sitting_words(2, 2, fitted=True).endswith(said)
    assert "proven" not in sitting_words(3, 2, fitted=True)


def test_what_is_added_to_an_earlier_puddle(plan: Plan) -> None:
    (puddle,) = plan.mixed.mixed
    assert puddle_words(puddle, NAMES) == "2 parts magenta : 1 part golden yellow"
    made = replace(puddle, number=2, addition=Addition(1, 2, "gold", 1))
    assert addition_words(made, NAMES) == "that is puddle 1 with golden yellow added"
    made = replace(made, tubes=("magenta", "gold", "blue"), parts=(2, 1, 1))
    made = replace(made, addition=Addition(1, 3, "blue", 1))
    assert addition_words(made, NAMES) == (
        "that is puddle 1 with blue added (3 parts of puddle 1 : 1 part blue)"
    )


def test_parts_are_told_where_more_of_a_tube_is_added_that_the_puddle_holds(plan: Plan) -> None:
    """From 1 : 2 to 1 : 3: three parts of it hold one and two, and one more makes one and three."""
    (puddle,) = plan.mixed.mixed
    made = replace(puddle, number=2, parts=(1, 3), addition=Addition(1, 3, "gold", 1))
    assert addition_words(made, NAMES) == (
        "that is puddle 1 with golden yellow added (3 parts of puddle 1 : 1 part golden yellow)"
    )


def test_what_it_is_thinned_to(plan: Plan) -> None:
    covered, missed, step = plan.samples
    assert step.recipe is not None
    strong = replace(step, recipe=replace(step.recipe, strength=1.0))
    (puddle,) = plan.mixed.mixed
    changed = replace(plan, samples=(covered, missed, strong))
    assert thinned_words(changed, replace(puddle, colours=(2, 0))) == (
        "at full strength (100 %) for between petal and fold; thinned to a half-strength wash"
        " (50 %) for petal"
    )
    assert thinned_words(plan, puddle) == (
        "thinned to a half-strength wash (50 %) for petal and between petal and fold"
    )
    shared = replace(puddle, subject="", colours=(0,))
    assert thinned_words(plan, shared).endswith("for rose / petal")


def test_the_sitting_and_its_puddles_are_listed_once(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    (puddle,) = plan.mixed.mixed
    shared = replace(puddle, subject="")
    mixed = replace(plan.mixed, puddling=Puddling.ONE_SITTING, mixed=(shared,))
    text = flat(printed(replace(plan, mixed=mixed)))
    assert "Puddles for the sitting Puddle 1 2 parts magenta : 1 part golden yellow;" in text
    assert "Alone it would take 1 puddle: fewer will not do, which is proven." in text
    assert "petal puddle 1, half-strength wash (50 %): ΔE00 1.3" in text


def test_each_colour_for_itself_tells_what_would_do(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    sitting = FewestPuddles("", own=False, number=3, bound=2)
    mixed = replace(plan.mixed, puddling=Puddling.EACH_COLOUR, sitting=sitting)
    text = flat(printed(replace(plan, mixed=mixed)))
    assert "every colour has the nearest recipe for it alone, so few are shared" in text
    assert (
        "takes 3 puddles, the fewest found; 2 or more are needed, but fewer are not ruled out."
        in text
    )


def test_a_puddle_of_steps_alone_is_not_left_empty(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    (puddle,) = plan.mixed.mixed
    alone = replace(plan.mixed, mixed=(replace(puddle, colours=(2,)),))
    stepping = replace(plan, mixed=alone)
    assert "between petal and fold half-strength wash" in flat(printed(stepping))
    assert "2 magenta : 1 yellow — 1 step between swatches" in flat(printed(stepping, full=False))


def test_own_colours_go_by_their_names(plan: Plan, printed: Printed, flat: Flat) -> None:
    covered, missed, step = plan.samples
    own = replace(covered, sample=Sample("wall", "own colour", covered.sample.lab, 5000))
    colour = OwnColour("wall", lab=covered.sample.lab)
    (puddle,) = plan.mixed.mixed
    made = replace(
        plan,
        scenario=replace(plan.scenario, own_colours=(colour,)),
        samples=(own, missed, step),
        mixed=replace(
            plan.mixed,
            mixed=(replace(puddle, subject=OWN_COLOURS, own=True, colours=(0,)),),
            fewest=(FewestPuddles(OWN_COLOURS, own=True, number=1, bound=1),),
        ),
    )
    sitting = replace(made.mixed, mixed=(replace(puddle, subject="", colours=(0,)),))
    row = next(csv.DictReader(io.StringIO(puddles(replace(made, mixed=sitting)).csv_text())))
    assert row["thinned_to"] == "wall: half-strength wash (50 %)"
    text = flat(printed(made))
    assert "Colours of your own 1 puddle: fewer will not do, which is proven." in text
    assert "wall half-strength wash (50 %)" in text
    row = next(csv.DictReader(io.StringIO(puddles(made).csv_text())))
    assert (row["flower"], row["thinned_to"]) == (
        "colours of your own",
        "wall: half-strength wash (50 %)",
    )
