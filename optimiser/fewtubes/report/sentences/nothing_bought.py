"""Why none of several sums buys anything, in words."""

from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.report.sentences.proof import standing_of
from fewtubes.shopping.question import Question
from fewtubes.shopping.refusals import BY_WISHES, Refusal
from fewtubes.words.money import money
from fewtubes.words.proof.choice import Standing
from fewtubes.words.proof.claims import NOTHING_TO_BUY

__all__ = ["why_nothing_sentence"]


def why_nothing_sentence(found: Instalments) -> str:
    """Return why nothing is bought at any time, in a sentence; blank where something is.

    What holds of every tube goes first, since it can be seen without a search: that nothing need be
    bought, that none can be, that no seller takes so small an order.
    """
    if found.purchases or found.order_only:
        return ""
    question = found.question
    if len(found.times[-1].palette.covered) == len(question.samples):
        return "Why nothing: what need not be bought does for all of it."
    said = _none_to_be_had(question) or _orders_too_small(question, sum(found.terms.sums))
    proven = standing_of(found.certificate) is not Standing.OPEN
    return f"Why nothing: {said or NOTHING_TO_BUY.worded(proven=proven)}"


def _none_to_be_had(question: Question) -> str:
    """Return that no tube can be had, as the end of a sentence; blank if one can."""
    owned, refused = question.scenario.wishes.all_owned, question.refused
    others = [id_ for id_ in question.catalogue.tubes if id_ not in owned]
    if any(id_ not in refused for id_ in others):
        return ""
    reasons = {refused[id_] for id_ in others} - BY_WISHES
    if not reasons:
        return "the wishes refuse every tube that is not owned."
    enough = " with enough in stock" if Refusal.TOO_LITTLE in reasons else ""
    currency = question.scenario.currency
    return f"no tube that the wishes allow to be bought is for sale in {currency}{enough}."


def _orders_too_small(question: Question, together: int) -> str:
    """Return that each least order is above all sums, as the end of a sentence; blank if not.

    Parameters
    ----------
    question
        What was asked.
    together
        All sums [hundredths of the currency].
    """
    catalogue, currency = question.catalogue, question.scenario.currency
    offers = [offer for tube in catalogue.tubes.values() for offer in tube.offers]
    named = {offer.seller for offer in offers if offer.currency == currency}
    named |= {one.seller for one in catalogue.sets.values() if one.currency == currency}
    least = [catalogue.sellers[id_].least_order if id_ else 0 for id_ in named]
    if not least or min(least) <= together:
        return ""
    smallest, there = money(min(least), currency), money(together, currency)
    return f"no seller takes an order below {smallest}, and all sums together are {there}."
