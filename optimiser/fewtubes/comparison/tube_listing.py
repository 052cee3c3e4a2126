"""Which tubes of a catalogue a painter asks to see, with what is computed of them."""

from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness, Trait, Tube
from fewtubes.comparison.searching import Searched, searched
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency
from fewtubes.scenario.home_box import BoxAtHome

__all__ = [
    "WASH_SHOWN",
    "ListedTube",
    "TubeQuery",
    "listed_tubes",
    "searched_tube_words",
    "strongest",
    "tubes_searched",
]

WASH_SHOWN = 0.25
"""Strength of the wash shown beside the full-strength stroke [0–1]; typical of petals."""


@dataclass(frozen=True)
class TubeQuery:
    """What the tubes must meet; an empty query admits all."""

    text: str = ""
    """Words that all must be found in id, name, or pigments, by the rule of `searching`."""
    transparency: Transparency | None = None
    """Tubes at least this transparent."""
    lightfastness: Lightfastness | None = None
    """Tubes of this category or better."""
    without: tuple[Hazard, ...] = ()
    """Hazards that the tube must not hold."""
    pigment: str = ""
    """Colour Index generic name that the tube must hold, e.g. PB29; small letters will do."""
    most_price: int | None = None
    """Price of the cheapest pack at most [hundredths of the currency]."""

    def admits(self, tube: Tube) -> bool:
        """Return whether a tube meets all but the words that needs no film to be computed."""
        floor, price = self.lightfastness, self.most_price
        return (
            (floor is None or tube.lightfastness <= floor)
            and not set(self.without) & set(tube.hazards)
            and (not self.pigment or self.pigment.casefold() in map(str.casefold, tube.codes))
            and (price is None or any(offer.price <= price for offer in tube.offers))
        )


@dataclass(frozen=True, eq=False)
class ListedTube:
    """A tube with what is computed of its film."""

    tube: Tube
    contrast_ratio: float
    """Hiding of a full-strength film [0–1]."""
    transparency: Transparency
    full_lab: tuple[float, float, float]
    """CIELAB of a full-strength stroke."""
    wash_lab: tuple[float, float, float]
    """CIELAB of a wash of strength `WASH_SHOWN`."""


def listed_tubes(
    catalogue: Catalogue, query: TubeQuery, optics: Optics, *, box: BoxAtHome | None = None
) -> tuple[ListedTube, ...]:
    """Return the tubes that meet a query, those that begin a word with what is asked first.

    Otherwise they stand in the order of the catalogue.

    Parameters
    ----------
    catalogue, query
        Where to look, and for what.
    optics
        Paper and light under which the films are computed.
    box
        The box at home, empty tubes included, to list no other tubes; None for all.
    """
    named = searched(query.text, _looked_at(catalogue, box), searched_tube_words).things
    listed = (_listed(tube, optics) for tube in named if query.admits(tube))
    floor = query.transparency
    return tuple(item for item in listed if floor is None or item.transparency <= floor)


def strongest(traits: tuple[Trait | None, ...]) -> Trait | None:
    """Return the strongest of the traits of a tube's pigments, None where that is not known.

    Of a pigment of which nothing is known it matters only that another might be stronger still.
    """
    known = [trait for trait in traits if trait is not None]
    most = max(known, key=list(Trait).index, default=Trait.NO)
    return most if most is Trait.YES or len(known) == len(traits) else None


def _listed(tube: Tube, optics: Optics) -> ListedTube:
    ratio = float(contrast_ratio(tube.K, tube.S, optics.weights[:, 1]))
    loads = np.array([[1.0], [WASH_SHOWN]])
    full, wash = mixture_lab(loads, tube.K[None], tube.S[None], optics).tolist()
    return ListedTube(tube, ratio, transparency(ratio), tuple(full), tuple(wash))


def tubes_searched(
    catalogue: Catalogue, text: str, *, box: BoxAtHome | None = None
) -> Searched[Tube]:
    """Return the tubes by words alone, and what was taken for a slip or comes nearest."""
    return searched(text, _looked_at(catalogue, box), searched_tube_words)


def _looked_at(catalogue: Catalogue, box: BoxAtHome | None) -> tuple[Tube, ...]:
    tubes = catalogue.tubes.values()
    return tuple(tube for tube in tubes if box is None or box.left(tube.id) is not None)


def searched_tube_words(tube: Tube) -> str:
    """Return all words that a tube is found by, in small letters."""
    pigments = [f"{pigment.code} {pigment.name}" for pigment, _ in tube.pigments]
    return "\n".join([tube.id, tube.name, *pigments]).casefold()
