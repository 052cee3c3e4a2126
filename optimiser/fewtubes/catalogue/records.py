"""The things a catalogue holds, as values that do not change.

Arrays are read-only; `bands` is the axis of `fewtubes.colour.bands.WAVELENGTH_NM`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum, StrEnum

from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.sellers import Seller, TubeSet
from fewtubes.colour.bands import FloatArray

__all__ = [
    "CODE_JOINT",
    "LASTS",
    "Catalogue",
    "Flower",
    "Hazard",
    "Light",
    "Lightfastness",
    "LikelySpectra",
    "Offer",
    "Paper",
    "Pigment",
    "Role",
    "Swatch",
    "Trait",
    "Tube",
]


CODE_JOINT = " + "
"""Between the Colour Index names of a pigment that was fitted from a tube of several."""


class Lightfastness(IntEnum):
    """ASTM D4303 category; a larger number fades more."""

    I = 1  # noqa: E741
    II = 2
    III = 3
    IV = 4
    V = 5

    @property
    def fades(self) -> bool:
        """Whether a paint of this category is taken to fade: whether it is worse than `LASTS`."""
        return self > LASTS


LASTS = Lightfastness.II
"""Category up to which a paint is taken to last; ASTM D4302 asks for I or II, from memory."""


class Trait(StrEnum):
    """How strongly a pigment shows a trait such as staining or granulating."""

    NO = "no"
    SLIGHT = "slight"
    YES = "yes"


class Hazard(StrEnum):
    """What a pigment holds that calls for care; the maker's label and safety data sheet decide."""

    CADMIUM = "cadmium"
    CHROMIUM = "chromium"
    COBALT = "cobalt"
    COPPER = "copper"
    LEAD = "lead"
    MANGANESE = "manganese"
    NICKEL = "nickel"
    ZINC = "zinc"
    OTHER = "other"
    """What the note beside it says."""


class Role(StrEnum):
    """The part of a plant that a swatch is taken from."""

    PETAL_LIGHT = "petal light"
    PETAL = "petal"
    PETAL_SHADE = "petal shade"
    THROAT = "throat"
    CENTRE = "centre"
    MARKING = "marking"
    BUD = "bud"
    LEAF = "leaf"
    LEAF_SHADE = "leaf shade"
    STEM = "stem"


@dataclass(frozen=True, eq=False)
class LikelySpectra:
    """Spectra of one paint of which each is as likely as another; per unit load [1/load]."""

    K: FloatArray
    """Absorption, shape (draws, bands)."""
    S: FloatArray
    """Scattering that goes with it, shape (draws, bands)."""


@dataclass(frozen=True, eq=False)
class Pigment:
    """A colorant; K and S are per unit load [1/load], shape (bands,)."""

    id: str
    code: str
    """Colour Index generic name, e.g. PB29; ``PR122 + PB29`` if several; blank: not known."""
    name: str
    chemical_class: str
    lightfastness: Lightfastness
    blue_wool: int | None
    """Blue wool reference 1–8, or None where not known."""
    staining: Trait | None
    """None where not known."""
    granulating: Trait | None
    """None where not known."""
    hazards: tuple[Hazard, ...]
    """What it holds that calls for care, in the order of `Hazard`."""
    hazard_note: str
    """What care it calls for; blank only without a hazard."""
    K: FloatArray
    S: FloatArray
    likely: LikelySpectra | None = None
    """Paints that fit its swatches as well; None for one that was not fitted from swatches."""

    @property
    def fitted(self) -> bool:
        """Whether K and S were fitted from painted swatches."""
        return self.likely is not None

    @property
    def codes(self) -> tuple[str, ...]:
        """Its Colour Index generic names; none where they are not known."""
        return tuple(self.code.split(CODE_JOINT)) if self.code else ()


@dataclass(frozen=True)
class Offer:
    """One pack of one tube."""

    ml: float
    price: int
    """Of one pack, in hundredths of the currency."""
    currency: str
    """ISO 4217 code."""
    seller: str = ""
    """Id of the seller; blank where sellers are not told apart."""
    stock: int | None = None
    """Most of it that can be bought; None: any number."""
    price_of_more: int | None = None
    """Price of each if two or more of it are bought, in hundredths; None: the same."""


@dataclass(frozen=True, eq=False)
class Tube:
    """A named watercolour: pigments in fixed shares, and the packs it is sold in."""

    id: str
    name: str
    strength: float
    """Pigment load of the tube relative to the profiles, 1 = as profiled."""
    pigments: tuple[tuple[Pigment, float], ...]
    """Pigment and its share [0–1]; the shares sum to 1."""
    offers: tuple[Offer, ...]
    """None where it is not for sale, and of use only when owned."""
    cm2_per_ml: float | None = None
    """Area that a millilitre from it covers in a full-strength stroke [cm²]; None: not known."""

    @property
    def fitted(self) -> bool:
        """Whether any of its pigments was fitted from painted swatches."""
        return any(pigment.fitted for pigment, _ in self.pigments)

    @property
    def K(self) -> FloatArray:  # noqa: N802
        """Absorption per unit load [1/load], shape (bands,)."""
        return self.strength * _sum_of(share * pigment.K for pigment, share in self.pigments)

    @property
    def S(self) -> FloatArray:  # noqa: N802
        """Scattering per unit load [1/load], shape (bands,)."""
        return self.strength * _sum_of(share * pigment.S for pigment, share in self.pigments)

    @property
    def lightfastness(self) -> Lightfastness:
        """The category of the tube's worst pigment."""
        return max(pigment.lightfastness for pigment, _ in self.pigments)

    @property
    def hazards(self) -> tuple[Hazard, ...]:
        """The hazards of its pigments, each once, in the order of `Hazard`."""
        held = {hazard for pigment, _ in self.pigments for hazard in pigment.hazards}
        return tuple(hazard for hazard in Hazard if hazard in held)

    @property
    def hazard_notes(self) -> tuple[str, ...]:
        """What the catalogue notes of its pigments' hazards, each once."""
        notes = (pigment.hazard_note for pigment, _ in self.pigments)
        return tuple(dict.fromkeys(note for note in notes if note))

    @property
    def codes(self) -> tuple[str, ...]:
        """Colour Index generic names of its pigments, largest share first; none if not known."""
        ranked = sorted(self.pigments, key=lambda item: -item[1])
        return tuple(code for pigment, _ in ranked for code in pigment.codes)


@dataclass(frozen=True)
class Swatch:
    """One colour of a flower, CIELAB relative to the white of the light it is seen under."""

    name: str
    role: Role
    lab: tuple[float, float, float]
    importance: Number


@dataclass(frozen=True)
class Flower:
    """A flower or leaf as a handful of swatches."""

    name: str
    swatches: tuple[Swatch, ...]


@dataclass(frozen=True, eq=False)
class Paper:
    """A paper; reflectance [0–1] as seen, surface included, shape (bands,)."""

    id: str
    name: str
    reflectance: FloatArray


@dataclass(frozen=True, eq=False)
class Light:
    """A light; relative spectral power at `wavelength_nm`, both shape (n,)."""

    id: str
    name: str
    wavelength_nm: FloatArray
    power: FloatArray


@dataclass(frozen=True, eq=False)
class Catalogue:
    """All tables, each keyed by id (flowers by name), in the order of the files."""

    label: str
    """The folder it was read from, as the user named it, or "demo catalogue"."""
    tubes: Mapping[str, Tube] = field(repr=False)
    """By id; what can be bought, or is owned."""
    flowers: Mapping[str, Flower] = field(repr=False)
    """By name."""
    papers: Mapping[str, Paper] = field(repr=False)
    """By id."""
    lights: Mapping[str, Light] = field(repr=False)
    """By id."""
    pigments: Mapping[str, Pigment] = field(repr=False)
    """By id; what the tubes are made of."""
    sellers: Mapping[str, Seller] = field(default_factory=dict, repr=False)
    """By id; empty where sellers are not told apart."""
    sets: Mapping[str, TubeSet] = field(default_factory=dict, repr=False)
    """By id; several packs sold together at one price."""


def _sum_of(arrays: object) -> FloatArray:
    """Return the sum of an iterable of arrays of one shape."""
    return sum(arrays)  # type: ignore[call-overload,no-any-return]
