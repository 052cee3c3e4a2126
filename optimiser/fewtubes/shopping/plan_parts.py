"""What a plan is made of: tubes and packs, colours and recipes, trade-offs, cautions."""

import math
from dataclasses import dataclass
from enum import StrEnum

from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.records import Lightfastness, Offer, Tube
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import Recipe

__all__ = [
    "Caution",
    "FlowerCoverage",
    "Obstacle",
    "Pack",
    "PlannedSample",
    "PlannedTube",
    "Remedy",
    "TradeOff",
]


@dataclass(frozen=True)
class Pack:
    """So many packs of one offer."""

    offer: Offer
    count: int

    @property
    def cost(self) -> int:
        """Price of all of them [hundredths of the currency]."""
        return self.count * self.offer.price


@dataclass(frozen=True, eq=False)
class PlannedTube:
    """A tube of the palette, bought or owned."""

    tube: Tube
    owned: bool
    packs: tuple[Pack, ...]
    """What to buy; empty for owned tubes."""
    contrast_ratio: float
    """Hiding of a full-strength film [0–1]."""
    transparency: Transparency
    white_filled: bool
    """Whether a white pigment makes up half or more of a tube that also holds a coloured one."""
    recipes: int
    """Number of samples painted with it."""
    only_it_brings: float
    """Coverage that would be lost without it, everything else kept [0–1]."""

    @property
    def cost(self) -> int:
        """Price of its packs [hundredths of the currency]."""
        return sum(pack.cost for pack in self.packs)


class Obstacle(StrEnum):
    """Why a colour stays out of reach."""

    BUDGET = "the budget or the number of tubes"
    WISHES = "the wishes"
    CURRENCY = "what is sold in the currency"
    CATALOGUE = "the catalogue"


@dataclass(frozen=True, eq=False)
class Remedy:
    """A single further tube that would bring a colour within reach."""

    tube: Tube
    cost: int
    """Price of its cheapest suitable packs [hundredths of the currency]."""
    allowed: bool
    """Whether the wishes (never, floors, hazards) allow it."""


@dataclass(frozen=True, eq=False)
class PlannedSample:
    """One sample colour with the best the palette gives."""

    sample: Sample
    covered: bool
    recipe: Recipe | None
    """The recipe, or the nearest miss; None if there is no tube and the bare paper does not do."""
    match: float
    """ΔE00 of that recipe, infinite without one."""
    mix_lab: tuple[float, float, float]
    """CIELAB of that recipe; the paper's without one."""
    match_if_unsteady: float
    """Largest ΔE00 when each part and the strength are off by ±20 %; infinite without a recipe, and
    `match` on bare paper."""
    obstacle: Obstacle | None
    """Why it is out of reach; None if covered."""
    remedies: tuple[Remedy, ...]
    """Single tubes that would bring it, cheapest first; empty if covered or if none does."""
    bare_paper: float = math.inf
    """ΔE00 of the paper left bare."""

    @property
    def is_bare_paper(self) -> bool:
        """Whether the recipe is to leave the paper bare."""
        return self.recipe is not None and self.recipe.is_bare_paper


@dataclass(frozen=True)
class FlowerCoverage:
    """Coverage of one flower or own colour."""

    name: str
    importance: Number
    coverage: float
    """Covered importance ÷ its importance [0–1]."""
    covered: int
    total: int
    """Numbers of samples."""


@dataclass(frozen=True, eq=False)
class TradeOff:
    """The worst of the tubes in use in one respect and the tubes that make it so.

    In use are those bought and, of those owned, the ones that some mix of the plan holds.
    """

    worst: Lightfastness | Transparency | None
    """None if no tube is in use."""
    limited_by: tuple[Tube, ...]
    spared: float
    """Best coverage if every tube of that grade or worse were ruled out [0–1]."""
    spared_proven: bool
    spared_tubes: int | None = None
    spared_cost: int | None = None
    """What covering as much without them takes: tubes to buy, and their price [hundredths of the
    currency]; None if that covers less or is not known."""


@dataclass(frozen=True)
class Caution:
    """Something to take care of, with the tubes it is about (names)."""

    text: str
    tubes: tuple[str, ...] = ()
