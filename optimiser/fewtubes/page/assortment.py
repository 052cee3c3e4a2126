"""What the page lays out to choose from: flowers and tubes with their colours."""

from collections.abc import Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Catalogue, Flower, Tube
from fewtubes.comparison.flower_listing import flowers_with, searched_words
from fewtubes.comparison.tube_listing import (
    ListedTube,
    TubeQuery,
    listed_tubes,
    searched_tube_words,
)
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.outlines import by_hand, rectangle, seed_of
from fewtubes.picture.shapes import Area, Picture, Shape, points_of
from fewtubes.picture.sheet import Sheet, screen_colour
from fewtubes.picture.svg import svg_inline
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.tubes import FITTED, NOT_FOR_SALE, codes_words

__all__ = ["Assortment", "FlowerCard", "TubeRow", "assortment_of", "dabs"]

Lab = tuple[float, float, float]

HEIGHT = 26.0
WIDTH = 104.0
OVERLAP = 3.0
"""By which a dab runs into the one before [picture units]."""

NARROWEST = 12.0
"""Width of the smallest dab [picture units]."""

LONGEST_NAME = 80
"""Characters of a name on a card."""


@dataclass(frozen=True)
class FlowerCard:
    """A flower to be ticked."""

    name: str
    """As the catalogue has it."""
    label: str
    colours: str
    """Names of its swatches, in a sentence."""
    words: str
    """What a search looks in."""
    markup: str
    """Its swatches side by side."""


@dataclass(frozen=True)
class TubeRow:
    """A tube about which a wish can be made."""

    id: str
    label: str
    traits: str
    words: str
    markup: str
    """A full-strength stroke and a wash."""


@dataclass(frozen=True)
class Assortment:
    """Everything to choose from."""

    flowers: tuple[FlowerCard, ...]
    tubes: tuple[TubeRow, ...]


def assortment_of(catalogue: Catalogue, optics: Optics, *, priced: bool = True) -> Assortment:
    """Return flowers and tubes with their colours; paper and light are those of the optics.

    `priced` tells whether each tube comes with its lowest price.
    """
    sheet = Sheet.of(optics)
    return Assortment(
        flowers=tuple(_card(flower, sheet) for flower in flowers_with(catalogue)),
        tubes=tuple(
            _row(item, sheet, priced=priced)
            for item in listed_tubes(catalogue, TubeQuery(), optics)
        ),
    )


def dabs(labs: Sequence[Lab], widths: Sequence[float], sheet: Sheet, *, seed: str) -> Picture:
    """Return colours side by side as dabs of a brush.

    Parameters
    ----------
    labs
        CIELAB of each.
    widths
        In any unit; the narrowest are widened so that they can be seen.
    sheet
        The ground.
    seed
        Whatever it is about; the same name is always drawn alike.
    """
    room = WIDTH - 2 - NARROWEST * len(labs)
    total = sum(widths)
    shapes: list[Shape] = []
    left = 1.0
    for place, (lab, share) in enumerate(zip(labs, widths, strict=True)):
        width = NARROWEST + max(room, 0.0) * share / total
        start = left - (OVERLAP if place else 0.0)
        body = rectangle(start, 2.0, left + width - start, HEIGHT - 4)
        edge = by_hand(body, amount=0.7, seed=seed_of(seed, place))
        shapes.append(Area(points_of(edge), screen_colour(lab).hex))
        left += width
    return Picture(
        width=max(WIDTH, left + 1),
        height=HEIGHT,
        ground=sheet.ground,
        title="colours",
        description="",
        shapes=tuple(shapes),
    )


def _card(flower: Flower, sheet: Sheet) -> FlowerCard:
    swatches = flower.swatches
    picture = dabs(
        [swatch.lab for swatch in swatches],
        [float(swatch.importance) for swatch in swatches],
        sheet,
        seed=flower.name,
    )
    names = [printable(swatch.name, LONGEST_NAME) for swatch in swatches]
    return FlowerCard(
        name=flower.name,
        label=printable(flower.name, LONGEST_NAME),
        colours=joined(names),
        words=searched_words(flower),
        markup=svg_inline(picture, prefix="", spoken=False),
    )


def _row(item: ListedTube, sheet: Sheet, *, priced: bool) -> TubeRow:
    tube = item.tube
    picture = dabs([item.full_lab, item.wash_lab], [1, 1], sheet, seed=tube.id)
    paint = codes_words(tube) + (f"; {FITTED}" if tube.fitted else "")
    hides = item.transparency.word
    price = f", {_price(tube)}" if priced else ""
    return TubeRow(
        id=tube.id,
        label=printable(tube.name, LONGEST_NAME),
        traits=f"{paint}; lasts {tube.lightfastness.name}; {hides}{price}",
        words=searched_tube_words(tube),
        markup=svg_inline(picture, prefix="", spoken=False),
    )


def _price(tube: Tube) -> str:
    cheapest = min(tube.offers, key=lambda offer: offer.price, default=None)
    return NOT_FOR_SALE if cheapest is None else f"from {money(cheapest.price, cheapest.currency)}"
