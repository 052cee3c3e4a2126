"""The main colours of a photograph: the means of its clusters (`clusters.py`).

A photograph is not a measurement: camera, light and screen all have their say. It is searched in
memory and kept nowhere.
"""

from dataclasses import dataclass

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.clusters import clusters, pixels_to_lab
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import lab_to_hex
from fewtubes.colour.picture_file import Pixels

__all__ = ["MainColour", "main_colours"]

MIDDLE = 0.25
"""Share cut off on each side where only the middle is looked at."""

ALIKE = 5.0
"""Clusters nearer than this are one colour to a painter [ΔE00]; our own choice."""

LEAST_SHARE = 0.02
"""Smaller clusters are specks [0–1]; our own choice."""


@dataclass(frozen=True)
class MainColour:
    """One of the colours that make up a photograph."""

    lab: tuple[float, float, float]
    """The cluster's mean, CIELAB (D65)."""
    hex: str
    share: float
    """Of the pixels looked at [0–1]."""


def main_colours(pixels: Pixels, *, most: int, middle_only: bool = False) -> tuple[MainColour, ...]:
    """Return the main colours, the one with the largest share first.

    Parameters
    ----------
    pixels
        The photograph, shape (rows, columns, 3).
    most
        Colours wanted; fewer are found where some are alike.
    middle_only
        Whether to leave out the outer quarter on each side.
    """
    looked_at = _middle(pixels) if middle_only else pixels
    lab = pixels_to_lab(looked_at.reshape(-1, 3))
    centres, labels = clusters(lab, most)
    centres, counts = _merged(centres, np.bincount(labels).astype(np.float64))
    found = [
        MainColour((L, a, b), lab_to_hex(np.array([L, a, b])), float(count / len(lab)))
        for (L, a, b), count in zip(centres.tolist(), counts.tolist(), strict=True)
    ]
    kept = (colour for colour in found if colour.share >= LEAST_SHARE)
    return tuple(sorted(kept, key=lambda colour: -colour.share))


def _middle(pixels: Pixels) -> Pixels:
    """Return the middle of a photograph, at least one pixel."""
    rows, columns = (round(MIDDLE * side) for side in pixels.shape[:2])
    return pixels[
        rows : pixels.shape[0] - rows or None, columns : pixels.shape[1] - columns or None
    ]


def _merged(centres: FloatArray, counts: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the clusters after the two most alike were made one, until none are alike."""
    while len(centres) > 1:
        apart = delta_e_2000(centres[:, None], centres[None])
        apart[np.diag_indices(len(centres))] = np.inf
        one, other = sorted(int(place) for place in np.unravel_index(apart.argmin(), apart.shape))
        if apart[one, other] >= ALIKE:
            break
        weights = counts[[one, other]]
        centres[one] = weights @ centres[[one, other]] / weights.sum()
        counts[one] = weights.sum()
        centres, counts = np.delete(centres, other, axis=0), np.delete(counts, other)
    return centres, counts
