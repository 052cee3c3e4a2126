"""What a plan is made of: tubes and packs, colours and recipes, trade-offs, cautions."""

import math
from dataclasses import dataclass
from enum import StrEnum

from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.records import Lightfastness, Tube
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import Recipe
from fewtubes.shopping.bought import BoughtSet
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.sources import Source

__all__ = [
    "Caution",
    "FlowerCoverage",
    "MoreMoney",
    "Nearer",
    "Obstacle",
    "PlannedSample",
    "PlannedTube",
    "Remedy",
    "TradeOff",
]


@dataclass(frozen=True, eq=False)
class PlannedTube:
    """A tube of the palette, bought or owned."""

    tube: Tube
    """As in the catalogue."""
    owned: bool
    """Whether it is there already."""
    packs: tuple[Pack, ...]
    """What to buy singly; empty for owned tubes, and for those that come in a set."""
    contrast_ratio: float
    """Hiding of a full-strength film [0–1]."""
    transparency: Transparency
    """Class of a full-strength film, by `contrast_ratio`."""
    white_filled: bool
    """Whether a white pigment makes up half or more of a tube that also holds a coloured one."""
    recipes: int
    """Number of samples painted with it."""
    only_it_brings: float
    """Coverage that would be lost without it, everything else kept [0–1]."""
    left: float | None = None
    """What is left of one of the box at home, a share [0–1]; None if it is not of that box."""
    runs_low: bool = False
    """Whether it is in use and little is left, so that it has to be bought again soon."""
    again: int | None = None
    """Price of its packs then [hundredths of the currency]; None if it does not run low or is not
    sold in the currency. It is in no total."""
    sets: tuple[BoughtSet, ...] = ()
    """The sets bought that it comes in."""

    @property
    def cost(self) -> int:
        """Price of its packs, without sets and deliveries [hundredths of the currency]."""
        return sum(pack.cost for pack in self.packs)


class Obstacle(StrEnum):
    """Why a colour stays out of reach."""

    BUDGET = "the budget or the number of tubes"
    WISHES = "the wishes"
    CURRENCY = "what is sold in the currency"
    NOT_FOR_SALE = "what is for sale"
    STOCK = "what is in stock"
    CATALOGUE = "the catalogue"
    ONE_PAINT = "two strengths of one paint, of which one is bought"
    SMALL_MIXES = "the wishes: how many tubes a mix may hold"


@dataclass(frozen=True, eq=False)
class Remedy:
    """A single further tube that would bring a colour within reach."""

    tube: Tube
    """As in the catalogue."""
    cost: int
    """What it adds to the cost of the plan [hundredths of the currency]; of several told together,
    beside the plan and those told before it."""
    allowed: bool
    """Whether the wishes (never, floors, hazards) allow it."""
    in_set: bool = False
    """Whether it costs nothing more though it is not owned: mostly it lies in a set that is bought
    anyway."""
    source: Source | None = None
    """Where it is bought, of those that are named first; None where sellers are not told apart."""


@dataclass(frozen=True, eq=False)
class Nearer:
    """A single further tube that would bring a colour nearer, though not within reach."""

    tube: Tube
    """As in the catalogue; the wishes allow it."""
    cost: int
    """What it adds to the cost of the plan [hundredths of the currency]."""
    match: float
    """ΔE00 of the best mix with it."""
    source: Source | None = None
    """Where it is bought; None where sellers are not told apart."""


@dataclass(frozen=True, eq=False)
class PlannedSample:
    """One sample colour with the recipe it is painted with."""

    sample: Sample
    """The colour to be painted, its flower and its weight."""
    covered: bool
    """Whether the recipe is within the tolerance."""
    recipe: Recipe | None
    """The recipe, or the nearest miss; None if there is no tube and the bare paper does not do."""
    match: float
    """ΔE00 of that recipe, infinite without one."""
    mix_lab: tuple[float, float, float]
    """CIELAB of that recipe; the paper's without one."""
    match_if_unsteady: float
    """Largest ΔE00 with parts and wash off by 20 %; infinite without one, `match` on bare paper."""
    obstacle: Obstacle | None
    """Why it is out of reach; None if covered."""
    remedies: tuple[Remedy, ...]
    """Single tubes that would bring it, cheapest first; empty if covered or if none does."""
    bare_paper: float = math.inf
    """ΔE00 of the paper left bare."""
    nearer: Nearer | None = None
    """Where no single tube would bring it: the one that comes nearest; None if none comes notably
    nearer than the palette, or if the box is too large to look."""
    together: tuple[Remedy, ...] = ()
    """Where no single tube would bring it: two that would together; empty if no two would."""

    @property
    def is_bare_paper(self) -> bool:
        """Whether the recipe is to leave the paper bare."""
        return self.recipe is not None and self.recipe.is_bare_paper


@dataclass(frozen=True)
class FlowerCoverage:
    """Coverage of one flower or own colour."""

    name: str
    """Of the flower, or of the own colour."""
    importance: Number
    """As in the scenario, above 0."""
    coverage: float
    """Covered importance ÷ its importance [0–1]."""
    covered: int
    """Number of its samples within the tolerance."""
    total: int
    """Number of its samples in all."""


@dataclass(frozen=True, eq=False)
class TradeOff:
    """The worst, in one respect, of the tubes in use: those bought, and owned ones in some mix."""

    worst: Lightfastness | Transparency | None
    """None if no tube is in use."""
    limited_by: tuple[Tube, ...]
    """The tubes in use that have this grade."""
    spared: float
    """Best coverage if every tube of that grade or worse were ruled out [0–1]."""
    spared_proven: bool
    """Whether that coverage is proven best."""
    spared_tubes: int | None = None
    """Tubes to buy for covering as much without them; None if that covers less or is not known."""
    spared_cost: int | None = None
    """Price of those [hundredths of the currency]; None if there are none or it is not known."""
    spared_fading: int | None = None
    """How many of those fade (III or worse); None if there are none or it is not known."""


@dataclass(frozen=True, eq=False)
class MoreMoney:
    """What a little more than the budget would buy; where it buys nothing, what all takes."""

    beyond: int
    """Money beyond the budget [hundredths of the currency]."""
    coverage: float
    """What could be covered [0–1]; more than the plan covers."""
    tubes: tuple[Tube, ...]
    """The tubes to buy for it."""
    proven: bool
    """Whether it is proven that nothing cheaper covers more than the plan, or than the palette
    named before this one, and nothing as cheap more than this. Of the last one, where the plan buys
    nothing: that nothing cheaper covers as much."""


@dataclass(frozen=True)
class Caution:
    """Something to take care of, with the tubes it is about (names)."""

    text: str
    """What to take care of, one or two sentences."""
    tubes: tuple[str, ...] = ()
    """Names of the tubes it is about; empty if it holds for all painting."""
    short: str = ""
    """The same in a few words; empty if the text is short enough itself."""
