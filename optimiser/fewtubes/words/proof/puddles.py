"""How far it is proven that no fewer puddles will do, in words."""

from fewtubes.words.counting import counted
from fewtubes.words.proof.claims import DOUBT, for_fitted

__all__ = ["fewest_label", "fewest_words", "sitting_label", "sitting_words"]


def fewest_words(number: int, bound: int, *, mixed: int | None, fitted: bool) -> str:
    """Return how many puddles something takes, in a sentence.

    Parameters
    ----------
    number, bound
        The fewest found; how few are proven to be needed.
    mixed
        How many the recipes make, which may be more; None where they are shared with others.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    """
    paints = for_fitted(fitted=fitted)
    if not number:
        return "No puddle is needed."
    begins = f"{counted(number, 'puddle')}: "
    if mixed is None:
        begins = f"Alone it would take {counted(number, 'puddle')}: "
    elif number < mixed:
        begins = f"{counted(mixed, 'puddle')}, where {number:,} would do: "
    if number == bound:
        return f"{begins}fewer will not do, which is proven{paints}."
    return f"{begins}the fewest found; {bound:,} or more are needed, but fewer are not ruled out."


def fewest_label(number: int, bound: int, *, mixed: int) -> str:
    """Return the same in a few words, e.g. ``2 puddles``; what is not proven is marked.

    Parameters
    ----------
    number, bound
        The fewest found; how few are proven to be needed.
    mixed
        How many the recipes make, which may be more.
    """
    would_do = f", where {number:,} would do" if number < mixed else ""
    return f"{counted(mixed, 'puddle')}{would_do}{DOUBT.worded(proven=number == bound)}"


def sitting_words(number: int, bound: int, *, fitted: bool) -> str:
    """Return how few puddles would do for all that is painted, in one sitting, in a sentence."""
    begins = f"Painted in one sitting, everything covered takes {counted(number, 'puddle')}"
    if number == bound:
        return f"{begins}; fewer will not do, which is proven{for_fitted(fitted=fitted)}."
    return f"{begins}, the fewest found; fewer than {bound:,} will not do."


def sitting_label(number: int, bound: int, *, fitted: bool) -> str:
    """Return the same in a short sentence."""
    if number == bound:
        return f"One sitting takes {number:,}, proven the fewest{for_fitted(fitted=fitted)}."
    return f"One sitting takes {number:,}, the fewest found."
