"""The colours of one tube's swatches as a function of what is not known of it, with all slopes.

Unknown are the curve of ln K, the level and fall of ln S, and how much paint truly lies in each
swatch: the hand strays from the strength that was meant. All are counted in standard deviations
from what is expected, so that a prior is one more residual each.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.cielab import xyz_to_lab
from fewtubes.colour.display import RGB_TO_XYZ, WHITE_XYZ, XYZ_TO_RGB
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.prior import Expected, curves, log_fall
from fewtubes.fitting.seen import lab_of
from fewtubes.fitting.sheet import PaintedSwatch, ScreenColour, SeenReflectance
from fewtubes.fitting.slopes import film_slopes, lab_slopes, surface_slope
from fewtubes.masks import BoolArray
from fewtubes.mixing.surface import with_surface

__all__ = ["LOG_RANGE", "Paint", "SwatchModel"]

REFLECTANCE_NOISE = 0.01
"""Standard deviation of a measured reflectance for each unit of that of L*, nearly its slope in the
middle greys."""

LOG_RANGE = 6.9
"""ln K and ln S are held to ± this, beyond any paint: no step overflows, and a catalogue takes
whatever comes of it (`fewtubes.catalogue.limits.COEFFICIENT`): how deep a black is nobody sees."""


@dataclass(frozen=True, eq=False)
class Paint:
    """Absorption and scattering per unit load [1/load], shapes (…, bands)."""

    K: FloatArray
    S: FloatArray


@dataclass(frozen=True, eq=False)
class SwatchModel:
    """The swatches of one tube, if it is of an expected kind.

    The unknowns, in standard deviations: first the curve of ln K, then level and fall of ln S,
    then ln(true ÷ meant strength) of each swatch; shape (unknowns,).
    """

    swatches: tuple[PaintedSwatch, ...]
    expected: Expected
    grounds: Grounds
    hand: float
    """Standard deviation of ln(true ÷ meant strength), > 0."""

    @property
    def size(self) -> int:
        """Number of unknowns."""
        return int(curves().shape[1]) + 2 + len(self.swatches)

    def paint(self, unknowns: FloatArray) -> Paint:
        """Return the paint of the unknowns, shape (…, unknowns)."""
        bends = curves()
        level, fall = unknowns[..., bends.shape[1]], unknowns[..., bends.shape[1] + 1]
        prior = self.expected.scattering
        log_K = self.expected.log_absorption + unknowns[..., : bends.shape[1]] @ bends.T
        log_S = (prior.level + prior.level_deviation * level)[..., None] - (
            prior.fall + prior.fall_deviation * fall
        )[..., None] * log_fall()
        return Paint(*(np.exp(np.clip(log, -LOG_RANGE, LOG_RANGE)) for log in (log_K, log_S)))

    def strengths(self, unknowns: FloatArray) -> FloatArray:
        """Return the true strength of each swatch, shape (…, swatches)."""
        strays = unknowns[..., self.size - len(self.swatches) :]
        return np.asarray(self._meant * np.exp(self.hand * strays))

    def residuals(self, unknowns: FloatArray) -> FloatArray:
        """Return what is off, in standard deviations: the colours, then the unknowns themselves."""
        paint, strengths = self.paint(unknowns), self.strengths(unknowns)
        inner, _, _ = self._films(paint, strengths)
        seen = self.grounds.shown(with_surface(inner))
        return np.concatenate([self._colours_off(seen), self._spectra_off(seen), unknowns])

    def jacobian(self, unknowns: FloatArray) -> FloatArray:
        """Return the slopes of the residuals, shape (residuals, unknowns)."""
        paint, strengths = self.paint(unknowns), self.strengths(unknowns)
        inner, along_K, along_S = self._films(paint, strengths)
        surface = surface_slope(inner) * self.grounds.contrast
        # By ln K and ln S of each swatch's film, shapes (swatches, bands).
        by_K = surface * along_K * strengths[:, None] * paint.K
        by_S = surface * along_S * strengths[:, None] * paint.S
        by_seen = self._by_seen(self.grounds.shown(with_surface(inner)))
        return np.vstack([*self._chained(by_seen, by_K, by_S), np.eye(self.size)])

    def _chained(
        self, by_seen: Sequence[FloatArray], by_K: FloatArray, by_S: FloatArray
    ) -> list[FloatArray]:
        """Return the slopes of each swatch's residuals along the unknowns."""
        bends, prior = curves(), self.expected.scattering
        fall = -prior.fall_deviation * log_fall()
        rows = []
        for order, slopes in zip(self._order, by_seen, strict=True):
            block = np.zeros((len(slopes), self.size))
            block[:, : bends.shape[1]] = (slopes * by_K[order]) @ bends
            through_S = slopes * by_S[order]
            block[:, bends.shape[1]] = prior.level_deviation * through_S.sum(axis=1)
            block[:, bends.shape[1] + 1] = through_S @ fall
            own = self.size - len(self.swatches) + order
            block[:, own] = self.hand * (slopes * (by_K[order] + by_S[order])).sum(axis=1)
            rows.append(block)
        return rows

    def _films(
        self, paint: Paint, strengths: FloatArray
    ) -> tuple[FloatArray, FloatArray, FloatArray]:
        loads = strengths[:, None]
        return film_slopes(loads * paint.K, loads * paint.S, self._under)

    def _colours_off(self, seen: FloatArray) -> FloatArray:
        """Return L*, a*, b* off of the swatches seen as colours, flat."""
        xyz, _ = self._shown(seen[self._coloured])
        off = xyz_to_lab(xyz, self.grounds.optics.white) - self._lab
        return np.asarray((off / self._noise[self._coloured, None]).ravel())

    def _spectra_off(self, seen: FloatArray) -> FloatArray:
        """Return the reflectance off of the swatches that were measured, flat."""
        off = seen[self._measured] - self._reflectance
        return np.asarray((off / self._reflectance_noise[:, None]).ravel())

    def _by_seen(self, seen: FloatArray) -> list[FloatArray]:
        """Return slopes of each swatch's residuals by its reflectance, in `_order`."""
        optics = self.grounds.optics
        xyz, kept = self._shown(seen[self._coloured])
        by_xyz = lab_slopes(xyz, optics.white) @ kept
        colours = by_xyz @ optics.weights.T / self._noise[self._coloured, None, None]
        spectra = np.eye(BAND_COUNT) / self._reflectance_noise[:, None, None]
        return [*colours, *spectra]

    def _shown(self, seen: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return XYZ as it would be shown, and its slopes by XYZ, shapes (n, 3) and (n, 3, 3).

        A channel that the screen showed at its end holds back what goes beyond.
        """
        optics = self.grounds.optics
        xyz = seen @ optics.weights
        to_rgb = XYZ_TO_RGB * (WHITE_XYZ / optics.white)
        to_xyz = RGB_TO_XYZ * (optics.white / WHITE_XYZ)[:, None]
        low, high = self._ends
        rgb = xyz @ to_rgb.T
        beyond = ((rgb < 0) & low) | ((rgb > 1) & high)
        if not beyond.any():
            return xyz, np.broadcast_to(np.eye(3), (len(xyz), 3, 3))
        kept = to_xyz @ (~beyond[..., None] * to_rgb)
        return np.where(beyond, np.clip(rgb, 0, 1), rgb) @ to_xyz.T, kept

    @cached_property
    def _under(self) -> FloatArray:
        return self.grounds.under(self.swatches)

    @cached_property
    def _meant(self) -> FloatArray:
        return np.array([swatch.strength for swatch in self.swatches])

    @cached_property
    def _noise(self) -> FloatArray:
        return np.array([swatch.noise for swatch in self.swatches])

    @cached_property
    def _coloured(self) -> list[int]:
        """Places of the swatches seen as colours."""
        return [place for place in range(len(self.swatches)) if place not in self._measured]

    @cached_property
    def _measured(self) -> list[int]:
        """Places of the swatches with a spectrum."""
        return [
            place
            for place, swatch in enumerate(self.swatches)
            if isinstance(swatch.colour, SeenReflectance)
        ]

    @cached_property
    def _order(self) -> list[int]:
        return [*self._coloured, *self._measured]

    @cached_property
    def _lab(self) -> FloatArray:
        """CIELAB of the swatches seen as colours, shape (n, 3)."""
        optics = self.grounds.optics
        found = [lab_of(self.swatches[place].colour, optics) for place in self._coloured]
        return np.array(found).reshape(-1, 3)

    @cached_property
    def _ends(self) -> tuple[BoolArray, BoolArray]:
        """Whether each channel was shown at its lower and its upper end, shapes (n, 3)."""
        channels = np.array(
            [
                colour.channels if isinstance(colour, ScreenColour) else (128, 128, 128)
                for colour in (self.swatches[place].colour for place in self._coloured)
            ]
        ).reshape(-1, 3)
        return channels == 0, channels == 255

    @cached_property
    def _reflectance(self) -> FloatArray:
        """Reflectance of the measured swatches, shape (m, bands)."""
        spectra = [self.swatches[place].colour for place in self._measured]
        values = [colour.reflectance for colour in spectra if isinstance(colour, SeenReflectance)]
        return np.array(values).reshape(-1, BAND_COUNT)

    @cached_property
    def _reflectance_noise(self) -> FloatArray:
        return REFLECTANCE_NOISE * self._noise[self._measured]
