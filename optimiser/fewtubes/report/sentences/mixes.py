"""What is said of the mixes of one colour."""

from fewtubes.comparison.mixes import Mixes

__all__ = ["lead_words"]


def lead_words(mixes: Mixes) -> str:
    """Return why the first mix stands before better ones; "" if none of them is better."""
    if not mixes.lasting_leads:
        return ""
    if len(mixes.rated) > 1:
        return (
            "The first leads because nothing in it fades; the second would go before it, but fades."
        )
    return "Nothing in it fades; one that would go before it does; --most 2 shows both."
