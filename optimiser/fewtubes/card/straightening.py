"""A photographed card set straight, to be shown."""

from dataclasses import dataclass

import numpy as np

from fewtubes.card.finding import found_sheet
from fewtubes.card.homography import projected
from fewtubes.card.layout import CardLayout, Sheet
from fewtubes.card.picture import Picture, picture_name, unpacked
from fewtubes.colour.picture_file import Pixels

__all__ = ["StraightCard", "straightened"]


@dataclass(frozen=True, eq=False)
class StraightCard:
    """A sheet as it would be seen from straight above."""

    sheet: Sheet
    """Which it is, with the places of its boxes [mm]."""
    pixels: Pixels
    """sRGB, the whole sheet from edge to edge, shape (rows, columns, 3)."""


def straightened(picture: Picture, layout: CardLayout, *, dots_per_mm: float = 3.0) -> StraightCard:
    """Return a photographed sheet set straight.

    Parameters
    ----------
    picture
        The content of a JPEG, PNG or WebP file, or where it lies.
    layout
        Of the printed card, in millimetres.
    dots_per_mm
        Pixels of what is returned for each millimetre.

    Raises
    ------
    InputError
        If it is no picture, or the corner marks are not found.
    """
    where = picture_name(picture)
    shot = unpacked(picture, where)
    sheet, matrix = found_sheet(shot.pixels, layout, where)
    x, y = (
        (np.arange(round(side * dots_per_mm)) + 0.5) / dots_per_mm
        for side in (sheet.width, sheet.height)
    )
    places = projected(matrix, np.stack(np.meshgrid(x, y), axis=-1))
    rows, columns = shot.pixels.shape[:2]
    nearest = np.clip(np.floor(places).astype(int), 0, [columns - 1, rows - 1])
    return StraightCard(sheet, shot.pixels[nearest[..., 1], nearest[..., 0]])
