"""A scenario turned into the choice that is solved: samples, reach, prices, refusals.

Tubes keep their number in the catalogue throughout. A refused tube stays in the list, but no set
holds it and no budget buys it.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import ceil, floor

import numpy as np

from fewtubes.catalogue.exact import Number, exact
from fewtubes.catalogue.records import Catalogue, Flower, Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.coverage.reach import NO_TUBE, SetArray
from fewtubes.coverage.remembered import reach_of
from fewtubes.coverage.samples import (
    Portion,
    Sample,
    lab_table,
    portion_of_colour,
    portions_of_flower,
    weighed,
)
from fewtubes.mixing.bare_paper import paper_differences, paper_lab
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.likeness import thinnings
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency
from fewtubes.mixing.recipes import RecipeSpace
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import OwnColour
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import SearchState
from fewtubes.shopping.packs import Pack, cheapest_packs
from fewtubes.shopping.refusals import Refusal, refusals

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
    """What would be bought of each tube; empty if it is not sold."""
    counted_exactly: bool = True
    """Whether the samples' weights are to one another exactly as their importances."""

    @cached_property
    def tubes(self) -> tuple[Tube, ...]:
        """The tubes by number."""
        return tuple(self.catalogue.tubes.values())

    @cached_property
    def numbers(self) -> dict[str, int]:
        """The number of each tube by id."""
        return {id_: number for number, id_ in enumerate(self.catalogue.tubes)}

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

    def cost(self, tube: Tube) -> int:
        """Return the price of a tube's packs [hundredths of the currency]."""
        return sum(pack.cost for pack in self.packs[tube.id])

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

    @property
    def _fading(self) -> frozenset[int]:
        """The tubes that fade; none where the price goes before."""
        if self.scenario.prefer is Prefer.CHEAPEST:
            return frozenset()
        return frozenset(n for n, tube in enumerate(self.tubes) if tube.lightfastness.fades)

    @cached_property
    def thinnings(self) -> FloatArray:
        """How far each tube is let down to be another, as `fewtubes.mixing.likeness` has it."""
        return thinnings(self.catalogue.tubes, self.optics)

    def made_by_water(self, held: frozenset[int]) -> frozenset[int]:
        """Return the tubes, by number, that water makes of tubes held."""
        makes = (self.thinnings[sorted(held)] > 0).any(axis=0)
        return frozenset(np.flatnonzero(makes).tolist()) - held

    def _doubles(self, out: frozenset[int]) -> Iterator[tuple[int, int]]:
        """Yield pairs of tubes of which water makes the second from the first, or as good as it."""
        for one, other in np.argwhere(self.thinnings > 0).tolist():
            if one != other and one not in out and other not in out:
                yield one, other

    def instance_without(self, left_out: frozenset[int]) -> ChoiceInstance:
        """Return the choice with further tubes ruled out, owned and must-have ones included."""
        scenario, wishes = self.scenario, self.scenario.wishes
        out = left_out | {self.numbers[id_] for id_ in self.refused}
        count = len(self.tubes)
        owned = self.owned - out
        must_have = frozenset(self.numbers[id_] for id_ in wishes.must_have) - out
        doubles = tuple(self._doubles(out))
        beyond = scenario.budget_hundredths + 1
        return ChoiceInstance(
            weights=tuple(sample.weight for sample in self.samples),
            minimal_sets=_sets_without(self.sets, out, count),
            prices=tuple(
                beyond if number in out else 0 if number in owned else self.cost(tube)
                for number, tube in enumerate(self.tubes)
            ),
            fades=tuple(int(tube.lightfastness) for tube in self.tubes),
            owned=owned,
            must_have=must_have,
            budget=scenario.budget_hundredths,
            most_tubes=count if scenario.most_tubes is None else scenario.most_tubes,
            least_value=self.least_weight(wishes.least_coverage),
            fading=self._fading,
            alike=frozenset((min(pair), max(pair)) for pair in doubles),
            spare=frozenset(
                (one, other)
                for one, other in doubles
                if one in owned and self._lasts_as_long(one, other)
            ),
        )

    def _lasts_as_long(self, one: int, other: int) -> bool:
        """Whether a tube lasts as long as another, or longer."""
        return self.tubes[one].lightfastness <= self.tubes[other].lightfastness


def pose(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    cache: Cache,
    progress: Callable[[str], None],
    deadline: Deadline | None = None,
    mix: Callable[..., tuple[SetArray, ...]] = reach_of,
) -> Question:
    """Work out everything the choice needs; the mixing takes seconds unless remembered.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue.
    cache, progress, deadline
        Where mixing is remembered, who is told of stages, until when mixing may go on.
    mix
        Finds the minimal sets; whoever only wants to know what would be mixed puts another in its
        place (`fewtubes.term.mixing`).

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
    samples, counted_exactly = weighed(_portions(catalogue, scenario, optics))
    tubes = catalogue.tubes
    K = np.array([tube.K for tube in tubes.values()])
    S = np.array([tube.S for tube in tubes.values()])
    ratios = contrast_ratio(K, S, optics.weights[:, 1])
    transparencies = {id_: transparency(r) for id_, r in zip(tubes, ratios.tolist(), strict=True)}
    space = RecipeSpace.no_thinner_than(scenario.wishes.thinnest_wash)
    sets = mix(
        K,
        S,
        lab_table(samples),
        optics=optics,
        space=space,
        tolerance=scenario.tolerance,
        cache=cache,
        deadline=deadline,
        progress=progress,
    )
    return Question(
        catalogue=catalogue,
        scenario=scenario,
        optics=optics,
        space=space,
        samples=samples,
        sets=sets,
        contrast_ratios=dict(zip(tubes, ratios.tolist(), strict=True)),
        transparencies=transparencies,
        refused=refusals(tubes, scenario, transparencies),
        packs={
            id_: cheapest_packs(
                tube, currency=scenario.currency, millilitres=scenario.wishes.millilitres
            )
            for id_, tube in tubes.items()
        },
        counted_exactly=counted_exactly,
    )


def _portions(catalogue: Catalogue, scenario: Scenario, optics: Optics) -> list[Portion]:
    """Return the colours of the flowers, then the painter's own."""
    portions: list[Portion] = []
    for wish in scenario.flowers:
        if isinstance(wish, OwnFlower):
            flower = _seen(wish, optics)
        else:
            flower = catalogue.flowers[wish.name]
        portions += portions_of_flower(flower, wish.importance)
    for colour in scenario.own_colours:
        lab = _lab(colour, optics)
        portions.append(portion_of_colour(colour.name, lab, colour.importance))
    return portions


def _seen(flower: OwnFlower, optics: Optics) -> Flower:
    """Return a flower of the painter's own as one of a catalogue, seen under the light."""
    return Flower(flower.name, tuple(one.seen(_lab(one, optics)) for one in flower.swatches))


def _lab(colour: OwnColour | OwnSwatch, optics: Optics) -> tuple[float, float, float]:
    """Return CIELAB of a colour of the painter's own; what was measured is put under the light."""
    if colour.lab is not None:
        return colour.lab
    L, a, b = reflectance_lab(np.asarray(colour.reflectance), optics).tolist()
    return (L, a, b)


def _sets_without(
    sets: tuple[SetArray, ...], out: frozenset[int], count: int
) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return the sets that hold none of the tubes ruled out, as tuples."""
    ruled_out = np.zeros(count + 1, dtype=np.bool_)  # the last place stands for NO_TUBE
    ruled_out[list(out)] = True
    found = []
    for rows in sets:
        kept = rows[~ruled_out[rows].any(axis=1)]
        sizes = (kept != NO_TUBE).sum(axis=1).tolist()  # what fills up a row stands at its end
        wide = kept.tolist()
        found.append(tuple([tuple(row[:size]) for row, size in zip(wide, sizes, strict=True)]))
    return tuple(found)
