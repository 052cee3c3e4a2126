"""Which further tubes would bring a colour, in words."""

from collections.abc import Sequence

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.reasons import Route
from fewtubes.report.sentences.purchase import added_words, source_words
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.sources import Source
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable

__all__ = ["MOST_SINGLES", "cheapest_words", "singles_words"]

MOST_SINGLES = 3
"""Tubes named in a sentence; the tables hold them all."""

REFUSED = {
    Refusal.NEVER: "which is never to be used",
    Refusal.LIGHTFASTNESS: "which fades more than is asked for",
    Refusal.TRANSPARENCY: "which hides more than is asked for",
    Refusal.HAZARD: "which holds a hazard to be avoided",
    Refusal.NOT_SOLD: "which is not sold in this currency",
    Refusal.NOT_FOR_SALE: "which is not for sale",
    Refusal.TOO_LITTLE: "of which too little is in stock",
}


def singles_words(singles: Sequence[Route], currency: str) -> str:
    """Return the single tubes that would bring a colour, cheapest first."""
    named = [_tube_words(route, currency) for route in singles[:MOST_SINGLES]]
    rest = len(singles) - len(named)
    if rest:
        named.append(counted(rest, "other"))
    return f"One tube more would bring it: {joined(named, 'or')}."


def cheapest_words(route: Route, currency: str) -> str:
    """Return the cheapest tubes known that bring a colour if they are added, where several do."""
    sources = route.sources or (None,) * len(route.tubes)
    named = [
        _named(tube, source, refusal)
        for tube, source, refusal in zip(route.tubes, sources, route.refusals, strict=True)
    ]
    allowed = "" if route.allowed else ", though the wishes rule that out"
    which = "Cheapest to add" if route.cheapest else "It would do to add"
    more = " more" if any(sources) else ""
    return f"{which}: {joined(named)}, together {money(route.cost, currency)}{more}{allowed}."


def _named(tube: Tube, source: Source | None, refusal: Refusal | None) -> str:
    """Return a tube with who sells it and why it is out of use."""
    told = [
        *([] if source is None else [source_words(source)]),
        *([] if refusal is None else [REFUSED[refusal]]),
    ]
    return f"{printable(tube.name)} ({'; '.join(told)})" if told else printable(tube.name)


def _tube_words(route: Route, currency: str) -> str:
    (tube,), (refusal,) = route.tubes, route.refusals
    refused = "" if refusal is None else f", {REFUSED[refusal]}"
    source = route.sources[0] if route.sources else None
    price = added_words(route.cost, currency, source, in_set=route.in_set)
    return f"{printable(tube.name)} ({price}{refused})"
