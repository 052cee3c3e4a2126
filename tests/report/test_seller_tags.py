"""What a tube costs beside a plan, told with who sells it where there are several sellers."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from tests.report.conftest import VIOLET as DEEP_VIOLET
from tests.report.test_by_seller import BOX, POST, STALL

from fewtubes.comparison.box_findings import Addition
from fewtubes.comparison.reasons import Route, StandIn
from fewtubes.comparison.sold_out import SoldOut
from fewtubes.report.sentences.purchase import added_words, sold_words, stand_in_words
from fewtubes.report.sentences.reasons import reason_words
from fewtubes.report.sentences.routes import cheapest_words, singles_words
from fewtubes.report.sentences.sold_out import sold_out_words
from fewtubes.report.terminal.box import addition_note
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Nearer, PlannedSample, Remedy
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.sources import Source

Printed = Callable[..., str]

VIOLET = replace(DEEP_VIOLET, name="violet")

AT_STALL, BY_POST, IN_BOX = Source(STALL), Source(POST), Source(STALL, BOX)


@pytest.mark.parametrize(
    ("price", "source", "in_set", "said"),
    [
        (725, None, False, "EUR 7.25"),
        (725, BY_POST, False, "by post, north; EUR 7.25 more"),
        (0, IN_BOX, True, "market stall, in box of three; at no further cost"),
        (0, None, False, "owned"),
    ],
)
def test_what_it_adds_is_told_as_more(
    price: int, source: Source | None, in_set: bool, said: str
) -> None:
    assert added_words(price, "EUR", source, in_set=in_set) == said


def test_a_stand_in_is_told_with_what_all_costs_then(plan: Plan) -> None:
    """The plan costs 19.00; what is exchanged may make others cheaper elsewhere."""
    told = StandIn(VIOLET, 10, 0.6, total=1910, source=BY_POST)
    assert stand_in_words(told, plan) == ("by post, north; EUR 19.10 in all instead of EUR 19.00")
    same = replace(told, total=1900, source=IN_BOX)
    assert stand_in_words(same, plan) == "market stall, in box of three; EUR 19.00 in all as before"
    assert stand_in_words(replace(told, source=None), plan) == "EUR 0.10"
    out = sold_out_words(SoldOut(plan.tubes[0].tube, told, proven=True), plan)
    assert out == (
        "If sold out: violet (by post, north; EUR 19.10 in all instead of EUR 19.00); covers 60 %"
        " instead of 70 %."
    )


def test_routes_are_told_with_sellers() -> None:
    single = Route((VIOLET,), 725, (None,), sources=(BY_POST,))
    assert singles_words([single], "EUR") == (
        "One tube more would bring it: violet (by post, north; EUR 7.25 more)."
    )
    two = Route((VIOLET, VIOLET), 1450, (None, Refusal.LIGHTFASTNESS), sources=(AT_STALL, BY_POST))
    assert cheapest_words(two, "EUR") == (
        "Cheapest to add: violet (market stall); and violet (by post, north; which fades more than"
        " is asked for), together EUR 14.50 more, though the wishes rule that out."
    )


@pytest.fixture
def missed(plan: Plan) -> PlannedSample:
    return next(planned for planned in plan.samples if not planned.covered)


def test_the_list_of_what_is_out_of_reach_has_a_column_for_sellers(
    plan: Plan, missed: PlannedSample, printed: Printed
) -> None:
    assert "sold by" not in printed(plan)

    def shown(**changes: object) -> list[str]:
        one = replace(missed, **{"remedies": (), **changes})  # type: ignore[arg-type]
        samples = tuple(one if sample is missed else sample for sample in plan.samples)
        text = printed(replace(plan, samples=samples), width=140, full=False)
        lines = text.splitlines()
        at = next(place for place, line in enumerate(lines) if line.startswith("out of reach"))
        return [" ".join(line.split()) for line in lines[at : at + 2]]

    remedy = Remedy(VIOLET, 725, allowed=True, source=IN_BOX)
    assert shown(remedies=(remedy,)) == [
        "out of reach ΔE00 what would bring it sold by EUR more",
        "rose / throat 6.1 violet market stall, in box of three 7.25",
    ]
    two = (replace(remedy, source=AT_STALL), replace(remedy, source=BY_POST))
    assert shown(together=two)[1].endswith(
        "both violet and violet market stall; and by post, north 14.50"
    )
    near = Nearer(VIOLET, 725, 5.0, source=BY_POST)
    assert shown(nearer=near)[1].endswith("nearer, ΔE00 5.0: violet by post, north 7.25")


def test_sentences_name_sellers(plan: Plan, missed: PlannedSample) -> None:
    remedy = Remedy(VIOLET, 725, allowed=True, source=AT_STALL)
    near = Nearer(VIOLET, 725, 5.0, source=BY_POST)
    said = reason_words(replace(missed, remedies=(remedy,), nearer=near), plan.scenario)
    assert "would bring it: violet (market stall; EUR 7.25 more)." in said
    assert "nearest is violet (by post, north; EUR 7.25 more): from" in said
    assert sold_words(VIOLET, IN_BOX) == "violet (market stall, in box of three)"


def test_what_the_box_lacks_is_told_with_its_seller() -> None:
    addition = Addition(VIOLET, 725, 0.2, affordable=False, source=BY_POST)
    assert addition_note(addition) == "by post, north; beyond the budget"
    assert addition_note(replace(addition, affordable=True)) == "by post, north"
    assert addition_note(replace(addition, affordable=True, source=None)) == ""


def test_a_name_of_a_seller_is_safe_to_print() -> None:
    bad = Source(replace(STALL, name="a\x1b[31mstall"))
    assert "\x1b" not in added_words(100, "EUR", bad, in_set=False)
