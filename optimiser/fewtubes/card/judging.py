"""Which boxes of a card are painted, and what is wrong with them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.card.layout import Row
from fewtubes.card.places import box_place, row_place
from fewtubes.card.seen_boxes import SeenBox
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import RGB_TO_XYZ, linear_to_lab

__all__ = ["Judged", "judged_rows"]

BARE = 2.0
"""ΔE00 to bare paper below which a box counts as not painted; the reading is sure to about 1."""

BRIGHTER = 1.06
"""By which paint may seem to send back more light than can be; the reading is no surer."""

BRIGHTER_IN_SHADOW = 1.5
"""The same beside a shadow's edge, where the light is known no better."""

MOST_OF_A_CHANNEL: FloatArray = np.array([1.48, 1.13, 1.12])
"""Largest values of linear sRGB, red, green, blue, beside white that a surface can have which gives
back no more light than it gets: the sums of the positive parts of the channels' sensitivities (CIE
1931 observer, D65)."""
MOST_OF_A_CHANNEL.setflags(write=False)

SHINING = 0.05
"""Share of shining pixels from which on a box cannot be used."""

BLACKEST = 50.0
"""L* that a black line stays below; one printed in ink has 20 to 35."""

SHADOW_EDGE = (
    "the bare paper on one side of it is darker than on the other, so that its colour is less sure."
)

NO_BLACK = "the line under the boxes over black is not black, so these boxes were left out."

Told = tuple[SeenBox, str]
"""A box with what a fault of it is told of."""

Kept = tuple[Row, tuple[Told, ...]]
"""A row and its painted boxes."""


@dataclass(frozen=True, eq=False)
class Judged:
    """The rows in which something is painted."""

    rows: tuple[Kept, ...]
    """The boxes over paper come first, the strongest first."""
    black: FloatArray | None
    """Linear sRGB of the bare black line, None where there is none, shape (3,)."""
    notes: tuple[str, ...]
    """What was left out, a sentence each."""


def judged_rows(
    rows: Sequence[Row],
    seen: Sequence[Sequence[SeenBox]],
    *,
    paper: FloatArray,
    black: FloatArray | None,
    where: str,
) -> Judged:
    """Return what is painted.

    Parameters
    ----------
    rows, seen
        The rows of a sheet, and what their boxes look like.
    paper, black
        Linear sRGB of the nominal paper and of the bare black line (None where not known),
        shapes (3,).
    where
        What faults are told of.

    Raises
    ------
    InputError
        With every fault found, if there is any.
    """
    collector = FaultCollector()
    notes: list[str] = []
    kept: list[Kept] = []
    for number, (row, boxes) in enumerate(zip(rows, seen, strict=True), start=1):
        place = row_place(where, number, row)
        painted = _painted(row, boxes, place, paper=paper, collector=collector, notes=notes)
        if painted:
            kept.append((row, painted))
    no_black = black is not None and linear_to_lab(black)[0] > BLACKEST
    if no_black and any(box.box.over_black for _, painted in kept for box, _ in painted):
        kept = [(row, _over_paper(painted)) for row, painted in kept]
        notes.append(f"{where}: {NO_BLACK}")
    if not kept and collector.is_empty:
        collector.note(where, "nothing is painted on this sheet; paint it, or take another one.")
    collector.raise_if_any()
    return Judged(tuple(kept), None if no_black else black, tuple(notes))


def _painted(
    row: Row,
    boxes: Sequence[SeenBox],
    place: str,
    *,
    paper: FloatArray,
    collector: FaultCollector,
    notes: list[str],
) -> tuple[Told, ...]:
    """Return the painted boxes of a row, noting what is wrong with them."""
    told = [(box, box_place(place, box.box)) for box in _in_order(boxes)]
    painted = tuple((box, told_of) for box, told_of in told if not _is_bare(box, paper))
    if painted:
        if not row.name:
            collector.note(
                place, "is painted but has no name; write it beside name in the layout's file."
            )
        _note_gaps(told, painted, collector, notes)
        _note_bright(painted, paper, collector)
        notes.extend(f"{told_of}: {SHADOW_EDGE}" for box, told_of in painted if box.shadow_edge)
    elif row.name:
        collector.note(
            place,
            "looks like bare paper at every strength; paint it, or take the tube out of the"
            " layout.",
        )
    return painted


def _over_paper(painted: Sequence[Told]) -> tuple[Told, ...]:
    return tuple((box, told_of) for box, told_of in painted if not box.box.over_black)


def _in_order(boxes: Sequence[SeenBox]) -> list[SeenBox]:
    """Return the boxes over paper before those over black, the strongest first."""
    return sorted(boxes, key=lambda seen: (seen.box.over_black, -seen.box.strength))


def _is_bare(seen: SeenBox, paper: FloatArray) -> bool:
    """Return whether a box looks like bare paper; over black, whether the stroke beside it does."""
    linear = seen.stroke if seen.box.over_black else seen.linear
    if linear is None:
        return False
    return bool(delta_e_2000(linear_to_lab(linear), linear_to_lab(paper)) < BARE)


def _note_gaps(
    told: Sequence[Told],
    painted: Sequence[Told],
    collector: FaultCollector,
    notes: list[str],
) -> None:
    """Note bare boxes of a painted row: only the weakest washes may be left bare."""
    places = {place for _, place in painted}
    weakest = min(seen.box.strength for seen, _ in painted)
    for seen, place in told:
        if place in places:
            continue
        if seen.box.over_black or seen.box.strength < weakest:
            notes.append(f"{place}: looks like bare paper and was left out.")
        else:
            collector.note(
                place,
                "looks like bare paper although others of its row are painted; paint it, or take"
                " the box out of the layout.",
            )


def _note_bright(painted: Sequence[Told], paper: FloatArray, collector: FaultCollector) -> None:
    """Note boxes that shine, or that are brighter than the paper."""
    for seen, place in painted:
        tristimulus = RGB_TO_XYZ @ seen.linear / (RGB_TO_XYZ @ paper)
        channels = seen.linear / paper / MOST_OF_A_CHANNEL
        brighter = max(tristimulus.max(), channels.max())
        if brighter > (BRIGHTER_IN_SHADOW if seen.shadow_edge else BRIGHTER):
            collector.note(
                place,
                f"is brighter than paint on this paper can be ({brighter:.2f} times); keep shine"
                " off the card, and switch off what makes a picture's colours vivid; metallic and"
                " fluorescent paints cannot be fitted.",
            )
        elif seen.shine > SHINING and not np.allclose(seen.linear, paper, rtol=0.1):
            collector.note(
                place,
                f"shines on {seen.shine:.0%} of its middle; photograph the card with the light from"
                " the side.",
            )
