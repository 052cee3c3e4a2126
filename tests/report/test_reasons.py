"""Why a colour stays out of reach, in sentences that hold for every tube they speak of."""

from dataclasses import replace

from fewtubes.report.sentences.reasons import reason_words
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Obstacle


def test_of_tubes_that_are_not_sold_nothing_is_said(plan: Plan) -> None:
    """Only what is sold in the currency was looked at; another tube might well bring it."""
    missed = next(planned for planned in plan.samples if not planned.covered)
    alone = replace(missed, obstacle=Obstacle.BUDGET, remedies=())
    said = reason_words(alone, plan.scenario)
    assert said.endswith("No one tube more that is sold in EUR would bring it.")
