"""The answer to a scenario, as values that do not change: what the reports print."""

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.records import Lightfastness, Tube
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import Recipe
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Certificate
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.steadiness import Steadiness

if TYPE_CHECKING:
    import pandas as pd

__all__ = [
    "Caution",
    "FlowerCoverage",
    "Obstacle",
    "Plan",
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
    """What to buy; empty for owned tubes."""
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
    """As in the catalogue."""
    cost: int
    """Price of its cheapest suitable packs [hundredths of the currency]."""
    allowed: bool
    """Whether the wishes (never, floors, hazards) allow it."""


@dataclass(frozen=True, eq=False)
class PlannedSample:
    """One sample colour with the best the palette gives."""

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


@dataclass(frozen=True)
class Caution:
    """Something to take care of, with the tubes it is about (names)."""

    text: str
    """What to take care of, one or two sentences."""
    tubes: tuple[str, ...] = ()
    """Names of the tubes it is about; empty if it holds for all painting."""


@dataclass(frozen=True, eq=False)
class Plan:
    """The whole answer."""

    scenario: Scenario
    """The question."""
    catalogue_label: str
    """Folder of the catalogue, or "demo catalogue"."""
    tubes: tuple[PlannedTube, ...]
    """Bought ones first, then owned; each in the order of the catalogue."""
    set_aside: tuple[Tube, ...]
    """Owned tubes that the wishes (floors, hazards) keep out of use."""
    cost: int
    """Of all packs [hundredths of the currency]."""
    coverage: float
    """Covered importance ÷ total importance [0–1]."""
    flowers: tuple[FlowerCoverage, ...]
    """In the order of the scenario, own colours last."""
    samples: tuple[PlannedSample, ...]
    """In the order of the flowers, swatches before steps."""
    lightfastness: TradeOff
    """How long it lasts: the tubes that fade most, and what doing without them would cost."""
    opacity: TradeOff
    """How much it hides: the tubes that hide most, likewise."""
    cautions: tuple[Caution, ...]
    """What to take care of with these tubes, and at all times."""
    certificate: Certificate
    """Whether, and how, the choice is proven best."""
    ties: int
    """Palettes that rank equal in coverage, number, cost and lightfastness, this one included."""
    ties_complete: bool
    """Whether these are all; if not there are at least as many."""
    recipe_count: int
    """Size of the recipe space that was searched."""
    lasting: TradeOff | None = None
    """The tubes in use that fade, and what tubes that last would give; None if all in use last."""
    steadiness: Steadiness | None = None
    """How it stands variation of paint and hand; None if that was not asked."""
    counted_exactly: bool = True
    """Whether importances were counted exactly."""

    @property
    def counted_to(self) -> int | None:
        """Importances are counted to 1 part in this many of the whole; None if exactly."""
        return None if self.counted_exactly else self.total_weight

    @property
    def total_weight(self) -> int:
        """What all samples weigh together."""
        return sum(planned.sample.weight for planned in self.samples)

    @property
    def bought(self) -> tuple[PlannedTube, ...]:
        """The tubes to buy."""
        return tuple(tube for tube in self.tubes if not tube.owned)

    def shopping_list(self) -> "pd.DataFrame":
        """Return what to buy, with the columns of ``shopping-list.csv``.

        Returns
        -------
        A row for each tube and pack size; none for the total, which is `cost`:

        `tube`, `name`, `pigments`
            Id, name, and Colour Index names parted by blanks.
        `ml`, `packs`
            Content of a pack [ml], and how many.
        `price_each`, `price`, `currency`
            Of one pack and of all of that size, in the currency (ISO 4217 code).
        `lightfastness`, `transparency`, `hazards`
            ASTM D4303 category I to V, class of transparency, hazards parted by blanks.
        `mixes`, `only_it_brings`
            Colours painted with the tube, and coverage lost without it, all others kept [0–1].
        """
        from fewtubes.shopping.plan_tables import shopping_list

        return shopping_list(self).frame()

    def recipes(self) -> "pd.DataFrame":
        """Return how to mix each colour, with the columns of ``recipes.csv``.

        Returns
        -------
        A row for each colour, in the order of `samples`:

        `flower`, `swatch`, `step`, `importance`
            What it is, whether it is a step between swatches, and its share of the whole [0–1].
        `L`, `a`, `b`
            CIELAB of the colour.
        `covered`, `recipe`
            Whether the recipe is within tolerance, and the recipe, or the nearest miss, in words.
        `tube_1`, `parts_1`, `tube_2`, `parts_2`, `tube_3`, `parts_3`
            Ids and parts; missing where the mix has fewer tubes.
        `strength`, `wash`
            Wash strength [0–1], where 0 is bare paper, and the same in words.
        `match`, `match_words`, `match_if_unsteady`
            Difference [ΔE00], in words, and at most if parts and wash are off by 20 % [ΔE00].
        `mix_L`, `mix_a`, `mix_b`
            CIELAB of the mix.
        `why_not`, `would_be_reached_by`
            What keeps it out of reach, and ids of single tubes that would bring it.
        `stays_within`
            Only with trials: share of draws in which the recipe is within tolerance [0–1].
        """
        from fewtubes.shopping.plan_tables import recipes

        return recipes(self).frame()

    def palette(self) -> "pd.DataFrame":
        """Return the tubes to paint with.

        Returns
        -------
        A row for each tube, in the order of `tubes`:

        `tube`, `name`, `owned`, `pigments`
            Id, name, whether it is owned, and Colour Index names parted by blanks.
        `price`, `currency`
            Of all its packs, in the currency (ISO 4217 code); 0 if it is owned.
        `lightfastness`, `transparency`, `contrast_ratio`, `hazards`
            ASTM D4303 category I to V, class of transparency, hiding of a full-strength film
            [0–1], hazards parted by blanks.
        `mixes`, `only_it_brings`
            Colours painted with the tube, and coverage lost without it, all others kept [0–1].
        """
        from fewtubes.shopping.plan_tables import palette

        return palette(self).frame()

    def flower_coverage(self) -> "pd.DataFrame":
        """Return what is covered of each flower and own colour.

        Returns
        -------
        A row for each, in the order of `flowers`:

        `flower`, `importance`
            Its name, and its importance as it was asked for (above 0).
        `coverage`
            Share of its importance that is covered [0–1].
        `covered`, `colours`
            Its colours that are covered and all of them, steps between swatches included.
        """
        from fewtubes.shopping.plan_tables import flower_coverage

        return flower_coverage(self).frame()
