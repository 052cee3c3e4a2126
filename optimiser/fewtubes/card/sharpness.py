"""How sharp a photograph is: the width of its steepest edges.

Across an edge the brightness changes by its whole height over several pixels, and from one pixel to
the next at most by its slope; height over slope is the width.
"""

import numpy as np

from fewtubes.colour.picture_file import Pixels

__all__ = ["SIDE", "edge_width"]

SIDE = 800
"""Pixels to which the longer side is reduced, so that noise counts for little."""

ACROSS = 10
"""Pixels over which the height of an edge is measured."""

STEEPEST = 0.998
"""Quantile taken for the steepest edges, so that single pixels do not count."""


def edge_width(pixels: Pixels) -> float:
    """Return the width of the steepest edges, in pixels of a photograph reduced to `SIDE`.

    0 where there is no edge at all.

    Parameters
    ----------
    pixels
        sRGB, shape (rows, columns, 3).
    """
    factor = max(1, round(max(pixels.shape) / SIDE))
    rows, columns = (side // factor * factor for side in pixels.shape[:2])
    grey = pixels[:rows, :columns].mean(axis=2)
    small = grey.reshape(rows // factor, factor, columns // factor, factor).mean(axis=(1, 3))
    if min(small.shape) <= ACROSS:
        return 0.0
    slope, height = (
        max(
            np.quantile(np.abs(small[step:] - small[:-step]), STEEPEST),
            np.quantile(np.abs(small[:, step:] - small[:, :-step]), STEEPEST),
        )
        for step in (1, ACROSS)
    )
    return float(height / slope) if slope > 0 else 0.0
