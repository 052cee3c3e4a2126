"""What is said of steadiness against the numbers it is said of; all numbers are made up."""

import csv
import io
import json
from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.catalogue.records import Tube
from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.sentences.steadiness import (
    assumption_words,
    expected_words,
    recipes_words,
    rival_words,
    weighed_words,
)
from fewtubes.selection.certificate import Certificate, Method, Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_tables import recipes
from fewtubes.shopping.steadiness import MonteCarlo, Rival, Spread, Steadiness

Printed = Callable[..., str]
Flat = Callable[[str], str]

SPREAD = Spread(expected=0.52, standard_error=0.012, low=0.305, high=0.7)
FOUND = Steadiness(
    trials=MonteCarlo(seed=4, draws=400),
    stays=(0.895, 0.02, 0.5),
    spread=SPREAD,
    weighed=1,
    all_weighed=True,
    proven=True,
    rival=None,
    taken=False,
    ranks_best=True,
    given_up=0.0,
    extra_cost=0,
    other_recipes=0,
)


@pytest.fixture
def tubes(plan: Plan) -> tuple[Tube, ...]:
    return tuple(planned.tube for planned in plan.tubes[:2])


def rival(tubes: tuple[Tube, ...], lead: float, *, error: float = 0.01) -> Rival:
    spread = replace(SPREAD, expected=SPREAD.expected + lead)
    return Rival(tubes, cost=1250, coverage=0.695, spread=spread, lead=lead, lead_error=error)


def taken(tubes: tuple[Tube, ...], *, given_up: float, extra_cost: int) -> Steadiness:
    """Return what is found where another palette was taken."""
    return replace(
        FOUND,
        trials=replace(FOUND.trials, choose=True, within=0.02),
        rival=rival(tubes, -0.08),
        weighed=9,
        taken=True,
        ranks_best=given_up == 0 and extra_cost == 0,
        given_up=given_up,
        extra_cost=extra_cost,
        other_recipes=1,
    )


def test_nothing_is_said_unless_asked(plan: Plan, printed: Printed) -> None:
    assert "hand vary" not in printed(plan)
    assert "steadiness" not in json.loads(plan_json(plan))
    assert "stays_within" not in recipes(plan).header


def test_assumptions_and_figures_are_told(plan: Plan) -> None:
    words = assumption_words(plan, FOUND)
    for told in ("400 draws (seed 4)", "profile by 10 %", "bent by 3 %", "wash by 15 %"):
        assert told in words
    assert "our own assumption, not measured" in words
    told = expected_words(plan, FOUND)
    assert "Expected coverage: 52 % (standard error 1.2 points), against 70 %" in told
    assert "9 draws of 10 lie between 30.5 % and 70 %" in told


def test_each_swatch_has_its_share(plan: Plan, printed: Printed, flat: Flat) -> None:
    asked = replace(plan, steadiness=FOUND)
    text = flat(printed(asked))
    assert "rose petal 89.5 %" in text
    assert "rose throat out of reach; by luck 2 %" in text
    assert "rose between petal and fold 50 %" in flat(printed(asked))
    # √(0.5 · 0.5 ÷ 400) = 0.025
    assert "Standard error of each of these shares: 2.5 points at most." in text
    luckless = replace(asked, steadiness=replace(FOUND, stays=(1.0, 0.0, 1.0)))
    assert "throat out of reach rose between" in flat(printed(luckless))


def test_a_lead_is_told_as_one_only_beyond_luck(plan: Plan, tubes: tuple[Tube, ...]) -> None:
    def said(lead: float, error: float = 0.01) -> str:
        return rival_words(plan, replace(FOUND, rival=rival(tubes, lead, error=error), weighed=5))

    clear = said(0.05)
    assert clear.startswith("Steadier would be magenta and golden yellow (EUR 12.50, covers 69.5 %")
    assert "expected coverage 57 %, more than this one by 5.0 points (standard error 1.0" in clear
    assert "--steadiest --within 0.01" in clear
    assert said(-0.05).startswith("None is steadier. Next comes magenta")
    assert "less than this one by 5.0 points" in said(-0.05)
    for lead in (0.019, -0.019, 0.0):  # two standard errors are 0.02
        assert said(lead).startswith("None is steadier beyond luck.")
        assert "too little to tell" in said(lead)
    assert said(0.05, error=0.03).startswith("None is steadier beyond luck.")
    assert rival_words(plan, FOUND) == ""


def test_what_was_compared_is_told() -> None:
    assert weighed_words(FOUND) == (
        "Nothing to compare with: no other is among the palettes that cover at most 1 % less than"
        " the best, with no more tubes and within the budget."
    )
    some = replace(FOUND, weighed=20)
    assert "20 palettes, all of the palettes that cover at most 1 % less" in weighed_words(some)
    assert "those found that rank first of the palettes" in weighed_words(
        replace(some, all_weighed=False)
    )
    equals = replace(some, weighed=2, trials=replace(FOUND.trials, within=0.0))
    assert "2 palettes, all of the palettes that rank equal best." in weighed_words(equals)
    unproven = weighed_words(replace(FOUND, proven=False, all_weighed=False))
    assert "no other was found among the palettes that rank equal best." in unproven
    assert unproven.endswith("Others were not, since the choice is not proven.")


def test_coverage_given_up_is_told(
    plan: Plan, tubes: tuple[Tube, ...], printed: Printed, flat: Flat
) -> None:
    best = Certificate(Status.PROVEN, Method.SEARCH, 7150, 7150, 12, 0.5)  # 71.5 %, 1.5 % more
    found = taken(tubes, given_up=0.015, extra_cost=-120)
    text = flat(printed(replace(plan, steadiness=found, certificate=best)))
    assert "This choice is proven best" not in text
    assert "Proven best" not in text
    assert (
        "Taken for steadiness: 1.5 % of coverage is given up against the proven best choice."
        in text
    )
    assert "covers more than 71.5 % with the recipes followed exactly" in text
    assert "it covers 1.5 % less than and costs EUR 1.20 less than the one that ranks first" in text
    assert "which is simulated, not proven" in text
    assert "rank equal" not in text
    assert "Taken instead of magenta and golden yellow (EUR 12.50" in text
    assert "expected coverage 44 %, less than this one by 8.0 points" in text
    assert "1 colour has a recipe within tolerance that is not the nearest" in text


def test_money_spent_for_steadiness_is_told(
    plan: Plan, tubes: tuple[Tube, ...], printed: Printed, flat: Flat
) -> None:
    text = flat(printed(replace(plan, steadiness=taken(tubes, given_up=0.0, extra_cost=240))))
    assert "No choice covers more, which is proven; among those near it was taken" in text
    assert "it covers as much as and costs EUR 2.40 more than the one that ranks first" in text
    assert "none that covers as much takes fewer tubes" not in text  # it would be false now
    lesser = replace(taken(tubes, given_up=0.0, extra_cost=0), ranks_best=False)
    text = flat(printed(replace(plan, steadiness=lesser)))
    assert "it covers as much as and costs the same as the one that ranks first" in text


def test_an_equal_palette_keeps_its_proof(
    plan: Plan, tubes: tuple[Tube, ...], printed: Printed, flat: Flat
) -> None:
    found = taken(tubes, given_up=0.0, extra_cost=0)
    text = flat(printed(replace(plan, steadiness=found, ties=9)))
    assert "Proven best: no choice within EUR 20.00 and 3 tubes covers more" in text
    assert "9 palettes rank equal" in text
    assert "preferred as the steadier one" in text
    assert "less on average" not in text
    cut = flat(printed(replace(plan, steadiness=found, ties=9, ties_complete=False)))
    assert "At least 9 palettes rank equal" in cut
    kept = flat(printed(replace(plan, steadiness=FOUND, ties=9)))
    # The puddles are other recipes: of those nothing is said.
    assert "preferred since the nearest mixes of its tubes are off by less on average." in kept


def test_recipes_changed_are_counted() -> None:
    assert recipes_words(FOUND) == ""
    asked = replace(FOUND, trials=replace(FOUND.trials, choose=True))
    assert recipes_words(asked).startswith("Every colour has its nearest recipe")
    assert recipes_words(replace(asked, other_recipes=3)).startswith("3 colours have a recipe")


def test_the_table_has_a_further_column_when_asked(plan: Plan) -> None:
    text = recipes(replace(plan, steadiness=FOUND)).csv_text()
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert set(rows[0]) == {*recipes(plan).header, "stays_within"}
    assert [row["stays_within"] for row in rows] == ["89.5%", "2%", "50%"]


KEYS = (
    "seed draws within chosen_for_it variation expected_coverage standard_error"
    " coverage_5_percent coverage_95_percent stays_within palettes_compared all_compared"
    " taken_for_it proven ranks_best coverage_given_up extra_cost other_recipes rival"
)
RIVAL_KEYS = (
    "tubes cost coverage expected_coverage standard_error coverage_5_percent coverage_95_percent"
    " lead lead_standard_error steadier"
)
"""Regression pins, as in test_plan_json.py: who changes a key asks if the schema must rise."""


def test_the_keys_in_the_plan(plan: Plan, tubes: tuple[Tube, ...]) -> None:
    found = taken(tubes, given_up=0.015, extra_cost=-120)
    whole = json.loads(plan_json(replace(plan, steadiness=found)))
    assert set(whole) - set(json.loads(plan_json(plan))) == {"steadiness"}
    assert whole["schema"] == 1
    read = whole["steadiness"]
    assert set(read) == set(KEYS.split())
    assert set(read["rival"]) == set(RIVAL_KEYS.split())
    assert set(read["variation"]) == {"pigment_strength", "pigment_curve", "part", "wash", "fit"}
    assert read["stays_within"] == [0.895, 0.02, 0.5]
    assert (read["coverage_given_up"], read["extra_cost"]) == (0.015, "-1.20")
    assert (read["rival"]["tubes"], read["rival"]["lead"]) == (["magenta", "gold"], -0.08)
    alone = json.loads(plan_json(replace(plan, steadiness=FOUND)))["steadiness"]
    assert alone["rival"] is None


def test_hostile_names_do_no_harm(hostile: tuple[str, Plan], printed: Printed) -> None:
    _, plan = hostile
    found = replace(
        FOUND,
        stays=FOUND.stays[:2],
        rival=rival((plan.tubes[0].tube,), 0.05),
        weighed=2,
    )
    text = printed(replace(plan, steadiness=found))
    assert "\x1b" not in text
    assert "\x07" not in text
    assert max(map(len, text.splitlines())) <= 80


def test_an_empty_plan_can_be_told(empty_plan: Plan, printed: Printed, flat: Flat) -> None:
    nothing = Spread(0.0, 0.0, 0.0, 0.0)
    found = replace(FOUND, stays=(0.0,), spread=nothing)
    text = flat(printed(replace(empty_plan, steadiness=found)))
    assert "Expected coverage: 0 % (standard error 0.0 points), against 0 %" in text
