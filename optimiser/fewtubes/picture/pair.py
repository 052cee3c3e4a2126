"""A colour wanted and the mix for it, edge to edge in one dab: wanted left, mix right."""

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.outlines import by_hand, rectangle, seed_of
from fewtubes.picture.shapes import Area, Line, Picture, Shape, points_of
from fewtubes.picture.sheet import Sheet, screen_colour
from fewtubes.picture.washes import rim_lab
from fewtubes.shopping.plan_parts import PlannedSample

__all__ = ["PAIR_HEIGHT", "PAIR_WIDTH", "pair_picture", "rim_colour"]

PAIR_WIDTH, PAIR_HEIGHT = 132.0, 52.0
MARGIN = 4.0


def pair_picture(
    planned: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> Picture:
    """Return the dab of one sample; `tubes` are those of the palette by id."""
    body = rectangle(MARGIN, MARGIN, PAIR_WIDTH - 2 * MARGIN, PAIR_HEIGHT - 2 * MARGIN)
    edge = by_hand(body, amount=1.4, seed=seed_of(planned.sample.flower, planned.sample.name))
    middle = PAIR_WIDTH / 2
    left = np.clip(edge, (0, 0), (middle, PAIR_HEIGHT))
    mix = screen_colour(planned.mix_lab).hex
    shapes: list[Shape] = [
        Area(points_of(edge), mix),  # beneath both, so that no seam shows between them
        Area(points_of(left), screen_colour(planned.sample.lab).hex),
    ]
    unpainted = planned.recipe is None or planned.is_bare_paper
    right = edge[edge[:, 0] > middle]
    start = int(np.argmax(np.hypot(*np.diff(right, axis=0, append=right[:1]).T))) + 1
    line = points_of(np.roll(right, -start, axis=0))
    colour = sheet.soft_ink if unpainted else rim_colour(planned, tubes, optics)
    shapes.append(Line(line, colour, 1.0 if unpainted else 1.6, dashed=unpainted))
    return Picture(
        width=PAIR_WIDTH,
        height=PAIR_HEIGHT,
        ground=sheet.ground,
        title=planned.sample.name,
        description="Left the colour wanted, right the mix.",
        shapes=tuple(shapes),
    )


def rim_colour(planned: PlannedSample, tubes: dict[str, Tube], optics: Optics) -> str:
    """Return the colour of a mix where it dries last; the mix's own if there is no recipe."""
    lab = planned.mix_lab if planned.recipe is None else rim_lab(planned.recipe, tubes, optics)
    return screen_colour(lab).hex
