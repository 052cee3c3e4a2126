"""What a little more than the budget would buy; where it buys nothing, what it takes for all."""

from fewtubes.selection.certificate import Certificate
from fewtubes.selection.dearer import DearerStep, cheapest_of_all, dearer_steps
from fewtubes.selection.instance import Palette
from fewtubes.shopping.plan_parts import MoreMoney
from fewtubes.shopping.question import Question

__all__ = ["more_money"]

MOST_ASKED = 5
"""Tubes of which it is asked what they cost beside the palette where paint depends on it: those
that cost least by themselves. The cheapest of all is hardly ever another, and looking a little
further for its sake does no harm."""

REACH_SHARE = 10
"""Of the budget one part in so many is looked beyond it."""


def more_money(
    question: Question, best: Palette, certificate: Certificate, *, seconds: float
) -> tuple[MoreMoney, ...]:
    """Return the next steps of coverage against cost beyond the budget, cheapest first.

    They reach a tenth of the budget beyond it, or as far as the cheapest tube that may be bought.
    There are none where everything is covered that can be.
    Where the budget buys nothing, the last is the cheapest choice that covers as much as can be.
    Nothing is said where it is not proven how much the budget itself covers.

    Parameters
    ----------
    question, best, certificate
        The choice, its best palette, and what is proven of it.
    seconds
        Time after which the search stops with what it has [s].
    """
    if certificate.value != certificate.bound:
        return ()
    instance, state = question.instance, question.search_state
    if best.value == instance.value(range(instance.tube_count)):
        return ()
    reach = _reach(question, best)
    steps = dearer_steps(state, instance, best, reach=reach, seconds=seconds)
    if not best.bought:
        most = cheapest_of_all(state, instance, best, seconds=seconds)
        steps = _with_last(steps, most)
    total = sum(instance.weights)
    return tuple(
        MoreMoney(
            beyond=step.palette.cost - instance.budget,
            coverage=step.palette.value / total,
            tubes=tuple(question.tubes[number] for number in step.palette.bought),
            proven=step.proven,
        )
        for step in steps
    )


def _with_last(steps: tuple[DearerStep, ...], most: DearerStep | None) -> tuple[DearerStep, ...]:
    """Return the steps, and behind them the one that covers most unless one covers that already."""
    covered = max((step.palette.value for step in steps), default=0)
    return steps if most is None or most.palette.value <= covered else (*steps, most)


def _reach(question: Question, best: Palette) -> int:
    """Return how far beyond the budget to look [hundredths of the currency]."""
    share = -(-question.instance.budget // REACH_SHARE)
    sold = [
        number
        for number, tube in enumerate(question.tubes)
        if tube.id not in question.refused and number not in question.owned
    ]
    if question.instance.must_serve:  # each palette that is asked about must be mixed
        prices = question.instance.prices
        sold = sorted(sold, key=lambda number: (prices[number], number))[:MOST_ASKED]
    cheapest: int | None = None
    for number in sold:
        cost = question.cost_beside(question.tubes[number], best.bought)
        if cost <= share:
            return share
        cheapest = cost if cheapest is None else min(cost, cheapest)
    return max(share, cheapest or 0)
