"""How far a choice is proven to be the best, in words."""

from enum import Enum, auto

from fewtubes.mixing.likeness import TWINS
from fewtubes.words.matches import limit_words
from fewtubes.words.proof.claims import AT_LEAST, for_fitted
from fewtubes.words.shares import percent, percents_apart

__all__ = [
    "Standing",
    "best_of_many",
    "no_choice_found",
    "not_on_sale_words",
    "one_of_each_words",
    "purse_words",
    "standing_label",
    "standing_note",
    "standing_proof",
    "steady_note",
    "steady_proof",
    "ties_words",
]


class Standing(Enum):
    """How far a choice is proven to be the best."""

    BEST = auto()
    """Nothing ranks before it."""
    MOST_COVERED = auto()
    """Nothing covers more; fewer tubes or less money for as much are not ruled out."""
    OPEN = auto()
    """Something may cover more."""
    IMPOSSIBLE = auto()
    """No choice meets the demands."""


LABELS = {
    Standing.BEST: "proven best",
    Standing.MOST_COVERED: "half proven",
    Standing.OPEN: "not proven",
    Standing.IMPOSSIBLE: "proven impossible",
}


def _ranked(*, fading_first: bool, nearer: bool = False) -> str:
    """Return what a choice is ranked by.

    Parameters
    ----------
    fading_first
        Whether the tubes that fade are counted before the price.
    nearer
        Whether so is how near it comes to what is out of reach.
    """
    fade = "how many of them fade, " if fading_first else ""
    near = "nearness to what is out of reach, " if nearer else ""
    return f"coverage, number of tubes, {fade}{near}price and lightfastness"


def one_of_each_words() -> str:
    """Return that of two tubes that are one paint only one is bought, in a sentence."""
    return (
        "Of two tubes that are one paint, since the stronger let down with water looks like the"
        f" weaker (to {limit_words(TWINS)} at every wash), no choice buys both."
    )


def purse_words() -> str:
    """Return what prices are where sellers charge for more than the goods, in a sentence."""
    return (
        "Every price is what leaves the purse, delivery included, bought where all of it together"
        " is cheapest."
    )


def best_of_many(proven: int, answered: int, *, fitted: bool) -> str:
    """Return how many of several choices are proven best, e.g. ``all proven best``.

    Parameters
    ----------
    proven, answered
        Those that are, and all.
    fitted
        Whether any tube that could be chosen for any of them was fitted from swatches.
    """
    which = "all" if proven == answered else f"{proven:,} of them"
    return f"{which} {standing_label(Standing.BEST, fitted=fitted)}"


def standing_label(standing: Standing, *, fitted: bool) -> str:
    """Return a standing in a few words, e.g. ``proven best``.

    Parameters
    ----------
    standing
        How far the choice is proven.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    """
    return LABELS[standing] + for_fitted(fitted=fitted and standing is not Standing.OPEN)


def standing_note(standing: Standing, *, fitted: bool, nearer: bool = False) -> str:
    """Return the same in a sentence without full stop, for the top of an answer.

    `nearer` tells whether how near it comes to what is out of reach goes before the price.
    """
    paints = for_fitted(fitted=fitted)
    if standing is Standing.BEST:
        return f"This choice is proven best{paints}"
    if standing is Standing.IMPOSSIBLE:
        return f"The demands are proven impossible to meet together{paints}"
    if standing is Standing.OPEN:
        return "It is not proven; better choices are not ruled out"
    return (
        f"It is only half proven{paints}: no choice covers more, but fewer tubes, more lasting ones"
        f"{_COMING_NEARER if nearer else ''} or less money for as much are not ruled out"
    )


def standing_proof(
    standing: Standing,
    *,
    limits: str,
    buys: bool,
    coverage: float,
    bound: float,
    gap: float,
    fading: int | None,
    fitted: bool,
    nearer: bool = False,
) -> str:
    """Return what the certificate of a choice says, in whole sentences.

    Parameters
    ----------
    standing
        How far the choice is proven.
    limits
        Its limits, e.g. ``EUR 40.00 and 6 tubes``.
    buys
        Whether it buys anything: nothing takes fewer tubes than none, which is no merit.
    coverage, bound
        What it covers, and what no choice exceeds [0–1].
    gap
        What is left open between the two, as a share of the bound [0–1].
    fading
        Tubes to buy that fade, where they are counted before the price; else None.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    nearer
        Whether how near it comes to what is out of reach goes before the price.
    """
    paints = for_fitted(fitted=fitted)
    if standing is Standing.IMPOSSIBLE:
        return f"Proven impossible{paints}: no choice within {limits} meets the demands."
    if standing is Standing.BEST and not buys:
        return (
            f"Proven best{paints}: no choice within {limits} covers"
            f" {'more' if coverage else 'anything'}."
        )
    if standing is Standing.BEST:
        best = "comes nearer to what is out of reach; of those as near none " if nearer else ""
        return (
            f"Proven best{paints}: no choice within {limits} covers more. Of those that cover as"
            f" much none buys fewer tubes;{_as_few(fading)} none {best}costs less."
        )
    if standing is Standing.MOST_COVERED:
        return (
            f"Only half proven{paints}: no choice within {limits} covers more, but the search was"
            f" stopped before fewer tubes, more lasting ones{_COMING_NEARER if nearer else ''} or"
            " less money for as much were ruled out."
        )
    (covers, most), left = percents_apart(coverage, bound), percent(gap)
    beyond = f"no choice within {limits} covers more than {most}{paints} (gap: {left} of that)"
    if bound >= 1:
        beyond = f"that one within {limits} covers all is not ruled out (gap: {left})"
    return (
        "Not proven: the search was stopped by a limit of time or effort before all choices were"
        f" ruled out. This one covers {covers}; {beyond}."
    )


_COMING_NEARER = ", ones that come nearer to what is out of reach"


def _as_few(fading: int | None) -> str:
    """Return which of the choices that buy as few tubes are compared further.

    Of as many tubes the fewest that fade go first; where none of a best choice fades, only choices
    of which none fades are no better in what comes after.
    """
    if fading is None:
        return " of those that buy as few"
    if fading == 0:
        return " of those that buy as few, all lasting,"
    return " of those that buy as few none has fewer that fade; of those equal in that"


def ties_words(
    number: int, *, all_known: bool, fading_first: bool, preferred: str, nearer: bool = False
) -> str:
    """Return how many palettes rank equal, this one included, in a sentence.

    Parameters
    ----------
    number
        Palettes found that rank equal, 1 or more.
    all_known
        Whether it is proven that there are no others.
    fading_first
        Whether the tubes that fade are counted before the price.
    preferred
        Why this one was preferred, e.g. ``as the steadier one``.
    nearer
        Whether how near they come to what is out of reach is counted before the price.
    """
    by = _ranked(fading_first=fading_first, nearer=nearer)
    if number > 1:
        least = AT_LEAST.worded(proven=all_known).capitalize()
        return (
            f"{least}{number:,} palettes rank equal in {by}, this one included; it was preferred"
            f" {preferred}."
        )
    if all_known:
        return f"No other palette ranks equal in {by}."
    return f"Whether other palettes rank equal in {by} is not known."


def steady_note(given_up: float, *, fitted: bool) -> str:
    """Return how a choice taken for steadiness stands to the proven best, without full stop."""
    paints = for_fitted(fitted=fitted)
    if given_up > 0:
        return (
            f"Taken for steadiness: {percent(given_up)} of coverage is given up against the proven"
            f" best choice{paints}"
        )
    return (
        f"No choice covers more, which is proven{paints}; among those near it was taken for"
        " steadiness"
    )


def steady_proof(
    bound: float, *, compared: str, fading_first: bool, fitted: bool, nearer: bool = False
) -> str:
    """Return what the certificate says of a choice taken for steadiness, in whole sentences.

    Parameters
    ----------
    bound
        What no choice exceeds [0–1].
    compared
        How it compares with the first, e.g. ``covers as much as and costs the same as``.
    fading_first
        Whether the tubes that fade are counted before the price.
    fitted
        Whether any tube that could be chosen was fitted from swatches.
    nearer
        Whether how near they come to what is out of reach is counted before the price.
    """
    first = _ranked(fading_first=fading_first, nearer=nearer)
    return (
        f"Proven{for_fitted(fitted=fitted)}: no choice within the budget and number of tubes"
        f" covers more than {percent(bound)} with the recipes followed exactly. Of the choices near"
        " that this one was taken because it is steadier, which is simulated, not proven: it"
        f" {compared} the one that ranks first by {first}."
    )


def not_on_sale_words(best: float, bound: float, coverage: float) -> str:
    """Return what could be covered if a tube were not on sale, in a sentence.

    Parameters
    ----------
    best, bound
        What was found, and what no choice without the tube exceeds [0–1]; equal if proven.
    coverage
        What the plan covers [0–1].
    """
    if best != bound:
        least, most = percents_apart(best, bound)
        return (
            f"If it were not on sale, a choice would cover at least {least}, and none more than"
            f" {most}; the search for more was stopped."
        )
    if best == coverage:
        return "If it were not on sale, another choice would cover as much."
    than = "instead of" if best < coverage else "and so more than the"
    without, whole = percents_apart(best, coverage)
    return f"If it were not on sale, the best choice would cover {without} {than} {whole}."


def no_choice_found(seconds: float) -> str:
    """Return that the search for a palette ended without one after some time [s]."""
    return (
        f"no palette that meets all demands was found in {seconds:g} s, and it is not proven"
        " that there is none; allow more time or ask for less."
    )
