"""Invented paints, painted on a card by an unsteady hand and photographed in a poor light."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from tests.card.photographed import Shot, painted_sheet, photographed
from tests.fitting.invented_camera import InventedCamera
from tests.fitting.invented_paints import BLACK, InventedPaints

from fewtubes.card.arrangement import arranged_card
from fewtubes.card.layout import CardLayout, Sheet
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import lab_to_linear
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["photographed_card"]


def photographed_card(
    paints: InventedPaints,
    random: np.random.Generator,
    optics: Optics,
    *,
    names: Sequence[str],
    paper_size: str = "A4",
    hand: float = 0.12,
    shot: Shot | None = None,
    camera: InventedCamera | None = None,
) -> tuple[CardLayout, tuple[bytes, ...]]:
    """Return a card and a photograph (JPEG) of each of its sheets."""
    card = arranged_card(paper_size, names)
    eye = _Eye(optics) if camera is None else camera
    paper = eye.linear(with_surface(optics.ground))
    pictures, first = [], 0
    for number, sheet in enumerate(card.sheets, start=1):
        colours = _colours(paints, first, sheet, random, eye=eye, ground=optics.ground, hand=hand)
        drawn = painted_sheet(card, sheet, colours, paper, seed=number)
        pictures.append(photographed(drawn, shot or Shot(seed=number)))
        first += len(sheet.rows)
    return card, tuple(pictures)


def _colours(
    paints: InventedPaints,
    first: int,
    sheet: Sheet,
    random: np.random.Generator,
    *,
    eye: "_Eye | InventedCamera",
    ground: FloatArray,
    hand: float,
) -> dict[tuple[int, int], FloatArray]:
    """Return linear sRGB of each box of a sheet whose first row is the paint of that number."""
    found = {}
    for row, K, S in zip(range(len(sheet.rows)), paints.K[first:], paints.S[first:], strict=False):
        for place, box in enumerate(sheet.rows[row].boxes):
            load = box.strength * np.exp(random.normal(0, hand))
            under = BLACK if box.over_black else ground
            film = np.asarray(film_reflectance(load * K, load * S, under))
            found[row, place] = eye.linear(with_surface(film))
    return found


@dataclass(frozen=True, eq=False)
class _Eye:
    """A camera that sees as the eye does."""

    optics: Optics

    def linear(self, seen: FloatArray) -> FloatArray:
        return lab_to_linear(reflectance_lab(seen, self.optics))
