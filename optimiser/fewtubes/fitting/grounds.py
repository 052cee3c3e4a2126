"""What swatches lie on: the paper, and a black line."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.fitting.sheet import PaintedSwatch
from fewtubes.mixing.mixture import Optics

__all__ = ["Grounds"]


@dataclass(frozen=True, eq=False)
class Grounds:
    """What the swatches lie on."""

    optics: Optics
    """The paper and the light."""
    black: FloatArray
    """Reflectance of the black line beneath its surface [0–1], shape (bands,)."""

    def under(self, swatches: Sequence[PaintedSwatch]) -> FloatArray:
        """Return the reflectance of the ground of each swatch, shape (swatches, bands)."""
        over_black = np.array([swatch.over_black for swatch in swatches])
        return np.where(over_black[:, None], self.black, self.optics.ground)
