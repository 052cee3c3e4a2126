"""The parts of a photograph: what is one stretch of colour, and what is background.

A petal that runs from a pale edge to a deep base is one part, though its ends are as far apart as
petal and leaf: clusters of colour (`clusters.py`) that run into each other without an edge, and
keep about one hue, are joined. That is single linkage (Sneath, P. H. A., 1957, The application of
computers to taxonomy, J. Gen. Microbiol. 17) over neighbours in the picture. Edges themselves,
where two colours lie in one pixel, are left out; with them go gaps between petals and glints, which
are hardly wider. What lies along the rim of the picture and hardly in its middle is background:
whoever photographs a flower aims at it. Where flower and background are one part, as white petals
on white paper may be, its clusters are told apart by that same rule, and that is never called sure.
The rule is our own, without a source, and so are its numbers.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.clusters import clusters, pixels_to_lab
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.picture_file import Pixels

__all__ = ["Part", "Standing", "picture_parts"]

Mask = npt.NDArray[np.bool_]
Numbers = npt.NDArray[np.intp]

CLUSTERS = 16
"""Enough for a petal's gradient, a leaf and a background at once."""

GRAIN = 3
"""Side of the square whose median stands for a pixel, against noise [pixels]."""

EDGE = 4.0
"""Step between neighbours above which there is an edge [ΔE*ab]. A petal that runs through fifty
in twenty pixels steps by 2.5."""

EDGE_NOISE = 3.0
"""An edge must also stand out so many times from the usual step, which noise makes."""

LEAST_CALM = 0.2
"""Where less of a picture is free of edges [0–1], nothing is left out."""

RIM = 1 / 12
"""Width of the rim of the picture, as a share of each side."""

MIDDLE = 0.3
"""What lies outside the middle, on each side, as a share of it."""

BACKGROUND_ODDS = 0.65
"""What is background is about twice as dense along the rim as in the middle, or denser."""

FLOWER_ODDS = 0.5
"""What is the flower's is at least as dense in the middle as along the rim."""

LEAST_RIM = 0.1
"""Share of the rim that a background takes; a stem that leaves the picture takes less."""

AWAY = 0.02
"""What takes less of the rim than that is no background: it does not go on beyond the picture."""

BOTH = (0.3, 0.8)
"""A part that takes at least so much of the rim, and of the middle, may be flower and background in
one: nothing else is there that could be the flower."""

EVEN = 10.0
"""Range of lightness [L*] of such a background along the rim, its lightest and darkest twentieth
left out; petals that fill the picture vary more."""

ONE_HUE = 14.0
"""Largest difference of hue between clusters of one part [ΔH*ab]."""

ALIKE = 5.0
"""Clusters nearer than this are one colour to a painter [ΔE00]."""

LEAST_CONTACT = 0.3
"""Neighbours that two clusters of one part have at least, as a share of the square root of the
smaller one's pixels, which is about as long as its side."""

LEAST_PIXELS = 10
"""Parts of fewer pixels are specks."""

LEAST_SHARE = 0.02
"""Parts that are less of the flower, or of the background, are specks [0–1]."""

SHORE = 2
"""Pixels so near an edge still hold something of what is beyond it, in a soft picture."""

LEAST_INLAND = 0.3
"""Where less of a part lies farther from edges than that [0–1], all of it counts."""


class Standing(Enum):
    """Whether a part belongs to the flower."""

    FLOWER = "flower"
    UNSURE = "perhaps background"
    BACKGROUND = "background"


@dataclass(frozen=True, eq=False)
class Part:
    """A stretch of colour, of one hue or nearly so."""

    lab: FloatArray
    """Its pixels away from edges, CIELAB (D65), shape (pixels, 3)."""
    share: float
    """Of the picture [0–1], edges left out."""
    standing: Standing


def picture_parts(pixels: Pixels) -> tuple[Part, ...]:
    """Return the parts of a photograph, those of the flower first, and of each the largest first.

    Parameters
    ----------
    pixels
        The photograph, shape (rows, columns, 3), at least one pixel.
    """
    lab = _without_grain(pixels_to_lab(pixels))
    calm = _calm(lab)
    centres, found = clusters(lab[calm], CLUSTERS)
    labels = np.full(calm.shape, -1)
    labels[calm] = found
    places = _Places.of(calm, lab[..., 0])
    parts = []
    for group in _groups(centres, labels, places):
        mask = np.isin(labels, group.clusters)
        standing = places.standing(mask, surely=not group.divided)
        parts.append(Part(lab[_inland(mask)], float(mask.sum() / calm.sum()), standing))
    return _without_specks(parts, int(calm.sum()))


def _without_grain(lab: FloatArray) -> FloatArray:
    """Return the picture with the median of its surroundings at each pixel."""
    from scipy.ndimage import median_filter

    return np.asarray(median_filter(lab, size=(GRAIN, GRAIN, 1), mode="nearest"))


def _calm(lab: FloatArray) -> Mask:
    """Return where there is no edge, shape (rows, columns)."""
    steps = np.zeros(lab.shape[:2])
    for axis in (0, 1):
        step = np.linalg.norm(np.diff(lab, axis=axis), axis=-1)
        before = np.pad(step, [(1, 0) if a == axis else (0, 0) for a in (0, 1)])
        after = np.pad(step, [(0, 1) if a == axis else (0, 0) for a in (0, 1)])
        steps = np.maximum(steps, np.maximum(before, after))
    calm = np.asarray(steps <= max(EDGE, EDGE_NOISE * float(np.median(steps))))
    return calm if calm.mean() >= LEAST_CALM else np.ones_like(calm)


def _rim(shape: tuple[int, ...]) -> Mask:
    """Return the rim of the picture, at least one pixel wide."""
    rim = np.ones(shape, dtype=bool)
    rows, columns = (max(1, round(RIM * side)) for side in shape)
    rim[rows:-rows, columns:-columns] = False
    return rim


def _middle(shape: tuple[int, ...]) -> Mask:
    middle = np.zeros(shape, dtype=bool)
    rows, columns = (round(MIDDLE * side) for side in shape)
    middle[rows : shape[0] - rows, columns : shape[1] - columns] = True
    return middle


@dataclass(frozen=True, eq=False)
class _Places:
    """Rim and middle of a picture, edges left out; shapes (rows, columns)."""

    rim: Mask
    middle: Mask
    lightness: FloatArray

    @classmethod
    def of(cls, calm: Mask, lightness: FloatArray) -> "_Places":
        return cls(_rim(calm.shape) & calm, _middle(calm.shape) & calm, lightness)

    def taken(self, mask: Mask) -> tuple[float, float]:
        """Return the shares of the rim and of the middle that something takes [0–1]."""
        along = float((mask & self.rim).sum() / max(1, self.rim.sum()))
        return along, float((mask & self.middle).sum() / max(1, self.middle.sum()))

    def odds(self, mask: Mask) -> float:
        """Return how much denser it is along the rim than in the middle: 1 only there, 0.5 equal.

        What is neither here nor there, say between a small flower and the rim, has even odds.
        """
        along, within = self.taken(mask)
        return along / (along + within) if along + within else FLOWER_ODDS

    def both(self, mask: Mask) -> bool:
        """Return whether something may be flower and background in one."""
        if any(share < least for share, least in zip(self.taken(mask), BOTH, strict=True)):
            return False
        low, high = np.quantile(self.lightness[mask & self.rim], (0.05, 0.95))
        return bool(high - low <= EVEN)

    def standing(self, mask: Mask, *, surely: bool) -> Standing:
        """Return whether something is background; where not `surely`, perhaps at most."""
        odds, (along, _) = self.odds(mask), self.taken(mask)
        if odds <= FLOWER_ODDS or along < AWAY:
            return Standing.FLOWER
        sure = surely and odds >= BACKGROUND_ODDS and along >= LEAST_RIM
        return Standing.BACKGROUND if sure else Standing.UNSURE


@dataclass(frozen=True, eq=False)
class _Group:
    """Clusters that are one part."""

    clusters: Numbers
    divided: bool = False
    """Whether they are one with others, and told apart from them by place alone."""


def _groups(centres: FloatArray, labels: Numbers, places: _Places) -> Iterator[_Group]:
    """Yield the groups of clusters; those that are flower and background in one are divided."""
    joined = _joins(centres, labels)
    for clusters_ in _connected(joined):
        if not places.both(np.isin(labels, clusters_)):
            yield _Group(clusters_)
            continue
        behind = np.array([places.odds(labels == c) >= BACKGROUND_ODDS for c in clusters_])
        inner = joined[np.ix_(clusters_, clusters_)] & (behind[:, None] == behind[None])
        for divided in _connected(inner):
            yield _Group(clusters_[divided], divided=bool(behind.any()))


def _connected(joined: Mask) -> list[Numbers]:
    """Return what hangs together, shape of `joined` (n, n): the places of each group."""
    from scipy.sparse import csr_matrix
    from scipy.sparse.csgraph import connected_components

    count, groups = connected_components(csr_matrix(joined.astype(np.int8)), directed=False)
    return [np.flatnonzero(groups == number) for number in range(count)]


def _joins(centres: FloatArray, labels: Numbers) -> Mask:
    """Return which clusters run into each other or are alike, shape (clusters, clusters)."""
    contact = _contact(labels, len(centres))
    sizes = np.bincount(labels[labels >= 0], minlength=len(centres))
    needed = LEAST_CONTACT * np.sqrt(np.minimum(sizes[:, None], sizes[None]))
    touching = (contact >= needed) & (_hue_apart(centres) <= ONE_HUE)
    alike = delta_e_2000(centres[:, None], centres[None]) < ALIKE
    return np.asarray(touching | alike)


def _contact(labels: Numbers, count: int) -> FloatArray:
    """Return how many pixels of two clusters are neighbours, shape (clusters, clusters)."""
    contact = np.zeros((count, count))
    for one, other in ((labels[1:], labels[:-1]), (labels[:, 1:], labels[:, :-1])):
        both = (one >= 0) & (other >= 0)
        np.add.at(contact, (one[both], other[both]), 1)
    return np.asarray(contact + contact.T)


def _hue_apart(centres: FloatArray) -> FloatArray:
    """Return ΔH*ab between any two colours (CIE 15:2018, 8.2.3), shape (clusters, clusters)."""
    chroma = np.hypot(centres[:, 1], centres[:, 2])
    along = centres[:, 1:] @ centres[:, 1:].T
    return np.sqrt(np.maximum(0.0, 2 * (chroma[:, None] * chroma[None] - along)))


def _inland(mask: Mask) -> Mask:
    """Return the part without what is near its edges, or all of it where little would be left."""
    from scipy.ndimage import binary_erosion

    inland = binary_erosion(mask, iterations=SHORE, border_value=1)
    return inland if inland.sum() >= max(LEAST_PIXELS, LEAST_INLAND * mask.sum()) else mask


def _without_specks(parts: list[Part], count: int) -> tuple[Part, ...]:
    """Return the parts in order, without those that are too small; all if all are."""
    order = list(Standing)
    wholes = {
        behind: sum(p.share for p in parts if (p.standing is Standing.BACKGROUND) == behind)
        for behind in (True, False)
    }
    kept = [
        part
        for part in parts
        if part.share * count >= LEAST_PIXELS
        and part.share >= LEAST_SHARE * wholes[part.standing is Standing.BACKGROUND]
    ]
    return tuple(sorted(kept or parts, key=lambda p: (order.index(p.standing), -p.share)))
