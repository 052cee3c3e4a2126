"""Prices when tubes are bought bit by bit: tube by tube, or not at all.

Where a charge for delivery, a least order, a set, or paint that hangs on the palette makes the cost
of a tube depend on what is bought with it, buying twice costs otherwise than buying once. Orders of
buying are ranked by sums of single prices, so such a question is refused rather than told wrongly.
"""

from collections.abc import Iterator
from dataclasses import replace

from fewtubes.errors import Fault, InputError
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.shopping.question import Question
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["priced_singly", "refuse_joint_prices"]


def refuse_joint_prices(question: Question) -> None:
    """Refuse a question in which the cost of a tube hangs on what is bought with it.

    Raises
    ------
    InputError
        If it does; all that brings it about is told.
    """
    reasons = [*_reasons(question)]
    if reasons:
        told = (
            f"buying bit by bit reckons with prices of single tubes, and here there"
            f" {'is' if reasons[0].startswith('a ') else 'are'} {joined(reasons)}, so that what a"
            " tube costs hangs on what is bought with it; ask what to buy at once for the money"
            f" there is now (`fewtubes shop`, or on the page), or {_remedy(question)}."
        )
        raise InputError([Fault("sums", told)])


def _remedy(question: Question) -> str:
    """Return what to leave out, as the end of a sentence."""
    planned = question.terms is not None and question.terms.needs_of is not None
    return "leave the pictures out" if planned else "take a price list without"


def _reasons(question: Question) -> Iterator[str]:
    """Yield what makes a purchase cost anything else than the sum of its tubes' own prices."""
    if question.on_sale is None:
        return
    terms = question.on_sale.terms
    sellers = list(zip(terms.sellers, question.on_sale.sellers, strict=True))
    charging = [printable(who.name) for asked, who in sellers if who and asked.delivery]
    if charging:
        yield f"a charge for delivery ({joined(charging)})"
    least = [printable(who.name) for asked, who in sellers if who and asked.least_order]
    if least:
        yield f"a least order ({joined(least)})"
    if terms.sets:
        yield f"sets ({joined([printable(one.name) for one in question.on_sale.sets])})"
    if terms.needs_of is not None:
        yield "pictures planned, whose mixes take more of one tube where another is missing"


def priced_singly(question: Question, instance: ChoiceInstance) -> ChoiceInstance:
    """Return a choice with the price of each tube alone, exact where nothing was refused.

    Parameters
    ----------
    question
        What is asked, with no price that hangs on another tube (`refuse_joint_prices`).
    instance
        Its choice, or one of some of its tubes.
    """
    terms = instance.terms
    if terms is None:
        return instance
    beyond = instance.budget + 1
    alone = [cheapest_cost(terms, (number,)) for number in range(instance.tube_count)]
    out = {question.numbers[id_] for id_ in question.refused}
    return replace(
        instance,
        terms=None,
        prices=tuple(
            0 if number in instance.owned
            else beyond if price is None or number in out
            else price
            for number, price in enumerate(alone)
        ),
    )  # fmt: skip
