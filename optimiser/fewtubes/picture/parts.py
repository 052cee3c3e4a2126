"""The parts of a recipe as dabs of paint at full strength, one dab per part."""

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import Recipe
from fewtubes.picture.outlines import blob, by_hand, seed_of
from fewtubes.picture.shapes import Area, Picture, Shape, points_of
from fewtubes.picture.sheet import Sheet, screen_colour
from fewtubes.picture.washes import washes_of

__all__ = ["parts_picture", "tube_dabs"]

RADIUS = 8.0
STEP = 19.0
"""From dab to dab of one tube."""

GAP = 12.0
"""Further distance from the dabs of one tube to those of the next."""

HEIGHT = 22.0


def parts_picture(recipe: Recipe, tubes: dict[str, Tube], optics: Optics, sheet: Sheet) -> Picture:
    """Return the dabs of a recipe, in its order."""
    counted = [(tubes[id_], parts) for id_, parts in zip(recipe.tubes, recipe.parts, strict=True)]
    return _dabs(counted, optics, sheet, title="Parts of the mix")


def tube_dabs(tubes: list[Tube], optics: Optics, sheet: Sheet) -> Picture:
    """Return one dab a tube: the palette at a glance."""
    return _dabs([(tube, 1) for tube in tubes], optics, sheet, title="The tubes")


def _dabs(counted: list[tuple[Tube, int]], optics: Optics, sheet: Sheet, *, title: str) -> Picture:
    shapes: list[Shape] = []
    x = 2 + RADIUS
    for tube, parts in counted:
        washes = washes_of(tube, optics)
        for dab in range(parts):
            ring = blob(x, HEIGHT / 2, RADIUS)
            edge = by_hand(ring, amount=0.5, seed=seed_of(tube.id, dab))
            fill, rim = screen_colour(washes.inside[0]).hex, screen_colour(washes.rim[0]).hex
            shapes.append(Area(points_of(edge), fill, rim=sheet.outlined(rim, fill), rim_width=1.2))
            x += STEP
        x += GAP
    return Picture(
        width=max(1.0, x - STEP - GAP + RADIUS + 2),
        height=HEIGHT,
        ground=sheet.ground,
        title=title,
        description="One dab a part, each tube at full strength.",
        shapes=tuple(shapes),
    )
