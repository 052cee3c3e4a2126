"""The parts of a mix as one bar, divided by their shares.

The fields stand in the order of the words beside, with the number of parts beneath and a line
between, so that the bar can be read without telling the colours apart.
"""

from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.shapes import Area, Line, Picture, Shape, Words
from fewtubes.picture.sheet import Sheet, screen_colour
from fewtubes.picture.washes import washes_of
from fewtubes.words.counting import counted

__all__ = ["BAR_HEIGHT", "BAR_WIDTH", "NUMBER_SIZE", "mix_bar"]

BAR_WIDTH = 144.0
"""A ninth of it, the smallest share there is in a recipe, still holds a figure."""

BAR_HEIGHT = 18.0
MARGIN = 2.0
NUMBER_SIZE = 14.0
NUMBER_ROOM = 16.0


def mix_bar(
    ids: Sequence[str],
    parts: Sequence[int],
    tubes: Mapping[str, Tube],
    optics: Optics,
    sheet: Sheet,
) -> Picture:
    """Return the bar of a mix.

    Parameters
    ----------
    ids, parts
        Its tubes and the parts of each, in the order of its words.
    tubes
        The palette by id.
    """
    whole = sum(parts)
    ends = [MARGIN + BAR_WIDTH * end / whole for end in accumulate(parts, initial=0)]
    top, foot = MARGIN, MARGIN + BAR_HEIGHT
    shapes: list[Shape] = []
    for id_, (left, right) in zip(ids, pairwise(ends), strict=True):
        fill = screen_colour(washes_of(tubes[id_], optics).inside[0]).hex
        shapes.append(Area(((left, top), (right, top), (right, foot), (left, foot)), fill))
    outline = ((ends[0], top), (ends[-1], top), (ends[-1], foot), (ends[0], foot), (ends[0], top))
    shapes.append(Line(outline, sheet.soft_ink, 0.8))
    shapes += [Line(((x, top), (x, foot)), sheet.ground, 3.0) for x in ends[1:-1]]
    shapes += [Line(((x, top), (x, foot)), sheet.ink, 1.2) for x in ends[1:-1]]
    if len(parts) > 1:
        middles = [(left + right) / 2 for left, right in pairwise(ends)]
        line = foot + NUMBER_ROOM - 3
        shapes += [
            Words(x, line, f"{count}", sheet.ink, NUMBER_SIZE, "middle")
            for x, count in zip(middles, parts, strict=True)
        ]
    told = [f"{counted(n, 'part')} {tubes[id_].name}" for id_, n in zip(ids, parts, strict=True)]
    return Picture(
        width=BAR_WIDTH + 2 * MARGIN,
        height=foot + (NUMBER_ROOM if len(parts) > 1 else MARGIN),
        ground=sheet.ground,
        title="Parts of the mix",
        description=f"From left to right: {'; '.join(told)}.",
        shapes=tuple(shapes),
    )
