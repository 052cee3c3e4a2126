"""Painted swatches as they were seen: of each tube a few washes, and the bare paper beside them."""

from dataclasses import dataclass

from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.colour.bands import FloatArray

__all__ = [
    "LabelSays",
    "PaintedSwatch",
    "PaintedTube",
    "ScreenColour",
    "Seen",
    "SeenLab",
    "SeenReflectance",
    "SwatchSheet",
]


@dataclass(frozen=True)
class ScreenColour:
    """A colour as a screen shows it, sRGB (IEC 61966-2-1).

    A channel of 0 or 255 is a bound and not a value: no screen shows the cyan of a phthalocyanine.
    """

    channels: tuple[int, int, int]
    """Red, green, blue [0–255]."""


@dataclass(frozen=True)
class SeenLab:
    """A colour in CIELAB, relative to the white of the light it was seen under."""

    lab: tuple[float, float, float]
    """L*, a*, b*."""


@dataclass(frozen=True, eq=False)
class SeenReflectance:
    """A measured spectrum."""

    reflectance: FloatArray
    """As seen, surface included [0–1], shape (bands,)."""


Seen = ScreenColour | SeenLab | SeenReflectance


@dataclass(frozen=True, eq=False)
class PaintedSwatch:
    """One painted patch."""

    where: str
    """What a fault is told of, e.g. ``swatches.csv, row 5`` or ``card.jpg, row 2, half``."""
    strength: float
    """As it was meant: share of a full-strength stroke (0–1]."""
    over_black: bool
    """Whether it lies over a black line and not over the paper."""
    colour: Seen
    noise: float
    """How sure its colour is: standard deviation of each of L*, a* and b*, > 0."""


@dataclass(frozen=True)
class LabelSays:
    """What the painter copied from the maker's label; None where the label says nothing."""

    lightfastness: Lightfastness | None = None
    hazards: tuple[Hazard, ...] | None = None
    hazard_note: str = ""


@dataclass(frozen=True, eq=False)
class PaintedTube:
    """The swatches of one tube."""

    name: str
    """As it stands on the tube, or as the painter calls it."""
    codes: tuple[str, ...]
    """Colour Index generic names of its pigments, as on the label; empty where not known."""
    swatches: tuple[PaintedSwatch, ...]
    """Strongest first, those over paper before those over black."""
    label: LabelSays = LabelSays()


@dataclass(frozen=True, eq=False)
class SwatchSheet:
    """All swatches that were painted on one paper and seen in one light."""

    label: str
    """The file it was read from, as the user named it."""
    paper: Seen | None
    """The bare paper; None where colours were evened out by it, so that only its kind is known."""
    tubes: tuple[PaintedTube, ...]
    """In the order of the sheet."""
    black: Seen | None = None
    """The bare black line; None where it was not looked at."""
