"""A card is found in its photograph by its four corner marks, which OpenCV looks for.

Nothing else here needs that library; it is imported where used.
"""

from collections.abc import Mapping

import numpy as np

from fewtubes.card.homography import homography, projected
from fewtubes.card.layout import CardLayout, Sheet
from fewtubes.card.marks import CORNERS, sheet_of_code
from fewtubes.card.sharpness import edge_width
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.picture_file import Pixels
from fewtubes.errors import Fault, InputError

__all__ = ["found_sheet"]

DARK = 70
"""sRGB that the brightest parts of a photograph reach at least [0–255]; 6 % of white's light."""

BRIGHTEST = 0.98
"""Share of pixels below what counts as the brightest parts."""

PURE_WHITE = 254
"""Level of sRGB; bare paper that reaches it may be brighter than can be told."""

MOST_PURE_WHITE = 0.3
"""Share of such pixels; a white table beside the card may be one."""

SMALLEST_PICTURE = 600
"""Longer side of a photograph of a card in which every box has enough pixels."""

BLURRED = 4.0
"""Width of the steepest edges from which marks that are not found are laid to blur, in pixels of a
photograph reduced to `fewtubes.card.sharpness.SIDE`; sharp ones have 1 to 2."""

FARTHEST = 2.5
"""By which a corner of a mark may be off where a flat sheet would have it [mm]; marks taped on by
hand are off by one."""

SETTINGS = {
    "cornerRefinementWinSize": 3,
    "adaptiveThreshWinSizeMin": 5,
    "adaptiveThreshWinSizeMax": 65,
    "adaptiveThreshWinSizeStep": 20,
    "perspectiveRemovePixelPerCell": 10,
    "perspectiveRemoveIgnoredMarginPerCell": 0.35,
}
"""Of OpenCV's finder, where it does better than by default: only the middle of a field counts.

Tried on 120 drawn cards of four sizes, five exposures, three blurs and two tilts: all were found up
to a blur of 0.5 mm (standard deviation), where by default 39 of 40 are not; of 0.7 mm, 8 of 40.
"""


def found_sheet(pixels: Pixels, layout: CardLayout, where: str) -> tuple[Sheet, FloatArray]:
    """Return the sheet that is seen, and the matrix that takes its millimetres to pixels.

    Raises
    ------
    InputError
        If OpenCV is not installed, or the four marks of one sheet are not all found.
    """
    try:
        import cv2  # noqa: F401  asked for here, so that one sentence tells of it
    except ImportError:  # not there, or without a library of the system that it needs
        raise _fault(
            where,
            "finding the corner marks needs OpenCV; install it with: pip install 'fewtubes[photo]',"
            ' or name the boxes as rectangles in pixels in a layout with unit = "pixels".',
        ) from None
    codes, corners_of = _seen_marks(pixels)
    known = {mark.code for sheet in layout.sheets for mark in sheet.marks}
    if any(codes.count(code) > 1 for code in known):
        raise _fault(where, "shows a corner mark twice; photograph one sheet by itself.")
    seen = dict(zip(codes, corners_of, strict=True))
    sheet = _sheet_seen(pixels, seen, layout, where)
    points = np.array([mark.rectangle.corners for mark in sheet.marks]).reshape(-1, 2)
    corners = np.concatenate([seen[mark.code] for mark in sheet.marks])
    matrix = homography(points, corners)
    off = np.linalg.norm(projected(homography(corners, points), corners) - points, axis=1)
    if not off.max() <= FARTHEST:  # nor where nothing comes of it
        raise _fault(
            where,
            f"the corner marks do not lie as on this card (off by {off.max():.0f} mm); lay the"
            " sheet flat, and take the layout file that was written with this card.",
        )
    return sheet, matrix


def _seen_marks(pixels: Pixels) -> tuple[list[int], list[FloatArray]]:
    """Return the codes of all marks, and the corners of each, clockwise from its own top left.

    A place is counted from the corner of the picture, not from the middle of its first pixel.
    """
    import cv2

    finder = cv2.aruco.ArucoDetector(
        cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_100), _settings()
    )
    corners, codes, _ = finder.detectMarkers(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY))
    if codes is None:
        return [], []
    places = [np.asarray(four, dtype=np.float64).reshape(4, 2) + 0.5 for four in corners]
    return [int(code) for code in np.ravel(codes)], places


def _settings() -> "cv2.aruco.DetectorParameters":  # type: ignore[name-defined]  # noqa: F821
    """Return how marks are looked for."""
    import cv2

    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    for name, value in SETTINGS.items():
        setattr(settings, name, value)
    return settings


def _sheet_seen(
    pixels: Pixels, seen: Mapping[int, FloatArray], layout: CardLayout, where: str
) -> Sheet:
    """Return the one sheet of the layout of which all marks are seen."""
    whole = [sheet for sheet in layout.sheets if all(mark.code in seen for mark in sheet.marks)]
    if len(whole) == 1:
        return whole[0]
    if whole:
        raise _fault(where, "shows several sheets at a time; photograph each by itself.")
    nearest = max(layout.sheets, key=lambda sheet: sum(mark.code in seen for mark in sheet.marks))
    missing = [
        corner for corner, mark in zip(CORNERS, nearest.marks, strict=True) if mark.code not in seen
    ]
    if len(missing) < len(CORNERS):
        raise _fault(where, _cause(pixels) or _some_missing(nearest, missing))
    known = {mark.code for sheet in layout.sheets for mark in sheet.marks}
    groups = {sheet_of_code(code) for code in set(seen) - known}
    if groups:
        raise _fault(
            where,
            "shows a sheet that is not in this layout; take the layout file that was written with"
            " this card.",
        )
    raise _fault(
        where,
        _cause(pixels)
        or "the corner marks were not found; photograph the whole sheet, not mirrored, with all"
        " four marks in view, or name the boxes as rectangles in a layout with unit"
        ' = "pixels".',
    )


def _some_missing(sheet: Sheet, missing: list[str]) -> str:
    one = len(missing) == 1
    return (
        f"the corner {'mark' if one else 'marks'} {', '.join(missing)} of sheet {sheet.number}"
        f" {'was' if one else 'were'} not found; photograph the whole sheet, sharp, with nothing"
        " over the marks."
    )


def _cause(pixels: Pixels) -> str:
    """Return why marks are not found, as far as the photograph tells; "" if it does not."""
    if np.quantile(pixels.max(axis=2), BRIGHTEST) < DARK:
        return "is too dark to find the corner marks; photograph the card in brighter light."
    if (pixels >= PURE_WHITE).all(axis=2).mean() > MOST_PURE_WHITE:
        return (
            "is over-exposed, so that the corner marks are not all found; photograph the card with"
            " a shorter exposure."
        )
    if max(pixels.shape) < SMALLEST_PICTURE:
        rows, columns = pixels.shape[:2]
        return (
            f"has only {columns} × {rows} pixels, too few to find the corner marks; take a picture"
            f" of at least {SMALLEST_PICTURE} the longer way."
        )
    if edge_width(pixels) > BLURRED:
        return (
            "is blurred, so that the corner marks are not all found; hold the camera still, let it"
            " focus on the card, and try again."
        )
    return ""


def _fault(where: str, what: str) -> InputError:
    return InputError([Fault(where, what)])
