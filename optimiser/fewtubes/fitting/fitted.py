"""What a fit finds: paints that look like the swatches, how well they do, and how sure they are."""

from dataclasses import dataclass

from fewtubes.catalogue.records import LikelySpectra
from fewtubes.colour.bands import FloatArray
from fewtubes.fitting.sheet import PaintedSwatch, PaintedTube

__all__ = ["Advice", "FittedSwatch", "FittedTube", "MixSpread"]


@dataclass(frozen=True, eq=False)
class FittedSwatch:
    """One swatch beside what the fitted paint gives."""

    painted: PaintedSwatch
    strength: float
    """As found: share of a full-strength stroke."""
    lab: tuple[float, float, float]
    """CIELAB of the fitted paint at that strength."""
    difference: float
    """Between what was seen and that [ΔE00]."""
    left_out: float | None
    """How far it is predicted by a fit to the others alone [ΔE00]; None where too few are left."""


@dataclass(frozen=True)
class MixSpread:
    """How far mixtures with this tube may be from what is computed [ΔE00]."""

    middle: float
    """Half of the mixtures with spectra that fit as well are nearer than this."""
    most: float
    """Nine in ten are nearer than this."""


@dataclass(frozen=True)
class Advice:
    """The one further swatch that would make the tube's mixtures surest."""

    strength: float
    over_black: bool
    spread: MixSpread
    """As it would be with that swatch."""


@dataclass(frozen=True, eq=False)
class FittedTube:
    """One fitted paint."""

    painted: PaintedTube
    """As it was painted."""
    K: FloatArray
    """Absorption per unit load [1/load], shape (bands,)."""
    S: FloatArray
    """Scattering per unit load [1/load], shape (bands,)."""
    likely: LikelySpectra
    """Paints that fit as well."""
    swatches: tuple[FittedSwatch, ...]
    """Each beside what the fit gives."""
    spread: MixSpread
    """How sure its mixtures are."""
    advice: Advice | None
    """None where no further swatch would help."""
    notes: tuple[str, ...]
    """What the painter should know about this fit, a sentence each."""

    @property
    def mean_off(self) -> float:
        """Mean difference between swatches and fitted paint [ΔE00]."""
        return sum(swatch.difference for swatch in self.swatches) / len(self.swatches)

    @property
    def mean_left_out(self) -> float | None:
        """Mean difference of swatches from what the others say of them [ΔE00], if they can."""
        found = [swatch.left_out for swatch in self.swatches if swatch.left_out is not None]
        return sum(found) / len(found) if found else None
