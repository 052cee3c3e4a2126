"""Shadows that are no smooth course of light: told by the bare paper right beside a box.

What bare paper is off the smooth light has one of two causes. A shadow dims all channels much
alike, and the box beside it as well; paint on the paper takes light from some channels more than
from others, and the box has none of it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fewtubes.card.evening import LightField
from fewtubes.card.layout import Box, Rectangle
from fewtubes.colour.bands import FloatArray

__all__ = ["EDGE", "Beside", "CardLight"]

NEUTRAL = (0.03, 0.25)
"""How far the channels of a shadow may differ: in the logarithm of light, and as a share of how
deep it is; skylight makes a shadow bluish."""

AGREEING = 0.05
"""Logarithm of light by which bare paper on both sides of a box may differ: light falls off."""

EDGE = 0.04
"""Doubt in the logarithm of light from which on a shadow's edge is spoken of; 1.5 in L*."""


@dataclass(frozen=True, eq=False)
class Beside:
    """What the bare paper beside a box says of its light."""

    factor: FloatArray
    """By which the light there differs from the smooth course, shape (3,)."""
    doubt: float
    """Standard deviation of the logarithm of light."""


@dataclass(frozen=True, eq=False)
class CardLight:
    """The light over a card."""

    field: LightField
    """Its smooth course."""
    off: Mapping[Rectangle, FloatArray]
    """The logarithm of light of each bare paper beyond that, shape (3,)."""

    @property
    def painted(self) -> float:
        """Share of the bare paper that is not bare, as its colour tells [0–1]."""
        return 1 - float(np.mean([_is_neutral(off) for off in self.off.values()]))

    def beside(self, box: Box) -> Beside:
        """Return what the bare paper beside a box says; nothing where there is none.

        Where both sides differ, the one nearer to the smooth course is believed, with doubt.
        """
        told = [self.off[place] for place in box.white if place in self.off]
        shades = [off for off in told if _is_neutral(off)]
        if not shades:
            return Beside(np.ones(3), 0.0)
        depths = [float(off.mean()) for off in shades]
        apart = max(depths) - min(depths)
        if apart <= AGREEING:
            return Beside(np.exp(np.mean(shades, axis=0)), 0.0)
        nearest = shades[int(np.argmin(np.abs(depths)))]
        return Beside(np.exp(nearest), (apart - AGREEING) / 2)


def _is_neutral(off: FloatArray) -> bool:
    """Return whether bare paper differs from the smooth light as a shadow does."""
    allowed, share = NEUTRAL
    return bool(np.ptp(off) <= allowed + share * abs(off.mean()))
