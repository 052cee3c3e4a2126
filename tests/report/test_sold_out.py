"""What to take for a tube that is sold out, in words and on the shopping list."""

from dataclasses import replace

import numpy as np
import pytest
from tests.report.test_illustrated import optics_on

from fewtubes.catalogue.records import Paper
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.comparison.reasons import StandIn
from fewtubes.comparison.sold_out import SoldOut
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.palette import shopping_section
from fewtubes.report.sentences.sold_out import sold_out_words, tried_words
from fewtubes.shopping.plan import Plan


def told(plan: Plan, coverage: float | None, *, proven: bool = True) -> str:
    """Return the sentence for the first tube, whose stand-in is the third at 7.25."""
    tube = plan.tubes[0].tube
    stand_in = None if coverage is None else StandIn(plan.tubes[2].tube, 725, coverage)
    return sold_out_words(SoldOut(tube, stand_in, proven), plan)


def test_what_it_costs_is_told(plan: Plan) -> None:
    assert told(plan, 0.7) == "If sold out: blue, EUR 7.25; covers as much."
    assert told(plan, 0.6) == "If sold out: blue, EUR 7.25; covers 60 % instead of 70 %."
    # Shares that would print alike are told apart.
    assert told(plan, 0.69996) == "If sold out: blue, EUR 7.25; covers 69.996 % instead of 70 %."
    assert told(plan, None) == (
        "If sold out: nothing stands in for it; no single tube that the money allows would."
    )


def test_what_was_not_looked_for_is_not_claimed(plan: Plan) -> None:
    assert "time ran out" in told(plan, None, proven=False)
    assert "nothing stands in" not in told(plan, None, proven=False)


@pytest.mark.parametrize(("fitted", "said"), [(False, "(proven,"), (True, "(proven for these fit")])
def test_proof_holds_for_fitted_paints_as_fitted(plan: Plan, said: str, *, fitted: bool) -> None:
    assert said in tried_words(replace(plan, fitted_paints=fitted))


def test_each_tube_to_buy_has_a_box_to_tick_and_a_stand_in(plan: Plan) -> None:
    optics = optics_on(Paper("white", "white", np.full(BAND_COUNT, 0.88)))
    items = tuple(
        SoldOut(it.tube, StandIn(plan.tubes[2].tube, 725, 0.6), proven=True) for it in plan.bought
    )
    list_ = shopping_section(Basis(plan, optics, items))
    assert list_.count('class="tick"') == len(plan.bought) == 2
    assert list_.count("If sold out: blue, EUR\u00a07.25") == 2
    assert list_.count("every single tube tried") == 1
    without = shopping_section(Basis(plan, optics))
    assert without.count('class="tick"') == 2
    assert "sold out" not in without
