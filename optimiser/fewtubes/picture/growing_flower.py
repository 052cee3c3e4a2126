"""A flower as far as it can be painted by some time: the new ringed, what is to come empty."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.brush import Brush, Numbered
from fewtubes.picture.outlines import by_hand, seed_of
from fewtubes.picture.shapes import Area, Line, Picture, Shape, Words, points_of
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.split_flower import flower_by
from fewtubes.words.counting import counted

__all__ = ["growing_flower"]

RING_WIDTH = 3.2
"""Of the outline around what is new [picture units]; a wet edge has about half of it."""

NEW_LABEL_SIZE = 20.0
"""Of the number beside what is new [picture units]."""


@dataclass(frozen=True)
class _Grower(Brush):
    """Paints what is within reach, rings what is new, leaves all else empty."""

    new: frozenset[int] = field(default_factory=frozenset)
    """Numbers of the samples that are new."""

    def halves(
        self,
        item: Numbered,
        left: FloatArray,
        right: FloatArray,
        *,
        waver: float = 1.2,
        inner: int = 0,
    ) -> Iterator[Shape]:
        """Yield both halves, or their dashed outline; see `Brush.halves`."""
        planned = item.planned
        if planned.covered:
            yield from super().halves(item, left, right, waver=waver, inner=inner)
        seed = seed_of(planned.sample.flower, planned.sample.name)
        outline = [
            by_hand(edge, amount=waver, seed=seed + turn, closed=False)[inner:]
            for turn, edge in enumerate((left, right))
        ]
        whole = points_of(np.concatenate([outline[0], outline[1][::-1]]))
        if not planned.covered:
            yield Area(whole, self.sheet.ground)  # nothing shows through from beneath
            yield Line(whole, self.sheet.soft_ink, 1.0, dashed=True)
        elif item.number in self.new:
            yield Line(whole, self.sheet.ink, RING_WIDTH)

    def label(self, item: Numbered, tip: tuple[float, float], direction: float) -> Words:
        """Return the number of a sample, in bold type of what is new."""
        words = super().label(item, tip, direction)
        if item.number in self.new:
            return replace(words, size=NEW_LABEL_SIZE, bold=True)
        if item.planned.covered:
            return words
        return replace(words, text=f"{item.number}", colour=self.sheet.soft_ink)


def growing_flower(
    items: Sequence[Numbered],
    new: frozenset[int],
    tubes: dict[str, Tube],
    optics: Optics,
    sheet: Sheet,
    *,
    name: str,
) -> Picture:
    """Return the picture of one flower as far as it can be painted.

    Parameters
    ----------
    items
        Its samples, with the recipes that there are by then.
    new
        Numbers of those that could not be painted before.
    tubes
        The tubes held by then, by id.
    optics, sheet
        Paper and light, and how the paper is shown.
    name
        How the flower is called.
    """
    covered = sum(item.planned.covered for item in items)
    return flower_by(
        items,
        _Grower(tubes, optics, sheet, new),
        title=f"{name}, as far as it can be painted",
        description=f"{covered} of {counted(len(items), 'colour')} can be painted, {len(new)} of"
        " them newly, ringed; what cannot yet is left empty.",
    )
