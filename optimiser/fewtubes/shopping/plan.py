"""The answer to a scenario, as values that do not change: what the reports print."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Certificate
from fewtubes.shopping.bought import Bought
from fewtubes.shopping.misses import Misses
from fewtubes.shopping.paint_plan import PaintPlan
from fewtubes.shopping.plan_parts import (
    Caution,
    FlowerCoverage,
    MoreMoney,
    PlannedSample,
    PlannedTube,
    TradeOff,
)
from fewtubes.shopping.puddles import Puddles
from fewtubes.shopping.steadiness import Steadiness

if TYPE_CHECKING:
    import pandas as pd

    from fewtubes.shopping.class_share import ClassShare

__all__ = ["Plan"]


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
    """What leaves the purse: all packs, sets and deliveries [hundredths of the currency]."""
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
    mixed: Puddles
    """What is mixed, in the order of mixing, and how few puddles would do."""
    lasting: TradeOff | None = None
    """The tubes in use that fade, and what tubes that last would give; None if all in use last."""
    more_money: tuple[MoreMoney, ...] = ()
    """What a little more than the budget would buy, cheapest first; empty if it buys nothing more,
    or if that was not found out. Where nothing is bought the last covers all that can be."""
    misses: Misses | None = None
    """How near it comes to what is out of reach beside its equals; None where that was not wished
    for, where nothing is out of reach, or where the choice is not proven."""
    purchase: Bought = field(default_factory=Bought)
    """What is bought where."""
    steadiness: Steadiness | None = None
    """How it stands variation of paint and hand; None if that was not asked."""
    counted_exactly: bool = True
    """Whether importances were counted exactly."""
    one_of_each_paint: bool = False
    """Whether any two tubes that could be bought are one paint, of which a choice buys one."""
    fitted_paints: bool = False
    """Whether any tube that could be chosen, or is in use, was fitted from swatches."""
    paint: PaintPlan | None = None
    """The paint that the pictures planned take; None where none are planned."""
    names: Mapping[str, str] = field(default_factory=dict)
    """Of the tubes that the scenario names, by id."""

    @property
    def counted_to(self) -> int | None:
        """Importances are counted to 1 part in this many of the whole; None if exactly."""
        return None if self.counted_exactly else self.total_weight

    @property
    def total_weight(self) -> int:
        """What all samples weigh together."""
        return sum(planned.sample.weight for planned in self.samples)

    @property
    def fitted(self) -> tuple[PlannedTube, ...]:
        """The tubes of the palette that were fitted from swatches."""
        return tuple(tube for tube in self.tubes if tube.tube.fitted)

    @property
    def bought(self) -> tuple[PlannedTube, ...]:
        """The tubes to buy."""
        return tuple(tube for tube in self.tubes if not tube.owned)

    @property
    def class_share(self) -> "ClassShare | None":
        """What a class buys together, a head and in all; None if the scenario is of none."""
        from fewtubes.shopping.class_share import class_share

        return class_share(self)

    def shopping_list(self) -> "pd.DataFrame":
        """Return what to buy, with the columns of ``shopping-list.csv``.

        Returns
        -------
        A row for each tube and pack size; none for the total, which is `cost`:

        Where sellers are told apart, or sets are bought, there is a row for each pack, set and
        delivery instead, told apart by `row`; their prices add up to `cost`, and a tube in a set
        has none. `seller`, `seller_total`, `set`, `needed` and `why` come besides.

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
            What it is, whether it is a step between two swatches, and its share of all that is to
            be painted [0–1].
        `L`, `a`, `b`
            CIELAB of the colour.
        `covered`, `puddle`, `recipe`
            Whether the recipe is within tolerance; the number of its puddle, see `puddles`, missing
            on bare paper and out of reach; and the recipe, or the nearest miss, in words.
        `tube_1`, `parts_1`, `tube_2`, `parts_2`, `tube_3`, `parts_3`
            Ids and parts; missing where the mix has fewer tubes.
        `strength`, `wash`
            Wash strength [0–1], where 0 is bare paper, and the same in words.
        `match`, `match_words`, `match_if_unsteady`
            Difference of the mix from the colour [ΔE00], the same in words, and the largest
            difference when each part and the wash are off by 20 % [ΔE00].
        `mix_L`, `mix_a`, `mix_b`
            CIELAB of the mix.
        `why_not`, `would_be_reached_by`
            What keeps it out of reach, and the names of single tubes that would bring it, parted
            by semicolons.
        `stays_within`
            Only if it was asked how sure the answer is: share of draws of paint and hand in which
            the recipe is within tolerance [0–1].
        """
        from fewtubes.shopping.plan_tables import recipes

        return recipes(self).frame()

    def puddles(self) -> "pd.DataFrame":
        """Return what is mixed, with the columns of ``puddles.csv``.

        Returns
        -------
        A row for each puddle, a mix that is thinned for one colour or more, in the order of mixing:

        `flower`, `puddle`
            What it is mixed for, missing if it serves the whole sitting; and its number there.
        `mix`
            Its tubes and parts in words.
        `tube_1`, `parts_1`, `tube_2`, `parts_2`, `tube_3`, `parts_3`
            Ids and parts; missing where it has fewer tubes.
        `colours`, `thinned_to`
            How many colours are painted with it, and the wash of each in words.
        `from_puddle`, `from_parts`, `added_tube`, `added_parts`
            Where it is an earlier puddle with one tube added: number and parts of that puddle, id
            and parts of the tube.
        `mix_L`
            CIELAB L* at full strength [0–100]; puddles are mixed from light to dark.
        """
        from fewtubes.shopping.puddle_tables import puddles

        return puddles(self).frame()

    def paint_taken(self) -> "pd.DataFrame":
        """Return the paint that the pictures planned take, with the columns of ``paint.csv``.

        Amounts are told to two significant figures, and known less well than that.

        Returns
        -------
        A row for each tube, in the order of `tubes`; none where no pictures are planned:

        `tube`, `name`, `owned`
            Id, name, and whether it is owned.
        `ml_a_picture`, `ml_planned`
            What one picture and what all that are planned take [ml].
        `ml_bought`, `pictures`
            What its packs hold [ml], 0 for an owned tube, and for how many pictures that lasts;
            missing where that is not known or none is used.
        `used_a_picture`, `currency`
            What the paint bought that is in one picture has cost, in the currency (ISO 4217 code).
        `cm2_per_ml`, `guessed`
            How far a millilitre goes in a full-strength stroke [cm²], and whether that is not told
            by the catalogue.
        """
        from fewtubes.shopping.paint_tables import paint_taken

        return paint_taken(self).frame()

    def palette(self) -> "pd.DataFrame":
        """Return the tubes to paint with.

        Returns
        -------
        A row for each tube, in the order of `tubes`:

        `tube`, `name`, `owned`, `pigments`
            Id, name, whether it is owned, and Colour Index names parted by blanks.
        `price`, `currency`
            Of its packs, in the currency (ISO 4217 code); 0 if it is owned or comes in a set.
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
