"""How far it is proven that no fewer puddles will do, in words."""

from fewtubes.words.counting import counted
from fewtubes.words.proof.claims import DOUBT, SIGN, for_fitted

__all__ = [
    "count_cell",
    "count_legend",
    "count_words",
    "fewest_label",
    "fewest_words",
    "least_puddles_words",
    "sitting_label",
    "sitting_words",
]


BARE = "bare paper"
"""What reaches a colour without a puddle."""

WHERE_BARE = f", where {BARE} would do"
"""Behind puddles that are mixed for what needs none."""


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
        return f"{counted(mixed, 'puddle')}{WHERE_BARE}." if mixed else "No puddle is needed."
    begins = f"{counted(number, 'puddle')}: "
    if mixed is None:
        begins = f"Alone it would take {counted(number, 'puddle')}: "
    elif number < mixed:
        begins = f"{counted(mixed, 'puddle')}, where {number:,} would do: "
    if number == bound:
        return f"{begins}fewer will not do, which is proven{paints}."
    return f"{begins}the fewest found; {_needed(bound)}fewer are not ruled out."


def fewest_label(number: int, bound: int, *, mixed: int) -> str:
    """Return the same in a few words, e.g. ``2 puddles``; what is not proven is marked.

    Parameters
    ----------
    number, bound
        The fewest found; how few are proven to be needed.
    mixed
        How many the recipes make, which may be more.
    """
    would_do = (f", where {number:,} would do" if number else WHERE_BARE) if number < mixed else ""
    return f"{counted(mixed, 'puddle')}{would_do}{DOUBT.worded(proven=number == bound)}"


def sitting_words(number: int, bound: int, *, fitted: bool) -> str:
    """Return how few puddles would do for all that is painted, in one sitting, in a sentence."""
    if not number:
        return f"Painted in one sitting, everything covered takes no puddle: {BARE} would do."
    begins = f"Painted in one sitting, everything covered takes {counted(number, 'puddle')}"
    if number == bound:
        return f"{begins}; fewer will not do, which is proven{for_fitted(fitted=fitted)}."
    return f"{begins}, the fewest found; {_needed(bound)}fewer are not ruled out."


def sitting_label(number: int, bound: int, *, fitted: bool) -> str:
    """Return the same in a short sentence."""
    if not number:
        return f"One sitting takes none: {BARE} would do."
    if number == bound:
        return f"One sitting takes {number:,}, proven the fewest{for_fitted(fitted=fitted)}."
    return f"One sitting takes {number:,}, the fewest found."


def _needed(bound: int) -> str:
    """Return how few are proven to be needed, before what is not; "" of one, which all know."""
    return f"{bound:,} or more are needed, but " if bound > 1 else ""


def count_cell(each_flower: int, one_sitting: int, *, proven: bool) -> str:
    """Return how few puddles a palette takes, for a cell of a table, e.g. ``14 (9)``."""
    return f"{each_flower:,} ({one_sitting:,}){SIGN.worded(proven=proven)}"


def count_legend(*, all_proven: bool, fitted: bool) -> str:
    """Return what such cells mean, in a sentence.

    Parameters
    ----------
    all_proven
        Whether each of them is proven.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    """
    sure = f"that fewer will not do is proven{for_fitted(fitted=fitted)}"
    doubt = "" if all_proven else ", but for those with ?, which are the fewest found"
    return (
        "Puddles: the fewest that reach all that is covered, for each flower by itself, and in"
        f" brackets for all in one sitting; {sure}{doubt}."
    )


def count_words(number: int, bound: int) -> str:
    """Return how few puddles will do, e.g. ``14, proven``."""
    return f"{number:,}, proven" if number == bound else f"{number:,} found, {bound:,} needed"


def least_puddles_words(
    tubes: str, each_flower: int, one_sitting: int, *, covered: str, first: str | None
) -> str:
    """Return which of equal palettes takes the fewest puddles, in a sentence.

    Parameters
    ----------
    tubes
        Its tubes, or those of each of them, parted by semicolons.
    each_flower, one_sitting
        How few it takes, proven.
    covered
        What they cover, e.g. ``92.3 %``.
    first
        How few the palette takes that ranks first, as a cell; None if it is that one.
    """
    than = "" if first is None else f"; the one that ranks first takes {first}"
    return (
        f"Of those that cover {covered} the fewest puddles, {each_flower:,} ({one_sitting:,} in one"
        f" sitting), are mixed from {tubes}{than}."
    )
