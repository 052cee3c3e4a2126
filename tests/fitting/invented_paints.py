"""Invented paints of other shapes than the demo's, painted as swatches by an unsteady hand.

Absorption is made of skewed edges (F. J. Richards, J. Exp. Bot. 10, 290, 1959, for the curve) and
of skewed sech peaks, scattering falls with wavelength: none of the demo's profiles is so made.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray
from fewtubes.colour.cielab import lab_to_xyz
from fewtubes.colour.display import WHITE_XYZ, XYZ_TO_RGB
from fewtubes.fitting.sheet import (
    PaintedSwatch,
    PaintedTube,
    ScreenColour,
    Seen,
    SeenLab,
    SwatchSheet,
)
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics, film_lab, reflectance_lab
from fewtubes.mixing.recipes import PARTS, STRENGTHS
from fewtubes.mixing.surface import with_surface

__all__ = [
    "BLACK",
    "InventedPaints",
    "loads_of_mixtures",
    "painted_sheet",
    "screen_colour",
]

BLACK = 0.01
"""Reflectance beneath its surface of the black line [0–1]."""

NM = WAVELENGTH_NM


@dataclass(frozen=True, eq=False)
class InventedPaints:
    """True K and S per unit load [1/load], shapes (paints, bands)."""

    K: FloatArray
    S: FloatArray

    @classmethod
    def drawn(cls, random: np.random.Generator, count: int) -> "InventedPaints":
        """Return paints round the colour circle, kind after kind."""
        K = np.array([KINDS[place % len(KINDS)](random) for place in range(count)])
        level = np.exp(random.uniform(np.log(0.006), np.log(0.25), (count, 1)))
        fall = random.uniform(0.3, 2.0, (count, 1))
        return cls(K, level * (NM / 550.0) ** -fall)

    def labs(self, loads: FloatArray, optics: Optics) -> FloatArray:
        """Return CIELAB of mixtures, shape (mixtures, 3), from loads (mixtures, paints)."""
        return film_lab(loads @ self.K, loads @ self.S, optics)


def _edge(random: np.random.Generator, centre: tuple[float, float], *, up: bool) -> FloatArray:
    """Return a skewed edge of height 1."""
    width, skew = random.uniform(9, 18), random.uniform(0.6, 1.8)
    along = (NM - random.uniform(*centre)) / width * (1 if up else -1)
    return np.asarray((1 + np.exp(-along)) ** -skew)


def _peak(random: np.random.Generator, centre: float) -> FloatArray:
    """Return a peak of height 1, steeper towards long wavelengths."""
    left, right = random.uniform(25, 42), random.uniform(16, 30)
    return np.asarray(1 / np.cosh((NM - centre) / np.where(centre > NM, left, right)))


def _floor(random: np.random.Generator) -> float:
    return float(random.uniform(0.004, 0.03))


def _yellow(random: np.random.Generator) -> FloatArray:
    return _floor(random) + random.uniform(0.9, 2.2) * _edge(random, (470, 510), up=False)


def _orange(random: np.random.Generator) -> FloatArray:
    return _floor(random) + random.uniform(0.8, 1.8) * _edge(random, (530, 575), up=False)


def _red(random: np.random.Generator) -> FloatArray:
    return _floor(random) + random.uniform(0.9, 2.0) * _edge(random, (580, 605), up=False)


def _pink(random: np.random.Generator) -> FloatArray:
    centre = random.uniform(520, 560)
    side = random.uniform(0.2, 0.7) * _peak(random, centre - 40)
    violet = random.uniform(0.1, 0.4) * _edge(random, (400, 420), up=False)
    return _floor(random) + random.uniform(0.8, 1.7) * _peak(random, centre) + side + violet


def _violet(random: np.random.Generator) -> FloatArray:
    centre = random.uniform(560, 590)
    side = random.uniform(0.2, 0.6) * _peak(random, centre + 40)
    return _floor(random) + random.uniform(1.0, 2.0) * _peak(random, centre) + side


def _blue(random: np.random.Generator) -> FloatArray:
    centre = random.uniform(600, 640)
    side = random.uniform(0.4, 1.2) * _peak(random, centre + 70)
    return _floor(random) + random.uniform(1.0, 2.2) * _peak(random, centre) + side


def _green(random: np.random.Generator) -> FloatArray:
    violet = random.uniform(0.6, 1.4) * _edge(random, (440, 500), up=False)
    return _floor(random) + violet + random.uniform(0.5, 1.2) * _edge(random, (590, 640), up=True)


KINDS = (_yellow, _orange, _red, _pink, _violet, _blue, _green)


def painted_sheet(
    paints: InventedPaints,
    random: np.random.Generator,
    optics: Optics,
    *,
    strengths: Sequence[float] = (1.0, 0.5, 0.25, 0.125),
    over_black: bool = False,
    noise: float = 1.5,
    hand: float = 0.12,
    as_hex: bool = False,
) -> SwatchSheet:
    """Return swatches as they would be seen.

    Parameters
    ----------
    paints
        The true ones.
    random
        For hand and eye.
    optics
        Paper and light.
    strengths
        As meant; the hand puts exp(normal · `hand`) as much there.
    over_black
        Whether a full stroke lies over black as well.
    noise
        Standard deviation of each of L*, a*, b*.
    hand
        Standard deviation of ln(true ÷ meant strength).
    as_hex
        Whether the colours are given as a screen shows them.
    """
    meant = [(strength, False) for strength in strengths] + [(1.0, True)] * over_black
    tubes = []
    for place, (K, S) in enumerate(zip(paints.K, paints.S, strict=True), start=1):
        swatches = []
        for strength, black in meant:
            load = strength * np.exp(random.normal(0, hand))
            ground = BLACK if black else optics.ground
            seen = with_surface(film_reflectance(load * K, load * S, ground))
            lab = reflectance_lab(seen, optics) + random.normal(0, noise, 3)
            colour = screen_colour(lab) if as_hex else _lab(lab)
            where = f"paint {place}, {strength:g}"
            swatches.append(PaintedSwatch(where, strength, black, colour, max(noise, 0.05)))
        tubes.append(PaintedTube(f"paint {place}", (), tuple(swatches)))
    paper = _lab(film_lab(np.zeros_like(optics.ground), np.zeros_like(optics.ground), optics))
    return SwatchSheet("invented.csv", paper, tuple(tubes))


def screen_colour(lab: FloatArray) -> ScreenColour:
    """Return a colour as a screen shows it, each channel held to its ends (IEC 61966-2-1)."""
    linear = np.clip(XYZ_TO_RGB @ lab_to_xyz(lab, WHITE_XYZ), 0, 1)
    encoded = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
    red, green, blue = np.rint(255 * encoded).astype(int).tolist()
    return ScreenColour((red, green, blue))


def _lab(lab: FloatArray) -> Seen:
    L, a, b = lab.tolist()
    return SeenLab((L, a, b))


def loads_of_mixtures(
    random: np.random.Generator, paints: int, *, count: int = 600, weakest: float = 0.0
) -> FloatArray:
    """Return loads of recipes of two and three paints, shape (count, paints).

    Parts and washes are those of the recipe space, no wash weaker than `weakest` [0–1].
    """
    washes = [strength for strength in STRENGTHS if strength >= weakest]
    loads = np.zeros((count, paints))
    for row in loads:
        number = int(random.integers(2, 4))
        parts = np.array(PARTS[number][random.integers(len(PARTS[number]))], dtype=float)
        held = random.choice(paints, number, replace=False)
        row[held] = random.choice(washes) * parts / parts.sum()
    return loads
