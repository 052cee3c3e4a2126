"""What to take in the shop for a tube that is sold out."""

import time
from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.comparison.reasons import StandIn
from fewtubes.comparison.stand_in_price import stand_in_of
from fewtubes.comparison.stand_ins import best_swap
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.question import Question

__all__ = ["SoldOut", "if_sold_out"]


@dataclass(frozen=True, eq=False)
class SoldOut:
    """A tube of the shopping list, and the best single one in its place."""

    tube: Tube
    stand_in: StandIn | None
    """None if no single tube that the money allows brings anything in its place."""
    proven: bool
    """Whether every tube of the catalogue was tried in its place; if not, none is named."""


def if_sold_out(question: Question, plan: Plan, *, seconds: float) -> tuple[SoldOut, ...]:
    """Return for each tube to buy what stands in for it; all other tubes are kept.

    Every single tube is tried that the wishes allow and that the money left pays, so what is found
    is the best; see `fewtubes.comparison.stand_ins.best_swap`.

    Parameters
    ----------
    question, plan
        The plan answers the question.
    seconds
        Time after which the tubes that are left are not looked at [s].
    """
    until = time.monotonic() + seconds
    if not plan.bought:
        return ()
    instance, values = question.instance, CoveredWeight(question.instance)
    bought = tuple(question.numbers[planned.tube.id] for planned in plan.bought)
    found = []
    for planned, number in zip(plan.bought, bought, strict=True):
        proven = time.monotonic() < until
        swap = best_swap(instance, values, bought, number) if proven else None
        stand_in = None
        if swap is not None:
            tube = question.tubes[swap.tube]
            kept = frozenset(bought) - {number}
            stand_in = stand_in_of(question, tube, kept, values.share(swap.value))
        found.append(SoldOut(planned.tube, stand_in, proven))
    return tuple(found)
