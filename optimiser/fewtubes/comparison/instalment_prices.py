"""Prices when tubes are bought bit by bit: tube by tube, or purchase by purchase.

Where a charge for delivery, a least order or a set makes the cost of a tube depend on what is
bought with it, each time's purchase is priced as a whole, under the sellers' terms. Everywhere else
each tube has a price of its own, and sums of them are exact. Not reckoned with is paint that hangs
on the palette, and a price for two that is below that of one; such a question is refused rather
than told wrongly.
"""

from collections.abc import Iterator
from dataclasses import replace

from fewtubes.errors import Fault, InputError
from fewtubes.selection.instalments import parts_well
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.shopping.question import Question
from fewtubes.words.lists import joined

__all__ = ["priced", "refuse_unreckoned"]


def refuse_unreckoned(question: Question) -> None:
    """Refuse a question whose purchases cannot be parted among several times.

    Raises
    ------
    InputError
        If it cannot be; all that brings it about is told.
    """
    reasons = [*_reasons(question)]
    if reasons:
        told = (
            f"buying bit by bit does not reckon with {joined(reasons)}, so that what a tube costs"
            " hangs on what is bought with it; ask what to buy at once for the money there is now"
            f" (`fewtubes shop`, or on the page), or {_remedy(question)}."
        )
        raise InputError([Fault("sums", told)])


def _remedy(question: Question) -> str:
    """Return what to leave out, as the end of a sentence."""
    planned = question.terms is not None and question.terms.needs_of is not None
    return "leave the pictures out" if planned else "take a price list without"


def _reasons(question: Question) -> Iterator[str]:
    """Yield what is not reckoned with."""
    if question.terms is None:
        return
    if question.terms.needs_of is not None:
        yield "pictures planned, whose mixes take more of one tube where another is missing"
    elif _joint(question) and not parts_well(question.terms):
        yield "a price at which two of a pack cost less than one"


def _joint(question: Question) -> bool:
    """Return whether a purchase may cost anything else than the sum of its tubes' own prices."""
    terms = question.terms
    return terms is not None and bool(
        terms.sets or any(seller.delivery or seller.least_order for seller in terms.sellers)
    )


def priced(question: Question, *, given: bool) -> ChoiceInstance:
    """Return the choice with what purchases cost: under terms, or by the price of each tube alone.

    Parameters
    ----------
    question
        What is asked; nothing in it is refused (`refuse_unreckoned`).
    given
        Whether the tubes that must be bought, and those owned, are all that is used. Packs of
        others are on sale all the same, for a least order or a delivery free of charge.
    """
    instance = question.instance
    if given:
        others = frozenset(range(instance.tube_count)) - instance.must_have - instance.owned
        instance = replace(question.instance_without(others), least_value=0)
    if _joint(question):
        return replace(instance, terms=question.terms)
    return _priced_singly(question, instance)


def _priced_singly(question: Question, instance: ChoiceInstance) -> ChoiceInstance:
    """Return a choice with the price of each tube alone, exact where nothing was refused.

    Parameters
    ----------
    question
        What is asked, with no price that hangs on another tube.
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
