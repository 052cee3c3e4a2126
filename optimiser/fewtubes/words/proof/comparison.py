"""How far a comparison of palettes is proven, in words: sizes, near-best palettes, Pareto front."""

from collections.abc import Sequence

from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.proof.claims import for_fitted

__all__ = [
    "END_OF_SIZES_DOUBT",
    "comparison_proof",
    "found_in_doubt",
    "front_proof",
    "near_best_words",
    "never_words",
    "no_cost_words",
    "picture_proof",
]


END_OF_SIZES_DOUBT = "It is not proven that still more tubes within the budget would cover no more."
"""Below a list of sizes that may end too early."""


def near_best_words(
    count: int, *, least: str, kind: str, only: str, complete: bool, proven: bool
) -> str:
    """Return how many palettes come near the best, in a sentence.

    Parameters
    ----------
    count
        Palettes listed; one alone is not all of them.
    least, kind
        What each covers at least, e.g. ``90 %``; what is bought, e.g. ``tube``.
    only
        Which it is, where one alone is known, e.g. ``the one above``.
    complete, proven
        Whether all are listed; whether those listed rank first.
    """
    if count == 1:
        what = f"palette within the budget covers {least} or more with no {kind} it could do"
        if proven:
            return f"More than one {what} without; none of them ranks before {only}."
        return (
            f"At least one {what} without: {only}; the search was stopped, so others that rank"
            " before it may exist."
        )
    what = f"within the budget that cover {least} or more with no {kind} they could do without"
    if complete:
        return f"There are {count} palettes {what}; they are listed as they rank."
    if proven:
        return (
            f"There are more than {count} palettes {what}; these are the {count} that rank first."
        )
    return (
        f"At least {counted(count, 'palette')} {what}; the search was stopped, so others that rank"
        " before these may exist."
    )


def no_cost_words(covered: str, *, proven: bool) -> str:
    """Return that a floor costs nothing, or that no cost of it is known, to follow its name."""
    if proven:
        return f"costs nothing; {covered} within the budget for as little money"
    return f"costs nothing so far as is known; {covered} within the budget for the same money"


def never_words(covered: str, most: str, *, proven: bool) -> str:
    """Return that under a floor a coverage is out of reach, or that it was not reached.

    Parameters
    ----------
    covered, most
        What is covered without the floor; the most with it, at any price.
    proven
        Whether nothing covers more.
    """
    if proven:
        return f"no money would buy {covered}, the most is {most}"
    return f"the most found at any price is {most}"


def comparison_proof(open_parts: Sequence[str], *, seconds: float, fitted: bool) -> str:
    """Return whether a whole comparison is proven, in whole sentences.

    Parameters
    ----------
    open_parts
        What of it is not.
    seconds
        Time that the proofs took [s].
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    """
    paints = for_fitted(fitted=fitted)
    effort = f"The proofs took {seconds:.1f} s."
    if not open_parts:
        return (
            f"All of it is proven by exact search{paints}: no size could do better, no"
            " palette listed here is out of order, and no step of the trade-off is missing."
            f" {effort}"
        )
    return (
        "Not all of it is proven, because the search was stopped by the limit of time; better may"
        f" exist. Open: {joined(list(open_parts))}. {effort} Allow more with --seconds."
    )


def front_proof(steps: int, unproven: int, *, complete: bool, fitted: bool) -> str:
    """Return how many steps a Pareto front has, and whether all are known, in whole sentences.

    Parameters
    ----------
    steps, unproven
        Steps found, and those of them that are not proven.
    complete
        Whether every step is proven and none is missing.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    """
    if unproven == steps:
        return f"{counted(steps, 'step')}, none of them proven in time; others may be missing."
    where = "at each not marked ?" if unproven else "at each"
    words = (
        f"{counted(steps, 'step')}: {where}, no palette covers more for as little, and none as much"
        " for less."
    )
    if complete:
        return f"{words} All are proven{for_fitted(fitted=fitted)}, and there is no other."
    words += f" That is proven{for_fitted(fitted=fitted)}." if fitted else ""
    if not unproven:
        return f"{words} Others may be missing, since the time was too short to rule them out."
    return (
        f"{words} {counted(unproven, 'step')}, marked ?, could not be proven in time, and others"
        " may be missing."
    )


def picture_proof(unproven: int, *, complete: bool, fitted: bool) -> str:
    """Return the same beside the picture of a front, which need not count its steps."""
    paints = for_fitted(fitted=fitted)
    if complete:
        return f"Proven{paints}: none covers more for as little money, and no step is missing."
    if unproven:
        return "Not every step is proven; a question mark stands at those that are not."
    return (
        f"Every step is proven{paints}, but others may be missing: the time was too short to rule"
        " them out."
    )


def found_in_doubt(unproven: int) -> str:
    """Return how many of the things just counted are not proven, or ``""``."""
    return f", {unproven} of them not proven" if unproven else ""
