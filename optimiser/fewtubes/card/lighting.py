"""The light over a photographed card, and what is wrong with it."""

from collections.abc import Sequence

import numpy as np

from fewtubes.card.evening import light_field
from fewtubes.card.layout import Box, Rectangle, Sheet
from fewtubes.card.looking import Patch, Projection, looked_at, steady_mean
from fewtubes.card.shadows import EDGE, CardLight
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.picture_file import Pixels
from fewtubes.errors import Fault, InputError

__all__ = ["light_over"]

MARGIN = 0.15
"""Share of bare paper left out on each side."""

SMALLEST = 4.0
"""Side of bare paper that still tells of the light [pixels]."""

OVER_EXPOSED = 254
"""Level of sRGB; bare paper that reaches it may be brighter than can be told."""

OVER_EXPOSED_SHARE = 0.25
"""Of the pixels of a patch at that level, from which on it is left out."""

MOST_OVER_EXPOSED = 1 / 3
"""Of the patches; more, and the photograph is over-exposed."""

DARKEST = 90
"""Level of sRGB that bare paper reaches at least in its brightest channel: a tenth of the light of
white. Below, a dark paint is a handful of levels."""

CAST = (0.7, 1.4)
"""Of a channel beside the mean of the three that light may have; more is coloured paper."""

MOST_SPREAD = 0.05
"""Standard deviation of the logarithm of light about a smooth course; 2 in L* of white."""

MOST_OUTLIERS = 0.4
"""Share of the bare paper that does not follow it."""

MOST_PAINTED = 0.4
"""Share of the bare paper that is not bare."""

MOST_EDGES = 0.3
"""Share of the boxes beside which a shadow's edge lies; one edge across a card touches a fifth."""

DARKEST_LINEAR = 1e-4
"""Linear light below which bare paper is not taken to be."""

MOST_UNEVEN = 4.0
"""Brightest to darkest over the card; two stops."""


def light_over(
    pixels: Pixels,
    sheet: Sheet,
    projection: Projection,
    *,
    paper: FloatArray,
    where: str,
) -> CardLight:
    """Return the light over the boxes of a sheet.

    Parameters
    ----------
    pixels
        The picture.
    sheet
        Where the bare paper is.
    projection
        From the layout's unit to pixels.
    paper
        Linear sRGB of the nominal paper, shape (3,).
    where
        What a fault is told of.

    Raises
    ------
    InputError
        If it is too dark, over-exposed, too uneven, or not more or less white paper in white light.
    """
    patches = {
        place: patch
        for place in _bare_places(sheet)
        if (patch := looked_at(pixels, place, projection, margin=MARGIN)).inside
        and patch.side >= SMALLEST
    }
    if not patches:
        raise _fault(where, "no bare paper lies in the picture; correct the places under white.")
    bright = np.median([np.median(patch.levels, axis=(0, 1)) for patch in patches.values()], axis=0)
    if bright.max() < DARKEST:
        raise _fault(
            where, "is too dark; photograph the card in brighter light or with a longer exposure."
        )
    usable = {place: patch for place, patch in patches.items() if not _over_exposed(patch)}
    if len(usable) < (1 - MOST_OVER_EXPOSED) * len(patches):
        raise _fault(
            where,
            "is over-exposed, so that the paper is pure white; photograph the card with a shorter"
            " exposure, or scan it without automatic brightness.",
        )
    places = np.array([patch.places.mean(axis=(0, 1)) for patch in usable.values()])
    linear = np.array([steady_mean(patch.linear) for patch in usable.values()])
    linear = np.maximum(linear, DARKEST_LINEAR)
    field = light_field(places, linear)
    light = CardLight(
        field, dict(zip(usable, np.log(linear) - np.log(field.at(places)), strict=True))
    )
    faults = _faults(light, sheet, projection, paper)
    if faults:
        raise InputError([Fault(where, fault) for fault in faults])
    return light


def _bare_places(sheet: Sheet) -> Sequence[Rectangle]:
    """Return every place of bare paper once."""
    beside = (place for row in sheet.rows for box in row.boxes for place in box.white)
    return tuple(dict.fromkeys((*sheet.white, *beside)))


def _over_exposed(patch: Patch) -> bool:
    return bool((patch.levels >= OVER_EXPOSED).any(axis=2).mean() > OVER_EXPOSED_SHARE)


def _faults(light: CardLight, sheet: Sheet, projection: Projection, paper: FloatArray) -> list[str]:
    """Return what is wrong with the light, a sentence each."""
    boxes = [box for row in sheet.rows for box in row.boxes]
    middles = np.array([np.mean(box.rectangle.corners, axis=0) for box in boxes])
    factors = np.array([light.beside(box).factor for box in boxes])
    falling = light.field.at(projection(middles)) * factors
    cast = np.exp(np.log(falling).mean(axis=0)) / paper
    cast /= np.exp(np.log(cast).mean())
    faults = []
    if light.painted > MOST_PAINTED or _is_mottled(light, boxes):
        faults.append(
            "the bare paper beside the boxes differs too much from place to place to even out the"
            " light; keep shadows with edges, shine and paint away from it and try again."
        )
    elif (falling.max(axis=0) / falling.min(axis=0)).max() > MOST_UNEVEN:
        faults.append(
            "the light is too uneven, over four times as bright in one place as in another; move"
            " the card away from the lamp or the window and try again."
        )
    elif cast.min() < CAST[0] or cast.max() > CAST[1]:
        faults.append(
            f"the paper looks coloured (red {cast[0]:.2f}, green {cast[1]:.2f}, blue {cast[2]:.2f}"
            " of their mean); paint on white paper, and photograph it in daylight or white light."
        )
    return faults


def _is_mottled(light: CardLight, boxes: Sequence[Box]) -> bool:
    """Return whether light changes too fast from place to place to be evened out."""
    beside = [box for box in boxes if box.white]
    if len(beside) < len(boxes):  # nothing tells of the light at some, but its smooth course
        return light.field.outliers > MOST_OUTLIERS or light.field.spread > MOST_SPREAD
    edges = [light.beside(box).doubt > EDGE for box in beside]
    return float(np.mean(edges)) > MOST_EDGES


def _fault(where: str, what: str) -> InputError:
    return InputError([Fault(where, what)])
