"""A scenario: one question to the program, as a value that does not change."""

from dataclasses import dataclass, field

from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.colour.bands import FloatArray
from fewtubes.defaults import LIGHT, PAPER
from fewtubes.mixing.opacity import Transparency

__all__ = ["FlowerWish", "OwnColour", "Scenario", "Wishes"]


@dataclass(frozen=True)
class FlowerWish:
    """A flower of the catalogue to be painted, with its importance (> 0)."""

    name: str
    importance: Number = 1.0


@dataclass(frozen=True, eq=False)
class OwnColour:
    """A colour of the painter's own.

    Exactly one of `lab` and `reflectance` is given; the latter, shape (bands,), is turned into
    CIELAB under the scenario's light.
    """

    name: str
    importance: Number = 1.0
    lab: tuple[float, float, float] | None = None
    reflectance: FloatArray | None = None


@dataclass(frozen=True)
class Wishes:
    """Side conditions on the tubes; tube ids refer to the catalogue."""

    owned: tuple[str, ...] = ()
    must_have: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    lightfastness_floor: Lightfastness | None = None
    """Only tubes of this category or better are used, owned ones included."""
    transparency_floor: Transparency | None = None
    """Only tubes at least this transparent are used, owned ones included."""
    avoid_hazards: tuple[Hazard, ...] = ()
    millilitres: float = 0.0
    """Paint that every tube bought must hold [ml]; 0 = any pack will do."""
    thinnest_wash: float = 0.0
    """Weakest wash strength allowed [0–1]; e.g. 0.5 for colour that is laid thick."""
    least_coverage: Number = 0.0
    """Coverage that must be reached [0–1]."""


@dataclass(frozen=True, eq=False)
class Scenario:
    """A budget, the flowers and colours to be painted, and the wishes."""

    title: str
    shows: str
    """What the scenario is meant to show; may be empty."""
    currency: str
    budget: int
    """In hundredths of the currency, > 0."""
    most_tubes: int | None
    """Most tubes to buy, or None for no limit."""
    tolerance: float
    """Largest match that counts as covered [ΔE00]."""
    flowers: tuple[FlowerWish, ...]
    own_colours: tuple[OwnColour, ...]
    wishes: Wishes = field(default_factory=Wishes)
    paper: str = PAPER
    light: str = LIGHT
