"""How near a choice comes to what is out of reach, beside its equals, in words."""

from fewtubes.words.counting import counted
from fewtubes.words.matches import difference, match_figure
from fewtubes.words.money import money

__all__ = ["nearest_words"]

HARDLY = 0.005
"""A mean that differs by less is printed alike [ΔE00]."""


def nearest_words(
    among: int,
    *,
    complete: bool,
    mean: float,
    without_wish: float,
    extra_cost: int,
    currency: str,
) -> str:
    """Return what the wish for nearness came to, in whole sentences.

    Parameters
    ----------
    among
        Choices compared that are equal but for the price, this one included.
    complete
        Whether these are all there are.
    mean, without_wish
        Mean match of what is out of reach, by importance, of the choice and of the one that would
        be taken without the wish [ΔE00].
    extra_cost
        What the choice costs more than that one [hundredths of the currency]; may be negative.
    currency
        ISO 4217 code.
    """
    if complete and among == 1:
        return (
            "No other choice equals this one in coverage and tubes, so none had to be compared by"
            f" how near it comes to what is out of reach: {difference(mean)} off on average."
        )
    some = f"Of the {counted(among, 'choice')} that equal each other in coverage and tubes"
    doubt = "" if complete else ", so far as they were looked at (there may be others)"
    said = (
        f"{some}{doubt}, this one comes nearest to what is out of reach: {difference(mean)} off on"
        " average"
    )
    if without_wish - mean < HARDLY:
        return f"{said}, as near as the one that would be taken without the wish."
    if extra_cost == 0:
        price = "the same money"
    else:
        more = "less" if extra_cost > 0 else "more"
        price = f"{money(abs(extra_cost), currency)} {more}"
    other = match_figure(without_wish)
    return f"{said}; without the wish another would be taken, {other} off, for {price}."
