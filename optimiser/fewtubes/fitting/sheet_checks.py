"""Swatches that cannot be what they are said to be, told before anything is fitted to them.

Depth is the natural logarithm of paper ÷ swatch in X, Y and Z: a film that lets light through
twice adds about 2K to it. Only a paint that hides makes it negative, up to the whitest paint.
"""

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
from fewtubes.mixing.mixture import reflectance_lab
from fewtubes.mixing.surface import with_surface
from fewtubes.words.decimals import keeping_side

__all__ = ["check_black", "check_paper", "check_tubes"]

DARKEST_PAPER = 80.0
"""L* below which a paper is no white one; watercolour papers have 92 to 97."""

DEEPEST_TINT = 15.0
"""C* above which a paper is coloured; cream ones have up to about 12."""

SURE = 3.0
"""Standard deviations of the colours that a fault must exceed."""

UNEVEN = 1.15
"""How many times as deep as a stronger swatch a weaker one may be as it blooms or granulates."""

MOST_SWATCHES = 20
"""Of one tube, as in a layout; they tell all there is to tell, and time grows steeply with them."""

LEAST_RATIO = 1e-3
"""Share of white below which everything is black to the eye."""

BRIGHTER = 0.05
"""Depth below 0 that is let pass: the paper is not everywhere alike."""

WHITEST = 0.9
"""Share of light that a white paint sends back, surface included; white papers have as much. Paint
that hides may be brighter than a cream paper, but not than this. From memory."""

DULL_BLACK = 0.09
"""Share of light that a dull black line sends back (L* 36), where it was not looked at."""

LIGHTEST_BLACK = 50.0
"""L* above which a line is not black; printed ones and waterproof inks have 15 to 35."""


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
        # Held against "below", so the other way round than a figure that is held against a most.
        light = -keeping_side(-lightness, [-DARKEST_PAPER], decimals=0)[0]
        tint = keeping_side(chroma, [DEEPEST_TINT], decimals=0)[0]
        collector.note(
            f"{sheet.label}, paper",
            f"has L* {light:g} and chroma {tint:g}, which is no white paper (L* at least"
            f" {DARKEST_PAPER:.0f}, chroma at most {DEEPEST_TINT:.0f}). If it is white to the eye,"
            " the picture is too dark or tinted: take it again in even daylight, and every colour"
            " from the new one; else paint the swatches on white paper.",
        )


def check_black(sheet: SwatchSheet, black: FloatArray, collector: FaultCollector) -> None:
    """Note a black line that is not black; `black` is its CIELAB as it was seen, shape (3,)."""
    if black[0] > LIGHTEST_BLACK:
        light = keeping_side(float(black[0]), [LIGHTEST_BLACK], decimals=0)[0]
        collector.note(
            f"{sheet.label}, black line",
            f"has L* {light:g}, which is no black (L* at most {LIGHTEST_BLACK:.0f}); give the"
            " colour of the bare line, or leave its row out.",
        )


def check_tubes(
    sheet: SwatchSheet, grounds: Grounds, collector: FaultCollector, *, hand: float
) -> None:
    """Note tubes whose swatches are too few, or cannot be of one paint.

    Parameters
    ----------
    sheet
        The swatches.
    grounds
        What they lie on.
    collector
        Takes the faults.
    hand
        Standard deviation of ln(true ÷ meant strength), > 0.
    """
    for tube in sheet.tubes:
        over_paper = [swatch for swatch in tube.swatches if not swatch.over_black]
        if _enough(sheet, tube, over_paper, collector):
            depths = [(swatch, *_depth(swatch, grounds)) for swatch in tube.swatches]
            for where, what in (
                *_brighter(depths, grounds),
                *_wrong_order(depths, hand),
                *_lighter_over_black(depths, grounds),
            ):
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
    if len(tube.swatches) > MOST_SWATCHES:
        collector.note(
            tube.swatches[MOST_SWATCHES].where,
            f"{name} has {len(tube.swatches):,} swatches; at most {MOST_SWATCHES} of a tube are"
            " fitted, which tell all there is to tell: leave the others out.",
        )
    elif len(strengths) < 2:
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


Deep = tuple[PaintedSwatch, FloatArray, FloatArray]
"""A swatch, how deep it is in X, Y and Z, and how sure that is, shapes (3,)."""


def _brighter(swatches: Sequence[Deep], grounds: Grounds) -> Iterator[tuple[str, str]]:
    """Yield which swatches are brighter than paper and white paint."""
    paper = _paper_ratio(grounds)
    least = np.log(paper / max(WHITEST, float(paper.max())))
    for swatch, depth, unsure in swatches:
        if (depth < least - BRIGHTER - SURE * unsure).any():
            yield (
                swatch.where,
                "is brighter than the bare paper, as metallic and fluorescent paints are, which"
                " cannot be fitted; leave the tube out, or look at the light on the swatch.",
            )


def _wrong_order(swatches: Sequence[Deep], hand: float) -> Iterator[tuple[str, str]]:
    """Yield which washes over paper are darker than a stronger swatch."""
    over_paper = [one for one in swatches if not one[0].over_black]
    for (stronger, deep, unsure), (weaker, depth, also_unsure) in combinations(over_paper, 2):
        channel = int(np.argmax(deep))
        slack = SURE * float(np.hypot(unsure[channel], also_unsure[channel]))
        ratio = weaker.strength / stronger.strength
        slip = ratio * float(np.exp(SURE * hand * np.sqrt(2)))
        if ratio < 1 and depth[channel] > max(UNEVEN, slip) * max(deep[channel], 0.0) + slack:
            yield (
                weaker.where,
                f"has a wash of strength {weaker.strength:g} that is darker than the one of"
                f" strength {stronger.strength:g} ({stronger.where}); put the two the right way"
                " round.",
            )


def _lighter_over_black(swatches: Sequence[Deep], grounds: Grounds) -> Iterator[tuple[str, str]]:
    """Yield which swatches over black are lighter than the same paint is over paper.

    However thick, a film that darkens the paper is darker still over a ground that it lightens.
    """
    over_paper = [one for one in swatches if not one[0].over_black]
    black = reflectance_lab(with_surface(grounds.black), grounds.optics)
    line = np.log(_paper_ratio(grounds) / np.maximum(_ratio(black, grounds), DULL_BLACK))
    for swatch, depth, unsure in (one for one in swatches if one[0].over_black):
        for other, deep, also_unsure in over_paper:
            slack = BRIGHTER + SURE * np.hypot(unsure, also_unsure)
            darkens = deep > BRIGHTER + SURE * also_unsure
            lightens = depth < line - BRIGHTER - SURE * unsure
            if (darkens & lightens & (depth < deep - slack)).any():
                yield (
                    swatch.where,
                    f"is lighter over black than over paper ({other.where}), as only metallic and"
                    " pearly paints are, which cannot be fitted; put the two the right way round,"
                    " or leave the tube out.",
                )
                break


def _depth(swatch: PaintedSwatch, grounds: Grounds) -> tuple[FloatArray, FloatArray]:
    """Return how deep a swatch is in X, Y and Z, and how sure that is, shapes (3,)."""
    optics = grounds.optics
    lab = lab_of(swatch.colour, optics)
    ratio = np.maximum(_ratio(lab, grounds), LEAST_RATIO)
    # L*, a*, b* are multiples of f = ratio^(1/3) and of its differences.
    of_f = swatch.noise * np.hypot(1 / 116, [1 / 500, 0.0, 1 / 200])
    return np.log(_paper_ratio(grounds) / ratio), 3 * of_f / np.cbrt(ratio)


def _paper_ratio(grounds: Grounds) -> FloatArray:
    """Return X, Y and Z of the bare paper as shares of white, shape (3,)."""
    return _ratio(paper_lab(grounds.optics), grounds)


def _ratio(lab: FloatArray, grounds: Grounds) -> FloatArray:
    """Return X, Y and Z of a colour as shares of white, shape (3,)."""
    white = grounds.optics.white
    return np.asarray(lab_to_xyz(lab, white) / white)
