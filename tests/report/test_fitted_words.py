"""A plan of fitted paints says what they are: in its proof, of their spread, and in its files."""

import io
import json
from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from rich.console import Console
from tests.fitted_tables import likely_about

from fewtubes.catalogue.records import Trait, Tube
from fewtubes.comparison.tube_listing import ListedTube
from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.variation import Variation
from fewtubes.report.illustrated.closing import sureness_section
from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.sentences.proof import note_words, plan_standing, space_words
from fewtubes.report.sentences.steadiness import assumption_words
from fewtubes.report.terminal.tubes import print_tubes
from fewtubes.report.terminal.unmixable import rule_words
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.steadiness import MonteCarlo, Spread, Steadiness

Printed = Callable[..., str]
Flat = Callable[[str], str]

PROOF = "proven best for these fitted paints"

ASKED = Steadiness(
    trials=MonteCarlo(),
    stays=(0.9, 0.1, 0.5),
    spread=Spread(expected=0.5, standard_error=0.01, low=0.3, high=0.7),
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


def as_fitted(tube: Tube) -> Tube:
    """Return a tube as if its pigments had been fitted."""
    pigments = [(replace(p, likely=likely_about(p)), share) for p, share in tube.pigments]
    return replace(tube, pigments=tuple(pigments))


def with_fitted(plan: Plan, places: Sequence[int]) -> Plan:
    """Return a plan in which the tubes in some places are fitted."""
    tubes = tuple(
        replace(planned, tube=as_fitted(planned.tube)) if place in places else planned
        for place, planned in enumerate(plan.tubes)
    )
    return replace(plan, tubes=tubes, fitted_paints=bool(places))


@pytest.fixture
def some(plan: Plan) -> Plan:
    """Return a plan of three tubes, one of them fitted."""
    return with_fitted(plan, [1])


def test_the_proof_says_for_which_paints(
    some: Plan, plan: Plan, printed: Printed, flat: Flat
) -> None:
    for said in (
        note_words(some),
        plan_standing(some),
        flat(printed(some)),
        flat(str(sureness_section(some))),
    ):
        assert PROOF in said.replace("Proven", "proven")
    assert "fitted" not in flat(printed(plan))


def test_a_plan_without_fitted_tubes_is_still_proven_among_fitted_ones(plan: Plan) -> None:
    others = replace(plan, fitted_paints=True)
    assert PROOF in note_words(others)
    assert "fitted" not in space_words(others)


def test_a_choice_taken_for_steadiness_says_so_too(some: Plan) -> None:
    taken = replace(some, steadiness=replace(ASKED, taken=True, ranks_best=False, given_up=0.01))
    assert note_words(taken).endswith(f"{PROOF.removeprefix('proven best ')}")
    assert plan_standing(taken).startswith("Proven for these fitted paints: no choice")


@pytest.mark.parametrize(
    ("places", "said"),
    [
        ([], "Paints are computed from profiles, not measured on your paper: try a mix"),
        (
            [1],
            "Paints are computed from profiles, 1 of 3 fitted from swatches, which are estimates,"
            " the others not measured on your paper: try a mix",
        ),
        (
            [0, 1, 2],
            "Paints are computed from profiles fitted from swatches, which are estimates: try a",
        ),
    ],
)
def test_where_colours_are_from(plan: Plan, places: list[int], said: str) -> None:
    assert said in space_words(with_fitted(plan, places))


def test_the_spread_of_fitted_paints_is_no_assumption(plan: Plan, some: Plan) -> None:
    batch = "pigment is stronger or weaker than its profile by 10 % and its curves are bent by 3 %"
    swatches = "fitted from swatches, is one of those that fit its swatches as well"
    origin = "no assumption: it follows from its swatches"
    none = assumption_words(plan, ASKED)
    assert f"every {batch}, every part" in none
    assert "swatches" not in none
    one = assumption_words(some, ASKED)
    assert f"the paint of 1 of 3 tubes, {swatches}, every other {batch}, every part" in one
    assert origin in one
    every = assumption_words(with_fitted(plan, [0, 1, 2]), ASKED)
    assert f"the paint of 3 of 3 tubes, {swatches}, every part is off" in every
    assert "profile" not in every
    assert origin in every
    half = replace(ASKED, trials=MonteCarlo(variation=Variation(fit=0.5)))
    assert "as well (taken 50 % of the way from the fit)" in assumption_words(some, half)


def test_plan_json_tells_which_tubes_are_fitted(plan: Plan, some: Plan) -> None:
    read = json.loads(plan_json(some))
    assert read["certificate"]["for_fitted_paints"] is True
    assert [tube["fitted"] for tube in read["tubes"]] == [False, True, False]
    assert json.loads(plan_json(plan))["certificate"]["for_fitted_paints"] is False


def test_a_code_that_is_not_known_is_null(plan: Plan, printed: Printed, flat: Flat) -> None:
    first = plan.tubes[0].tube
    pigment = replace(first.pigments[0][0], code="")
    tube = replace(first, pigments=((pigment, 1.0),))
    unknown = replace(plan, tubes=(replace(plan.tubes[0], tube=tube), *plan.tubes[1:]))
    assert json.loads(plan_json(unknown))["tubes"][0]["pigments"][0]["code"] is None
    assert "pigments not known" in flat(printed(unknown, width=120))


def listed(tube: Tube) -> str:
    """Return the list of one tube as it is printed."""
    console = Console(file=io.StringIO(), width=200)
    lab = (50.0, 10.0, 10.0)
    print_tubes([ListedTube(tube, 0.1, Transparency.TRANSPARENT, lab, lab)], console, of=1)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


def test_a_list_of_tubes_says_what_is_not_known(plan: Plan) -> None:
    tube = as_fitted(plan.tubes[0].tube)
    assert "PV19; fitted from swatches; lightfastness I" in listed(tube)
    assert "fitted" not in listed(plan.tubes[0].tube)
    pigment = replace(tube.pigments[0][0], code="", staining=None, granulating=None)
    bare = listed(replace(tube, pigments=((pigment, 1.0),), offers=()))
    assert "pigments not known; fitted" in bare
    assert "; staining not known; granulating not known;" in bare
    assert "\n  not for sale\n" in bare
    known = replace(pigment, code="PB29", staining=Trait.YES, granulating=Trait.NO)
    both = listed(replace(tube, pigments=((known, 0.75), (pigment, 0.25))))
    assert "PB29 75 %, pigment not known 25 %;" in both
    assert "; stains; granulating not known;" in both


def test_the_ranking_of_tubes_says_how_many_are_fitted(plan: Plan) -> None:
    tubes = [planned.tube for planned in with_fitted(plan, [0, 2]).tubes]
    mixed = [MixedTube(tube=tube, labs=(), matches=()) for tube in tubes]
    told = rule_words(mixed, count_twins=False)
    assert told.endswith("not measured, but for 2 tubes fitted from swatches, which are estimates.")
