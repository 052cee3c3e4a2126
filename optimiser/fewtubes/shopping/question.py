"""A scenario turned into the choice that is solved: samples, reach, prices, refusals.

Tubes keep their number in the catalogue throughout. A refused tube stays in the list, but no set
holds it and no budget buys it.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from math import ceil, floor
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.catalogue.exact import Number, exact
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.coverage.reach import SetArray
from fewtubes.coverage.remembered import reach_of
from fewtubes.coverage.samples import Sample, lab_table, weighed
from fewtubes.mixing.bare_paper import paper_differences, paper_lab
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.likeness import thinnings
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency
from fewtubes.mixing.recipes import RecipeSpace
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.records import Scenario
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import SearchState
from fewtubes.selection.terms import Need, Terms
from fewtubes.shopping.bought import Bought
from fewtubes.shopping.mixing import Mixing
from fewtubes.shopping.needs import least_needs
from fewtubes.shopping.packs import Pack, cheapest_packs
from fewtubes.shopping.portions import portions_of
from fewtubes.shopping.posed_instance import instance_of
from fewtubes.shopping.price_tags import PriceTags
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.purchasing import bought_for
from fewtubes.shopping.refusals import Refusal, refusals, refused_by_wishes
from fewtubes.shopping.terms import NeedsOf, OnSale, terms_for

if TYPE_CHECKING:
    from fewtubes.shopping.paint_needs import PaintNeeds

__all__ = ["Question", "pose"]


@dataclass(frozen=True, eq=False)
class Question:
    """Everything the choice and the answer are drawn from."""

    catalogue: Catalogue
    scenario: Scenario
    optics: Optics
    space: RecipeSpace
    samples: tuple[Sample, ...]
    sets: tuple[SetArray, ...]
    """For each sample its minimal sets over all tubes of the catalogue, shapes (sets, 3); the empty
    set alone where the bare paper does."""
    contrast_ratios: Mapping[str, float]
    """By tube id [0–1]."""
    transparencies: Mapping[str, Transparency]
    refused: Mapping[str, Refusal]
    packs: Mapping[str, tuple[Pack, ...]]
    """What would be bought of each tube where single prices are all that matters; empty if it is
    not sold."""
    needs: tuple[Need, ...]
    """Of each tube, by number: the least that is needed if it is bought at all."""
    larger_mixes: Mapping[int, SetArray] = field(default_factory=dict)
    """Where no set reaches a sample, by its number, but a mix of more tubes than are wished for
    would: the minimal sets of those."""
    counted_exactly: bool = True
    """Whether the samples' weights are to one another exactly as their importances."""
    puddling: Puddling = Puddling.EACH_FLOWER
    """For what puddles are shared, by which paint is reckoned."""

    @cached_property
    def tubes(self) -> tuple[Tube, ...]:
        """The tubes by number."""
        return tuple(self.catalogue.tubes.values())

    @cached_property
    def numbers(self) -> dict[str, int]:
        """The number of each tube by id."""
        return {id_: number for number, id_ in enumerate(self.catalogue.tubes)}

    @property
    def needs_of(self) -> NeedsOf | None:
        """What is needed of each tube bought with others, by number; None where `needs` is all."""
        picture = self.scenario.picture
        if picture is None:
            return None
        return partial(self.paint.needs, pictures=picture.pictures)

    @cached_property
    def paint(self) -> "PaintNeeds":
        """Puddles and paint of any palette, each found once."""
        from fewtubes.shopping.paint_needs import PaintNeeds

        return PaintNeeds(self)

    def paint_planned(self, bought: tuple[int, ...]) -> Mapping[str, float]:
        """Return the paint that all pictures planned take [ml] by tube; empty if none are."""
        picture = self.scenario.picture
        if picture is None:
            return {}
        taken = self.paint.taken(bought)
        return {tube: ml * picture.pictures for tube, ml in taken.items()}

    @cached_property
    def on_sale(self) -> OnSale | None:
        """What can be bought where; None where each tube has a price of its own."""
        found = terms_for(
            self.catalogue,
            self.scenario,
            refused=self.refused.keys(),
            unwanted=refused_by_wishes(self.refused),
            needs=self.needs,
            needs_of=self.needs_of,
        )
        if found is None or self.scenario.picture is None:
            return found
        least = partial(self.paint.least, found.terms)
        return replace(found, terms=replace(found.terms, least_paint=least))

    @property
    def terms(self) -> Terms | None:
        """What a purchase is made under; None where each tube has a price of its own."""
        return None if self.on_sale is None else self.on_sale.terms

    @cached_property
    def fitted_paints(self) -> bool:
        """Whether any tube that could be chosen, or is in use, was fitted from swatches."""
        return any(tube.fitted for tube in self.tubes if tube.id not in self.refused)

    @cached_property
    def owned(self) -> frozenset[int]:
        """The owned tubes that are in use."""
        return frozenset(
            self.numbers[id_] for id_ in self.scenario.wishes.all_owned if id_ not in self.refused
        )

    @cached_property
    def paper_lab(self) -> tuple[float, float, float]:
        """CIELAB of the bare paper."""
        L, a, b = paper_lab(self.optics).tolist()
        return (L, a, b)

    @cached_property
    def paper_differences(self) -> tuple[float, ...]:
        """How far the bare paper is from each sample [ΔE00]."""
        return tuple(paper_differences(lab_table(self.samples), self.optics).tolist())

    @cached_property
    def price_tags(self) -> PriceTags:
        """Prices of single tubes."""
        return PriceTags.of(self)

    def is_sold(self, tube: Tube) -> bool:
        """Whether as much of a tube as is needed can be had in the currency."""
        return self.price_tags.is_sold(tube)

    def cost(self, tube: Tube) -> int:
        """Return the price of a tube alone, without delivery [hundredths of the currency]."""
        return self.price_tags.alone(tube)

    def cost_beside(self, tube: Tube, bought: Collection[int]) -> int:
        """Return what a tube adds to the cost of others bought, by number [hundredths]."""
        return self.price_tags.beside(tube, sorted(frozenset(bought) - self.owned))

    def purchase(self, bought: Sequence[int]) -> Bought:
        """Return what is bought where for a palette of tubes, by number, ascending."""
        return bought_for(self, bought)

    def least_weight(self, coverage: Number) -> int:
        """Return the covered weight from which a coverage [0–1] is reached.

        Where weights are rounded, what may fall short by rounding alone is let pass.
        """
        return max(0, ceil(exact(coverage) * self._total) - self._rounding)

    def weight_within(self, coverage: Number) -> int:
        """Return the covered weight that a loss of coverage [0–1] amounts to at most."""
        return floor(exact(coverage) * self._total) + self._rounding

    @property
    def counted_to(self) -> int | None:
        """Importances are counted to 1 part in this many of the whole; None if exactly."""
        return None if self.counted_exactly else self._total

    @property
    def _total(self) -> int:
        return sum(sample.weight for sample in self.samples)

    @property
    def _rounding(self) -> int:
        """Most that the rounding of weights can change: a unit of each, in part and whole."""
        return 0 if self.counted_exactly else 2 * len(self.samples)

    @cached_property
    def instance(self) -> ChoiceInstance:
        """The choice to be solved."""
        return self.instance_without(frozenset())

    @cached_property
    def search_state(self) -> SearchState:
        """The choice made ready for searches one after the other; each learns from those before."""
        return start_search(self.instance, seconds=0)

    @cached_property
    def thinnings(self) -> FloatArray:
        """How far each tube is let down to be another, as `fewtubes.mixing.likeness` has it."""
        return thinnings(self.catalogue.tubes, self.optics)

    def made_by_water(self, held: frozenset[int]) -> frozenset[int]:
        """Return the tubes, by number, that water makes of tubes held."""
        makes = (self.thinnings[sorted(held)] > 0).any(axis=0)
        return frozenset(np.flatnonzero(makes).tolist()) - held

    def instance_without(self, left_out: frozenset[int]) -> ChoiceInstance:
        """Return the choice with further tubes ruled out, owned and must-have ones included."""
        return instance_of(self, left_out)


def pose(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    cache: Cache,
    progress: Callable[[str], None],
    deadline: Deadline | None = None,
    mix: Callable[..., tuple[SetArray, ...]] | None = None,
    puddling: Puddling = Puddling.EACH_FLOWER,
) -> Question:
    """Work out everything the choice needs; the mixing takes seconds unless remembered.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue.
    cache, progress, deadline
        Where mixing is remembered, who is told of stages, until when mixing may go on.
    mix
        Finds the minimal sets; `reach_of` if None. Whoever only wants to know what would be mixed
        puts another in its place (`fewtubes.shopping.mixed_together`).
    puddling
        For what puddles are shared, by which paint for pictures planned is reckoned.

    Raises
    ------
    InputError
        If the catalogue does not hold what the scenario names.
    LimitError
        If the deadline, or the memory there is, is too little for mixing so many tubes.
    """
    scenario = settled_names(scenario, catalogue)
    progress("looking at paper and light")
    optics = optics_for(catalogue, scenario.paper, scenario.light, cache)
    samples, counted_exactly = weighed(portions_of(catalogue, scenario, optics))
    tubes = catalogue.tubes
    K = np.array([tube.K for tube in tubes.values()])
    S = np.array([tube.S for tube in tubes.values()])
    ratios = contrast_ratio(K, S, optics.weights[:, 1])
    transparencies = {id_: transparency(r) for id_, r in zip(tubes, ratios.tolist(), strict=True)}
    space = scenario.wishes.space
    mixing = Mixing(
        K, S, optics, space, scenario.tolerance, cache, deadline, progress, mix or reach_of
    )
    sets = mixing.sets(lab_table(samples))
    needs = least_needs(scenario, len(tubes))
    refused = refusals(catalogue, scenario, transparencies, needs)
    return Question(
        catalogue=catalogue,
        scenario=scenario,
        optics=optics,
        space=space,
        samples=samples,
        sets=sets,
        larger_mixes=mixing.larger(lab_table(samples), sets),
        contrast_ratios=dict(zip(tubes, ratios.tolist(), strict=True)),
        transparencies=transparencies,
        refused=refused,
        packs={
            id_: ()
            if refused.get(id_) is Refusal.TOO_LITTLE
            else cheapest_packs(
                tube, currency=scenario.currency, millilitres=scenario.wishes.millilitres
            )
            for id_, tube in tubes.items()
        },
        needs=needs,
        counted_exactly=counted_exactly,
        puddling=puddling,
    )
