"""How far an order of buying is proven to be the best, in words."""

from fewtubes.words.proof.choice import Standing
from fewtubes.words.proof.claims import for_fitted
from fewtubes.words.shares import percents_apart

__all__ = ["given_up_words", "nothing_note", "order_note", "order_proof"]


def order_note(standing: Standing, *, fitted: bool) -> str:
    """Return how far an order is proven, as the end of a sentence without full stop."""
    paints = for_fitted(fitted=fitted)
    if standing is Standing.BEST:
        return f"this order is proven best{paints}"
    if standing is Standing.MOST_COVERED:
        return f"that no order covers more is proven{paints}, the rest is not"
    return "it is not proven that no order is better"


def nothing_note(standing: Standing, *, fitted: bool) -> str:
    """Return how far it is proven that nothing is worth buying, as the end of a sentence."""
    if standing is Standing.OPEN:
        return "it is not proven that nothing within these sums is worth buying"
    return f"it is proven{for_fitted(fitted=fitted)} that no order of buying covers more"


def order_proof(
    standing: Standing,
    *,
    mean: float,
    bound: float,
    fading_first: bool,
    given: bool,
    under_terms: bool,
    fitted: bool,
    method: str,
    seconds: float,
) -> str:
    """Return what the certificate of an order of buying says, in whole sentences.

    Parameters
    ----------
    standing
        How far it is proven.
    mean, bound
        Its coverage on average, and what no order exceeds [0–1].
    fading_first
        Whether the tubes that fade are counted before the price.
    given
        Whether the tubes were given, so that all orders end with the same.
    under_terms
        Whether what is paid in all hangs on what is bought together.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    method, seconds
        What proved it, and the time that took [s].
    """
    paints = for_fitted(fitted=fitted)
    effort = f"By {method} in {max(seconds, 0.1):.1f} s."
    if standing is Standing.BEST:
        return (
            f"Proven best{paints}: no order of buying within these sums covers more on average."
            f" {_equals(fading_first=fading_first, given=given, under_terms=under_terms)} {effort}"
        )
    if standing is Standing.MOST_COVERED:
        return (
            f"Only half proven{paints}: no order of buying within these sums covers more on"
            " average, but the search was stopped before fewer tubes, more lasting ones or less"
            f" money for as much were ruled out. {effort} Allow more with --seconds."
        )
    covers, most = percents_apart(mean, bound)
    return (
        "Not proven: the search was stopped by a limit of time or number before all orders were"
        f" ruled out. This one covers {covers} on average; none within these sums covers more than"
        f" {most}{paints}. {effort} Allow more with --seconds."
    )


def _equals(*, fading_first: bool, given: bool, under_terms: bool) -> str:
    """Return how those that are worth as much rank, in a sentence."""
    if given:
        cheapest = "costs least in all, then " if under_terms else ""
        return (
            f"Of those that cover as much it {cheapest}covers most soonest, then spends least"
            " soonest."
        )
    fade = ", then the fewest that fade" if fading_first else ""
    return (
        f"Of those that cover as much it ends with the fewest tubes{fade}, then the lowest price,"
        " then the best lightfastness; then it covers most soonest and spends least soonest."
    )


def given_up_words(most: str, *, proven: bool, given: bool) -> str:
    """Return what an order gives up against buying at once from nothing, in a sentence.

    Parameters
    ----------
    most
        The most that is given up at any time, in per cent; blank if nothing is.
    proven
        Whether what could be had at once is proven; else it may be less.
    given
        Whether the tubes were given, so that only they are compared.
    """
    which = " of these tubes" if given else ""
    against = f"the best choice{which} for all the money there is by then, bought at once"
    if not most:
        return f"Buying in this order gives up nothing at any time against {against} from nothing."
    surely = "" if proven else " (maybe less: what could be had at once is not proven)"
    return (
        f"Buying in this order gives up at most {most} of what is to be painted at any time against"
        f" {against} from nothing{surely}."
    )
