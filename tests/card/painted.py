"""A card painted with tubes of the demo catalogue, as tests photograph it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from tests.card.photographed import Shot, painted_sheet, photographed

from fewtubes.card.arrangement import arranged_card
from fewtubes.card.layout import Box, CardLayout, Sheet
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import lab_to_linear
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["PaintedCard", "painted_card"]

EVERY = 5
"""The demo's tubes are in the order of their colour: every fifth is of another kind."""

QUICK = Shot(width=750)
"""Enough for a box to have 50 pixels a side."""

DOTS_PER_MM = 3.0


@dataclass(frozen=True, eq=False)
class PaintedCard:
    """A card and what is truly on it."""

    card: CardLayout
    tubes: tuple[Tube, ...]
    labs: dict[tuple[str, float, bool], FloatArray]
    """CIELAB by tube, strength and whether over black."""
    paper: FloatArray
    """CIELAB."""

    @cached_property
    def sheets(self) -> tuple[FloatArray, ...]:
        """Each sheet in linear sRGB, shape (rows, columns, 3)."""
        return tuple(self._painted(sheet) for sheet in self.card.sheets)

    @cached_property
    def photographs(self) -> tuple[bytes, ...]:
        """Each sheet as `QUICK` takes it."""
        return tuple(photographed(sheet, QUICK) for sheet in self.sheets)

    def true(self, name: str, box: Box) -> FloatArray:
        """Return the CIELAB that is painted in a box."""
        return self.labs[name, box.strength, box.over_black]

    def _painted(self, sheet: Sheet) -> FloatArray:
        colours = {
            (row_place, box_place): lab_to_linear(self.true(row.name, box))
            for row_place, row in enumerate(sheet.rows)
            for box_place, box in enumerate(row.boxes)
        }
        paper = lab_to_linear(self.paper)
        return painted_sheet(self.card, sheet, colours, paper, dots_per_mm=DOTS_PER_MM)


def painted_card(paper_size: str, count: int, cache: Cache) -> PaintedCard:
    """Return a card of so many tubes of the demo."""
    catalogue = read_catalogue()
    optics = usual_optics(catalogue, cache)
    tubes = tuple(catalogue.tubes.values())[::EVERY][:count]
    card = arranged_card(paper_size, [tube.name for tube in tubes])
    labs = {}
    for tube in tubes:
        for box in card.sheets[0].rows[0].boxes:
            ground = 0.0 if box.over_black else optics.ground
            film = film_reflectance(box.strength * tube.K, box.strength * tube.S, ground)
            key = (tube.name, box.strength, box.over_black)
            labs[key] = reflectance_lab(with_surface(np.asarray(film)), optics)
    paper = reflectance_lab(catalogue.papers["cotton-white"].reflectance, optics)
    return PaintedCard(card, tubes, labs, paper)
