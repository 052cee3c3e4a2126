"""How far one set of tubes for several scenarios is proven to be the best, in words."""

from fewtubes.words.proof.choice import Standing
from fewtubes.words.proof.claims import for_fitted
from fewtubes.words.shares import percents_apart

__all__ = ["none_keeps_words", "set_proof"]


def set_proof(
    standing: Standing,
    *,
    by_mean: bool,
    kept: bool,
    has: float,
    bound: float,
    fitted: bool,
    seconds: float,
) -> str:
    """Return what is proven of a set, in whole sentences.

    Parameters
    ----------
    standing
        How far it is proven.
    by_mean
        Whether the mean coverage was asked for; else the worst.
    kept
        Whether only sets count that cover of each scenario what it asks for at least.
    has, bound
        What it has of that, and what no set exceeds [0–1].
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    seconds
        Time that took [s].
    """
    paints = for_fitted(fitted=fitted)
    within = "within the money" + (" that covers what is asked for at least" if kept else "")
    what = "covers more on average" if by_mean else "has a better worst coverage"
    effort = f"By exact search in {max(seconds, 0.1):.1f} s."
    if standing is Standing.BEST:
        rest = "" if by_mean else "the best mean, then "
        return (
            f"Proven best{paints}: no set {within} {what}; of equal ones it has"
            f" {rest}the fewest tubes, and of those what fades least and costs least. {effort}"
        )
    if standing is Standing.MOST_COVERED:
        return (
            f"Only half proven{paints}: no set {within} {what}, but the search was stopped"
            f" before the rest was settled. {effort} Allow more with --seconds."
        )
    now, most = percents_apart(has, bound)
    which = "the mean" if by_mean else "the worst coverage"
    return (
        f"Not proven: the search was stopped before all sets were ruled out. Here {which} is {now};"
        f" none {within} exceeds {most}{paints}. {effort} Allow more with --seconds."
    )


def none_keeps_words(*, settled: bool, fitted: bool) -> str:
    """Return why a set is not asked to cover what scenarios ask for at least, without a stop.

    Parameters
    ----------
    settled
        Whether every set was ruled out; else none was found in the time.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    """
    if settled:
        return (
            f"No set within the money covers{for_fitted(fitted=fitted)} what is asked for at least"
            " of every scenario, which is proven"
        )
    return (
        "No set that covers what is asked for at least of every scenario was found before the"
        " search was stopped; there may be one"
    )
