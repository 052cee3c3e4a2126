"""The main colours of a photograph, by k-means in CIELAB.

A photograph is not a measurement: camera, light and screen all have their say. It is searched in
memory and kept nowhere.

Sources: Lloyd, S. P. (1982), Least squares quantization in PCM, IEEE Trans. Inf. Theory 28, for
k-means; Arthur, D., and Vassilvitskii, S. (2007), k-means++, Proc. SODA, for its starting places.
"""

import warnings
from dataclasses import dataclass
from typing import Any

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab, lab_to_hex
from fewtubes.colour.picture_file import Pixels

__all__ = ["MainColour", "main_colours"]

MIDDLE = 0.25
"""Share cut off on each side where only the middle is looked at."""

SEED = 1
"""Of the starting places; a fixed one finds the same colours every time."""

ROUNDS = 40
"""Of k-means; it settles in fewer as a rule."""

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
    lab = _srgb_to_lab(looked_at.reshape(-1, 3))
    centres, counts = _clusters(lab, min(most, len(np.unique(lab, axis=0))))
    centres, counts = _merged(centres, counts)
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


def _srgb_to_lab(srgb: Pixels) -> FloatArray:
    """Return CIELAB (D65) of pixels, shapes (n, 3); each colour is computed once."""
    packed = srgb.astype(np.uint32) @ np.array([1 << 16, 1 << 8, 1], dtype=np.uint32)
    colours, places = np.unique(packed, return_inverse=True)
    table = np.array([hex_to_lab(f"#{colour:06x}") for colour in colours.tolist()])
    return np.asarray(table[places])


def _clusters(lab: FloatArray, count: int) -> tuple[FloatArray, FloatArray]:
    """Return means and sizes of the clusters, shapes (clusters, 3) and (clusters,)."""
    from inspect import signature

    from scipy.cluster.vq import kmeans2

    # scipy 1.15 renamed the argument; numbers drawn are the same under either name.
    named = "rng" if "rng" in signature(kmeans2).parameters else "seed"
    random: dict[str, Any] = {named: np.random.default_rng(SEED)}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # an empty cluster is dropped below
        centres, labels = kmeans2(lab, count, iter=ROUNDS, minit="++", **random)
    counts = np.bincount(labels, minlength=count)
    return centres[counts > 0], counts[counts > 0].astype(np.float64)


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
