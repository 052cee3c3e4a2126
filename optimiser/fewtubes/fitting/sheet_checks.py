"""Swatches that cannot be what they are said to be, told before anything is fitted to them.

Depth is the natural logarithm of paper ÷ swatch in X, Y and Z: a film that lets light through
twice adds about 2K to it, and no film makes it negative.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_xyz
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.seen import lab_of
from fewtubes.fitting.sheet import PaintedSwatch, PaintedTube, SwatchSheet
from fewtubes.mixing.bare_paper import paper_lab

__all__ = ["check_paper", "check_tubes"]

DARKEST_PAPER = 80.0
"""L* below which a paper is no white one; watercolour papers have 92 to 97."""

DEEPEST_TINT = 15.0
"""C* above which a paper is coloured; cream ones have up to about 12."""

SURE = 3.0
"""Standard deviations of the colours that a fault must exceed."""

HAND_SLIP = 1.3
"""How many times as much paint as was meant may lie in a swatch by a slip of the hand."""

LEAST_RATIO = 1e-3
"""Share of white below which everything is black to the eye."""

BRIGHTER = 0.05
"""Depth below 0 that is let pass: the paper is not everywhere alike."""


def check_paper(sheet: SwatchSheet, paper: FloatArray, collector: FaultCollector) -> None:
    """Note a paper that is not white.

    Parameters
    ----------
    sheet
        The swatches.
    paper
        CIELAB of the bare paper as it was seen, shape (3,).
    collector
        Takes the fault.
    """
    lightness, chroma = float(paper[0]), float(np.hypot(*paper[1:]))
    if lightness < DARKEST_PAPER or chroma > DEEPEST_TINT:
        collector.note(
            f"{sheet.label}, paper",
            f"has L* {_down(lightness)} and chroma {_up(chroma)}, which is no white paper (L* at"
            f" least {DARKEST_PAPER:.0f}, chroma at most {DEEPEST_TINT:.0f}). If it is white to the"
            " eye, the picture is too dark or tinted: take it again in even daylight, and every"
            " colour from the new one; else paint the swatches on white paper.",
        )


def _down(figure: float) -> str:
    """Return a figure to one decimal, never more than it is."""
    return f"{math.floor(10 * figure) / 10:g}"


def _up(figure: float) -> str:
    """Return a figure to one decimal, never less than it is."""
    return f"{math.ceil(10 * figure) / 10:g}"


def check_tubes(sheet: SwatchSheet, grounds: Grounds, collector: FaultCollector) -> None:
    """Note tubes whose swatches are too few, in the wrong order or brighter than the paper."""
    for tube in sheet.tubes:
        over_paper = [swatch for swatch in tube.swatches if not swatch.over_black]
        if _enough(sheet, tube, over_paper, collector):
            for where, what in _contradictions(over_paper, grounds):
                collector.note(where, f"{shown(tube.name)} {what}")


def _enough(
    sheet: SwatchSheet,
    tube: PaintedTube,
    over_paper: Sequence[PaintedSwatch],
    collector: FaultCollector,
) -> bool:
    """Return whether there are a full stroke and a wash over paper, noting what is missing."""
    name = shown(tube.name)
    strengths = {swatch.strength for swatch in over_paper}
    where = tube.swatches[0].where if tube.swatches else sheet.label
    if len(strengths) < 2:
        collector.note(
            where,
            f"{name} has {'only one swatch' if len(over_paper) == 1 else 'no two strengths'} over"
            " paper; paint a full stroke (strength 1) and at least one wash, such as 0.25.",
        )
    elif max(strengths) < 1:
        collector.note(
            where,
            f"{name} has no full stroke over paper; add a row of strength 1: what its washes are"
            " a share of.",
        )
    else:
        return True
    return False


def _contradictions(
    swatches: Sequence[PaintedSwatch], grounds: Grounds
) -> Iterator[tuple[str, str]]:
    """Yield where, and what no paint does: weaker but deeper, or brighter than the paper."""
    depths = [_depth(swatch, grounds) for swatch in swatches]
    for swatch, (depth, unsure) in zip(swatches, depths, strict=True):
        if (depth < -BRIGHTER - SURE * unsure).any():
            yield (
                swatch.where,
                "is brighter than the bare paper, as metallic and fluorescent paints are, which"
                " cannot be fitted; leave the tube out, or look at the light on the swatch.",
            )
    for (stronger, strong), (weaker, weak) in combinations(zip(swatches, depths, strict=True), 2):
        channel = int(np.argmax(strong[0]))
        slack = SURE * float(np.hypot(strong[1][channel], weak[1][channel]))
        # Strokes of nearly one strength change places by a slip of the hand, far ones do not.
        slip = max(1.0, HAND_SLIP * weaker.strength / stronger.strength)
        if (
            stronger.strength > weaker.strength
            and weak[0][channel] > slip * max(strong[0][channel], 0.0) + slack
        ):
            yield (
                weaker.where,
                f"has a wash of strength {weaker.strength:g} that is darker than the one of"
                f" strength {stronger.strength:g} ({stronger.where}); put the two the right way"
                " round.",
            )


def _depth(swatch: PaintedSwatch, grounds: Grounds) -> tuple[FloatArray, FloatArray]:
    """Return how deep a swatch is in X, Y and Z, and how sure that is, shapes (3,)."""
    optics = grounds.optics
    lab = lab_of(swatch.colour, optics)
    ratio = np.maximum(lab_to_xyz(lab, optics.white) / optics.white, LEAST_RATIO)
    paper = lab_to_xyz(paper_lab(optics), optics.white) / optics.white
    # L*, a*, b* are multiples of f = ratio^(1/3) and of its differences.
    of_f = swatch.noise * np.hypot(1 / 116, [1 / 500, 0.0, 1 / 200])
    return np.log(paper / ratio), 3 * of_f / np.cbrt(ratio)
