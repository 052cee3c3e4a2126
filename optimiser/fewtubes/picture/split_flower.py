"""A flower taken apart and painted twice: each petal and leaf half as wanted, half as mixed.

It is a diagram, not a portrait: every swatch of the flower gets one petal, one part of the heart,
one leaf, one bud or one piece of stem. Looking from base to tip the colour wanted is on the left,
the mix on the right of the vein. A number beside each leads to its recipe.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from fewtubes.catalogue.records import Role, Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.brush import Brush, Numbered, off
from fewtubes.picture.outlines import petal_side
from fewtubes.picture.petal_ring import petal_ring
from fewtubes.picture.shapes import Line, Picture, Shape
from fewtubes.picture.sheet import Sheet

__all__ = ["flower_by", "split_flower"]

WIDTH = 356.0
MIDDLE = WIDTH / 2
REACH = 116.0
"""From the flower's centre to the tips of its petals."""

HEART = 34.0
"""Radius of the heart, where petals begin."""

ROOM = 26.0
"""Kept free around for numbers."""

BESIDE_STEM, AT_FOOT = 16.0, 0.05
"""The number of a petal that hangs before the stem stands so far beside it [picture units]; which
that is, by its turn from straight down [radians]."""

FULLEST = 0.62
"""Where along a petal it is widest [0–1]."""

SPOKE = 8
"""Places along a sector's straight side."""

STEM_PIECE = 34.0
"""Height of one colour of the stem below the leaves."""

SHOOT_STEP = 74.0
"""From one pair of leaves to the next."""

HEART_ROLES = frozenset({Role.THROAT, Role.CENTRE, Role.MARKING})
LEAF_ROLES = frozenset({Role.LEAF, Role.LEAF_SHADE})


def split_flower(
    items: Sequence[Numbered], tubes: dict[str, Tube], optics: Optics, sheet: Sheet, *, name: str
) -> Picture:
    """Return the picture of one flower.

    Parameters
    ----------
    items
        Its samples.
    tubes
        The palette by id.
    optics, sheet
        Paper and light, and how the paper is shown.
    name
        How the flower is called.
    """
    missed = sum(not item.planned.covered for item in items)
    return flower_by(
        items,
        Brush(tubes, optics, sheet),
        title=f"{name}, taken apart",
        description=f"{len(items)} colours, each half as wanted and half as mixed;"
        f" {len(items) - missed} are covered, {missed} out of reach."
        " The list of recipes says the same in words.",
    )


def flower_by(items: Sequence[Numbered], brush: Brush, *, title: str, description: str) -> Picture:
    """Return the picture of one flower as a brush paints its samples.

    Parameters
    ----------
    items
        Its samples.
    brush
        Paints each of them, and names it.
    title, description
        What the picture shows.
    """
    kinds = _sorted_by_part(items)
    blossom = bool(kinds["petal"] or kinds["heart"])
    plant = bool(kinds["shoot"] or kinds["stem"])
    neck = 2 * (REACH + ROOM) if blossom else ROOM
    leaves = neck + SHOOT_STEP * ((len(kinds["shoot"]) + 1) // 2)
    foot = leaves + STEM_PIECE * len(kinds["stem"]) + 8
    shapes = [*_stem(kinds["stem"], brush, neck=neck, foot=foot)] if plant else []
    shapes += _shoots(kinds["shoot"], brush, neck)
    if blossom:
        shapes += _blossom(kinds["petal"], kinds["heart"], brush)
    alone = len(items) == len(kinds["petal"]) == 1  # nothing below the one petal
    return Picture(
        width=WIDTH,
        height=foot if plant else REACH + 2 * ROOM if alone else neck,
        ground=brush.sheet.ground,
        title=title,
        description=description,
        shapes=tuple(shapes),
    )


def _sorted_by_part(items: Sequence[Numbered]) -> dict[str, list[Numbered]]:
    """Return the samples by where they are drawn."""
    kinds: dict[str, list[Numbered]] = {"petal": [], "heart": [], "shoot": [], "stem": []}
    for item in items:
        role = item.planned.sample.role
        kind = "petal"
        if role in HEART_ROLES:
            kind = "heart"
        elif role in LEAF_ROLES or role is Role.BUD:
            kind = "shoot"
        elif role is Role.STEM:
            kind = "stem"
        kinds[kind].append(item)
    kinds["shoot"].sort(key=lambda item: item.planned.sample.role is not Role.BUD)
    return kinds


def _blossom(
    petals: Sequence[Numbered], hearts: Sequence[Numbered], brush: Brush
) -> Iterator[Shape]:
    """Yield petals around a heart."""
    centre = (MIDDLE, REACH + ROOM)
    step = 2 * np.pi / max(len(petals), 1)
    widest_at = HEART + FULLEST * (REACH - HEART)
    width = min(54.0, 0.94 * widest_at * np.sin(min(step / 2, np.pi / 2)))
    start = HEART if hearts else 6.0
    ring = petal_ring([item.planned.sample for item in petals])
    for place, direction in ring:
        item = petals[place]
        base = off(centre, direction, start - 4 if hearts else start)
        edges = [
            petal_side(
                base, direction=direction, length=REACH - start, half_width=side, fullest=FULLEST
            )
            for side in (-width, width)
        ]
        yield from brush.halves(item, *edges)
        x, y = off(centre, direction, REACH)
        at_foot = abs(direction - np.pi) < AT_FOOT
        yield brush.label(item, (x + BESIDE_STEM if at_foot else x, y), direction)
    first = ring[0][1] + step / 2 if ring else 0.0
    yield from _heart(hearts, brush, centre, first=first, step=step)


def _heart(
    hearts: Sequence[Numbered],
    brush: Brush,
    centre: tuple[float, float],
    *,
    first: float,
    step: float,
) -> Iterator[Shape]:
    """Yield the heart in as many sectors as it has colours, each joined to its number by a line."""
    span = 2 * np.pi / max(len(hearts), 1)
    count = max(1, round(2 * np.pi / step))
    gaps = sorted((first + turn * step) % (2 * np.pi) for turn in range(count))
    for turn, item in enumerate(hearts):
        aimed = (turn + 0.5) * span if len(hearts) > 1 else gaps[0]
        direction = _nearest_gap(gaps, aimed)
        left = _arc(centre, aimed - span / 2, aimed)
        right = _arc(centre, aimed + span / 2, aimed)
        outer = off(centre, direction, REACH - 2)
        yield Line((off(centre, aimed, HEART - 6), outer), brush.sheet.soft_ink, 0.9)
        yield from brush.halves(item, left, right, waver=0.0, inner=SPOKE)
        yield brush.label(item, outer, direction)


def _nearest_gap(gaps: list[float], aimed: float) -> float:
    """Take the gap between petals nearest to a direction, but not the one where the stem is."""
    free = [gap for gap in gaps if abs(gap - np.pi) > 0.2] or [aimed]
    nearest = min(free, key=lambda gap: abs(np.angle(np.exp(1j * (gap - aimed)))))
    if nearest in gaps:
        gaps.remove(nearest)
    return nearest


def _shoots(items: Sequence[Numbered], brush: Brush, neck: float) -> Iterator[Shape]:
    """Yield buds and leaves, pair by pair down the stem."""
    for turn, item in enumerate(items):
        side = -1 if turn % 2 == 0 else 1
        bud = item.planned.sample.role is Role.BUD
        base = (MIDDLE + side, neck + SHOOT_STEP * (turn // 2 + 1) - 8)
        direction = side * np.radians(48 if bud else 62)
        length, width = (78.0, 21.0) if bud else (112.0, 25.0)
        if bud:
            stalk = off(base, direction, 26.0)
            yield Line((base, stalk), brush.sheet.soft_ink, 1.6)
            base, length = stalk, length - 26
        edges = [
            petal_side(
                base,
                direction=direction,
                length=length,
                half_width=half,
                fullest=0.42,
            )
            for half in (-width, width)
        ]
        yield from brush.halves(item, *edges)
        yield brush.label(item, off(base, direction, length), direction)


def _stem(items: Sequence[Numbered], brush: Brush, *, neck: float, foot: float) -> Iterator[Shape]:
    """Yield the stem; where several colours are asked for it, in pieces below the leaves."""
    top, foot = (REACH + ROOM if neck > ROOM else 4.0), foot - 4
    start = top if len(items) == 1 else foot - STEM_PIECE * len(items)
    if start > top:
        yield Line(((MIDDLE, top), (MIDDLE, start)), brush.sheet.soft_ink, 1.6)
    piece = (foot - start) / max(len(items), 1)
    for turn, item in enumerate(items):
        lower = start + (turn + 1) * piece
        count = max(6, round(piece / 3))
        ys = np.linspace(lower, lower - piece, count)
        bow = 7.0 * np.minimum(1.0, 4 * np.sin(np.linspace(0, np.pi, count)))
        left, right = (np.stack([MIDDLE + side * bow, ys], axis=1) for side in (-1, 1))
        yield from brush.halves(item, left, right)
        yield brush.label(item, (MIDDLE + 7, lower - 12), np.pi / 2)


def _arc(centre: tuple[float, float], start: float, end: float) -> FloatArray:
    """Return half a sector: from the heart's centre to its edge and along it, shape (n, 2)."""
    turns = np.linspace(start, end, max(6, int(abs(end - start) * HEART / 3)))
    edge = [off(centre, float(turn), HEART) for turn in turns]
    spoke = np.linspace(centre, edge[0], SPOKE, endpoint=False)
    return np.concatenate([spoke, edge])
