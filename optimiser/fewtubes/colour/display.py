"""Colours for the screen: sRGB to CIELAB and back, with the gamut's edge respected.

Source: IEC 61966-2-1:1999, sections 5.2 and 5.3, and its amendment 1 for the linear part. CIELAB
is relative to the white of the light it was seen under; that white is shown as the screen's white.
"""

import re

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_xyz, xyz_to_lab

__all__ = [
    "HEX",
    "RGB_TO_XYZ",
    "WHITE_XYZ",
    "XYZ_TO_RGB",
    "hex_to_lab",
    "lab_to_hex",
    "lab_to_linear",
    "lab_to_srgb",
    "linear_to_lab",
    "linear_to_srgb",
    "srgb_to_hex",
    "srgb_to_linear",
]

RGB_TO_XYZ: FloatArray = np.array(
    [
        [0.4124, 0.3576, 0.1805],
        [0.2126, 0.7152, 0.0722],
        [0.0193, 0.1192, 0.9505],
    ]
)
"""Linear sRGB to tristimulus values, Y of white = 1; shape (XYZ, RGB)."""
RGB_TO_XYZ.setflags(write=False)

XYZ_TO_RGB: FloatArray = np.asarray(np.linalg.inv(RGB_TO_XYZ), dtype=np.float64)
XYZ_TO_RGB.setflags(write=False)

WHITE_XYZ: FloatArray = RGB_TO_XYZ.sum(axis=1)
"""D65, Y = 1, as the matrix rounds it, so that equal channels are neutral."""
WHITE_XYZ.setflags(write=False)

HEX = re.compile(r"#[0-9a-fA-F]{6}", re.ASCII)

GAMUT_SLACK = 1e-6
"""How far outside 0–1 a linear channel may lie and still count as inside: rounding, no more."""

HALVINGS = 24
"""Bisection steps; 2⁻²⁴ of any chroma is far below what a screen can show."""


def hex_to_lab(colour: str) -> FloatArray:
    """Return CIELAB (D65), shape (3,), of an sRGB colour written as ``#rrggbb``.

    Raises
    ------
    ValueError
        If the text is not a number sign and six hexadecimal digits.
    """
    if not HEX.fullmatch(colour):
        raise ValueError(f"a colour is written as #rrggbb, such as #c21e56 (got {colour!r})")
    channels = np.array([int(colour[place : place + 2], 16) for place in (1, 3, 5)]) / 255
    return linear_to_lab(srgb_to_linear(channels))


def lab_to_srgb(lab: FloatArray) -> tuple[FloatArray, npt.NDArray[np.bool_]]:
    """Return sRGB [0–1], shape (…, 3), and whether the screen can show it, shape (…).

    Notes
    -----
    A colour outside the gamut keeps lightness and hue angle and gives up chroma: the largest share
    of its chroma that still fits is found by bisection. Lightness is held to 0–100.
    """
    inside = _fits(lab_to_linear(lab))
    share = np.ones(inside.shape) if inside.all() else np.where(inside, 1.0, _largest_share(lab))
    shrunk = _with_chroma_share(lab, share)
    return linear_to_srgb(np.clip(lab_to_linear(shrunk), 0.0, 1.0)), inside


def lab_to_hex(lab: FloatArray) -> str:
    """Return the nearest shown colour of one CIELAB value, shape (3,), as ``#rrggbb``."""
    srgb, _ = lab_to_srgb(np.asarray(lab, dtype=float))
    return srgb_to_hex(srgb)


def srgb_to_hex(srgb: FloatArray) -> str:
    """Return sRGB [0–1], shape (3,), as ``#rrggbb``."""
    return "#" + "".join(f"{channel:02x}" for channel in np.rint(srgb * 255).astype(int))


def _largest_share(lab: FloatArray) -> FloatArray:
    """Return the largest share of the chroma that fits into the gamut, shape (…)."""
    fits, misses = np.zeros(lab.shape[:-1]), np.ones(lab.shape[:-1])
    for _ in range(HALVINGS):
        middle = (fits + misses) / 2
        inside = _fits(lab_to_linear(_with_chroma_share(lab, middle)))
        fits = np.where(inside, middle, fits)
        misses = np.where(inside, misses, middle)
    return fits


def _with_chroma_share(lab: FloatArray, share: FloatArray) -> FloatArray:
    """Return the colours with their chroma scaled and L* held to 0–100, shape (…, 3)."""
    lightness = np.clip(lab[..., 0], 0.0, 100.0)
    return np.stack([lightness, share * lab[..., 1], share * lab[..., 2]], axis=-1)


def lab_to_linear(lab: FloatArray) -> FloatArray:
    """Return linear sRGB, unclipped, shape (…, 3)."""
    return np.asarray(lab_to_xyz(lab, WHITE_XYZ) @ XYZ_TO_RGB.T)


def linear_to_lab(linear: FloatArray) -> FloatArray:
    """Return CIELAB (D65) of linear sRGB, which may lie outside 0–1; shapes (…, 3)."""
    return xyz_to_lab(linear @ RGB_TO_XYZ.T, WHITE_XYZ)


def _fits(linear: FloatArray) -> npt.NDArray[np.bool_]:
    """Return whether linear sRGB lies inside the gamut, shape (…)."""
    slack = GAMUT_SLACK
    return np.asarray(((linear >= -slack) & (linear <= 1 + slack)).all(axis=-1))


def srgb_to_linear(channels: FloatArray) -> FloatArray:
    """Return linear values of encoded channels, both [0–1]."""
    return np.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)


def linear_to_srgb(linear: FloatArray) -> FloatArray:
    """Return encoded channels of linear values, both [0–1]."""
    return np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
