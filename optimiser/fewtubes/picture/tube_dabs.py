"""A palette at a glance: one dab of paint a tube, at full strength."""

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.outlines import blob, by_hand, seed_of
from fewtubes.picture.shapes import Area, Picture, Shape, points_of
from fewtubes.picture.sheet import Sheet, screen_colour
from fewtubes.picture.washes import washes_of

__all__ = ["tube_dabs"]

RADIUS = 8.0
STEP = 31.0
"""From dab to dab."""

HEIGHT = 22.0


def tube_dabs(tubes: list[Tube], optics: Optics, sheet: Sheet) -> Picture:
    """Return one dab a tube, in their order."""
    shapes: list[Shape] = []
    for number, tube in enumerate(tubes):
        washes = washes_of(tube, optics)
        ring = blob(2 + RADIUS + STEP * number, HEIGHT / 2, RADIUS)
        edge = by_hand(ring, amount=0.5, seed=seed_of(tube.id, 0))
        fill, rim = screen_colour(washes.inside[0]).hex, screen_colour(washes.rim[0]).hex
        shapes.append(Area(points_of(edge), fill, rim=sheet.outlined(rim, fill), rim_width=1.2))
    return Picture(
        width=max(1.0, STEP * (len(tubes) - 1) + 2 * RADIUS + 4),
        height=HEIGHT,
        ground=sheet.ground,
        title="The tubes",
        description="One dab a tube, at full strength.",
        shapes=tuple(shapes),
    )
