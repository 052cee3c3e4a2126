"""The sheet that pictures and page lie on: the scenario's paper, and inks legible on it."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import lab_to_hex, lab_to_srgb, srgb_to_hex
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.picture.contrast import LEAST_FOR_TEXT, text_contrast

__all__ = ["BEYOND", "INK", "MISSED", "SOFT_INK", "Sheet", "Shown", "screen_colour"]

INK = "#2b2622"
"""A warm near-black for text."""

SOFT_INK = "#5c5248"
"""A lighter ink for what stands beside; still text in the sense of WCAG."""

FALLBACK_GROUND = "#f6f3ec"
"""Ground where the paper is too dark for the inks; a white cotton paper, roughly."""

BEYOND = "†"
"""Marks a colour that the screen cannot show."""

LEAST_TO_BE_SEEN = 1.15
"""Contrast below which paint and paper look alike; our own choice."""

MOST_REMEMBERED = 4096
"""Colours whose looks are kept; a report has some hundreds."""

MISSED = "×"
"""Marks a colour that stays out of reach."""


@dataclass(frozen=True)
class Shown:
    """A colour as the screen shows it."""

    hex: str
    inside: bool
    """Whether that is the colour itself; if not it is the nearest of the same lightness and hue."""

    @property
    def mark(self) -> str:
        """The sign of a colour the screen cannot show, or nothing."""
        return "" if self.inside else BEYOND


@dataclass(frozen=True)
class Sheet:
    """The ground of pictures and page with the inks used on it."""

    paper: str
    """The bare paper's colour."""
    ground: str
    """The paper's colour, or a light one if text could not be read on the paper."""
    ink: str = INK
    soft_ink: str = SOFT_INK

    def outlined(self, rim: str, fill: str) -> str:
        """Return the colour of a dab's rim: an ink where fill and ground look alike."""
        return self.soft_ink if text_contrast(fill, self.ground) < LEAST_TO_BE_SEEN else rim

    @classmethod
    def of(cls, optics: Optics) -> "Sheet":
        """Return the sheet of a paper under a light."""
        none = np.zeros((1, len(optics.ground)))
        paper = lab_to_hex(mixture_lab(np.zeros(1), none, none, optics))
        legible = text_contrast(SOFT_INK, paper) >= LEAST_FOR_TEXT
        return cls(paper=paper, ground=paper if legible else FALLBACK_GROUND)


def screen_colour(lab: FloatArray | tuple[float, float, float]) -> Shown:
    """Return how the screen shows one CIELAB colour, shape (3,); see `fewtubes.colour.display`."""
    L, a, b = (float(value) for value in lab)
    return _shown(L, a, b)


@lru_cache(maxsize=MOST_REMEMBERED)
def _shown(L: float, a: float, b: float) -> Shown:
    """Return the same; pictures ask for each of their colours many times."""
    srgb, inside = lab_to_srgb(np.array([L, a, b]))
    return Shown(srgb_to_hex(srgb), bool(inside))
