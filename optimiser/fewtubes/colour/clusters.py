"""Pixels of a picture gathered into clusters of colour, by k-means in CIELAB.

Sources: Lloyd, S. P. (1982), Least squares quantization in PCM, IEEE Trans. Inf. Theory 28, for
k-means; Arthur, D., and Vassilvitskii, S. (2007), k-means++, Proc. SODA, for its starting places.
"""

import warnings
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import linear_to_lab, srgb_to_linear
from fewtubes.colour.picture_file import Pixels

__all__ = ["Labels", "clusters", "pixels_to_lab"]

Labels = npt.NDArray[np.intp]
"""The cluster of each pixel, shape (n,)."""

SEED = 1
"""Of the starting places; a fixed one finds the same colours every time."""

ROUNDS = 40
"""Of k-means; it settles in fewer as a rule."""


def pixels_to_lab(pixels: Pixels) -> FloatArray:
    """Return CIELAB (D65) of sRGB pixels, shapes (…, 3)."""
    return linear_to_lab(srgb_to_linear(pixels / 255))


def clusters(lab: FloatArray, most: int) -> tuple[FloatArray, Labels]:
    """Return the means of the clusters, shape (clusters, 3), and the cluster of each pixel.

    Parameters
    ----------
    lab
        CIELAB of the pixels, shape (n, 3).
    most
        Clusters wanted; there are fewer where there are fewer colours.
    """
    from inspect import signature

    from scipy.cluster.vq import kmeans2

    count = min(most, len(np.unique(lab, axis=0)))
    # scipy 1.15 renamed the argument; numbers drawn are the same under either name.
    named = "rng" if "rng" in signature(kmeans2).parameters else "seed"
    random: dict[str, Any] = {named: np.random.default_rng(SEED)}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # an empty cluster is dropped below
        centres, labels = kmeans2(lab, count, iter=ROUNDS, minit="++", **random)
    held, packed = np.unique(labels, return_inverse=True)
    return centres[held], packed.astype(np.intp)
