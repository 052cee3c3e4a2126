"""Parts of sentences that depend on whether what they tell is proven."""

from dataclasses import dataclass

__all__ = [
    "AT_LEAST",
    "AT_MOST",
    "BEST_WITHOUT",
    "COVERS_MOST",
    "DOUBT",
    "FEWEST_TUBES",
    "GREATEST_COVERAGE",
    "LEAST_MONEY",
    "LEAST_THAT_COVERS",
    "LEGEND",
    "MOST_AT_ALL",
    "MOST_FOR_MONEY",
    "NOTHING_TO_BUY",
    "NO_GAIN",
    "NO_MORE_WITH_ONE_MORE",
    "PALETTE_DOUBT",
    "SIGN",
    "SMALLEST_BUDGET",
    "TABLE_MARK",
    "UNWEIGHED",
    "Claim",
    "for_fitted",
]

FOR_FITTED = " for these fitted paints"
"""Behind what is proven of paints that were fitted from swatches: a fit is an estimate of a paint,
and what is proven of the one need not hold of the other."""


def for_fitted(*, fitted: bool) -> str:
    """Return for which paints something is proven, or ``""`` if none of them was fitted."""
    return FOR_FITTED if fitted else ""


@dataclass(frozen=True)
class Claim:
    """Part of a sentence that depends on whether what it tells is proven."""

    proven: str
    unproven: str

    def worded(self, *, proven: bool) -> str:
        """Return what may be said."""
        return self.proven if proven else self.unproven


AT_LEAST = Claim("", "at least ")
"""Before a figure that may be too low."""


AT_MOST = Claim("", "at most ")
"""Before a figure that may be too high."""


SIGN = Claim("", "?")
"""At a step of the Pareto front."""


TABLE_MARK = Claim("", "not proven")
"""In a row of a table."""


DOUBT = Claim("", " (not proven)")
"""Behind a claim."""


PALETTE_DOUBT = Claim("", " (not proven; there may be a better one)")
"""Behind the tubes of a palette."""


COVERS_MOST = Claim("the palette that covers most", "the palette found that covers most")
"""What is listed for each number of tubes."""


LEAST_THAT_COVERS = Claim("The least money that covers", "The least money found that covers")
"""Above palettes for round coverages."""


NO_MORE_WITH_ONE_MORE = Claim("one more gains nothing", "none better was found in the time")
"""Of a number of tubes whose palette is that of the number before."""


BEST_WITHOUT = Claim("The best choice", "A choice")
"""Begins a sentence on what covers how much without some tubes."""


MOST_FOR_MONEY = Claim("can be covered", "is known to be covered")
"""Of a dab in the picture of the front: the most that … for its money."""


LEGEND = Claim(
    "Each dab: the most that can be covered for its money.",
    "Each dab: the most found for its money; ? not proven.",
)
"""Under that picture where it stands alone."""


NO_GAIN = Claim(
    "No tube that may be bought gains anything.",
    "No tube that gains anything was found in time.",
)


MOST_AT_ALL = Claim("", "So far as is known, ")
"""Before the most that any money can buy."""


NOTHING_TO_BUY = Claim(
    "no tube that budget and wishes allow would bring more.",
    "no tube was found that would bring more; that there is none is not proven.",
)
"""Ends a sentence on why nothing is bought."""


LEAST_MONEY = Claim("", " (whether less would do is not proven)")
"""Behind what some money beyond the budget covers."""


UNWEIGHED = Claim("", " Others were not, since the choice is not proven.")
"""Behind which palettes were compared for steadiness."""


SMALLEST_BUDGET = Claim("The smallest budget that would do is", "A budget that would do is")


FEWEST_TUBES = Claim("The fewest tubes that would do are", "A number of tubes that would do is")


GREATEST_COVERAGE = Claim(
    "The greatest coverage within the rest is", "A coverage that can be had is"
)
"""This and the two before it begin sentences on what to ask for where demands clash."""
