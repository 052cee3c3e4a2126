"""What swatches lie on, the paper and a black line, and how dark a picture shows a dark paint."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_xyz
from fewtubes.fitting.sheet import PaintedSwatch
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.surface import OUTER_REFLECTION

__all__ = ["Grounds", "luminance"]


def luminance(lightness: float) -> float:
    """Return Y ÷ Y of white [0–1] at a lightness L* [0–100]."""
    return float(lab_to_xyz(np.array([lightness, 0.0, 0.0]), np.ones(3))[1])


@dataclass(frozen=True, eq=False)
class Grounds:
    """What the swatches lie on."""

    optics: Optics
    """The paper and the light."""
    black: FloatArray
    """Reflectance of the black line beneath its surface [0–1], shape (bands,)."""
    darkest: float = OUTER_REFLECTION
    """How bright the picture shows a surface that reflects by its surface alone [0–1].

    Below `OUTER_REFLECTION` for most phones, which make pictures more contrasty than what they
    show, and for instruments that leave the shine out.
    """

    def under(self, swatches: Sequence[PaintedSwatch]) -> FloatArray:
        """Return the reflectance of the ground of each swatch, shape (swatches, bands)."""
        over_black = np.array([swatch.over_black for swatch in swatches])
        return np.where(over_black[:, None], self.black, self.optics.ground)

    @cached_property
    def contrast(self) -> float:
        """How much further apart the picture shows two reflectances, 1 or more."""
        return (self._paper - self.darkest) / (self._paper - OUTER_REFLECTION)

    def shown(self, outer: FloatArray) -> FloatArray:
        """Return reflectances as the picture shows them: as they are, but for its contrast.

        Notes
        -----
        A straight line that leaves the paper's luminance where it is and takes that of a black
        surface, `OUTER_REFLECTION`, to `darkest`; our own choice.
        """
        return np.asarray(self._paper + self.contrast * (outer - self._paper))

    @cached_property
    def _paper(self) -> float:
        """Luminance of the bare paper, white's being 1."""
        return luminance(float(paper_lab(self.optics)[0]))
