"""A scenario turned into the choice that is solved: samples, reach, prices, refusals.

Tubes keep their number in the catalogue throughout. A refused tube stays in the list, but no set
holds it and no budget buys it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.coverage.reach import NO_TUBE, SetArray
from fewtubes.coverage.remembered import reach_of
from fewtubes.coverage.samples import Sample, lab_table, samples_of_colour, samples_of_flower
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency
from fewtubes.mixing.recipes import RecipeSpace
from fewtubes.scenario.records import Scenario
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.shopping.packs import cheapest_packs
from fewtubes.shopping.plan import Pack
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
    """For each sample its minimal sets over all tubes of the catalogue, shapes (sets, 3)."""
    contrast_ratios: Mapping[str, float]
    """By tube id [0–1]."""
    transparencies: Mapping[str, Transparency]
    refused: Mapping[str, Refusal]
    packs: Mapping[str, tuple[Pack, ...]]
    """What would be bought of each tube; empty if it is not sold."""

    @cached_property
    def tubes(self) -> tuple[Tube, ...]:
        """The tubes by number."""
        return tuple(self.catalogue.tubes.values())

    @cached_property
    def numbers(self) -> dict[str, int]:
        """The number of each tube by id."""
        return {id_: number for number, id_ in enumerate(self.catalogue.tubes)}

    @cached_property
    def owned(self) -> frozenset[int]:
        """The owned tubes that are in use."""
        return frozenset(
            self.numbers[id_] for id_ in self.scenario.wishes.owned if id_ not in self.refused
        )

    @cached_property
    def paper_lab(self) -> tuple[float, float, float]:
        """CIELAB of the bare paper."""
        paper = self.catalogue.papers[self.scenario.paper]
        L, a, b = reflectance_lab(paper.reflectance, self.optics).tolist()
        return (L, a, b)

    def cost(self, tube: Tube) -> int:
        """Return the price of a tube's packs [hundredths of the currency]."""
        return sum(pack.cost for pack in self.packs[tube.id])

    @cached_property
    def instance(self) -> ChoiceInstance:
        """The choice to be solved."""
        return self.instance_without(frozenset())

    def instance_without(self, left_out: frozenset[int]) -> ChoiceInstance:
        """Return the choice with further tubes ruled out, owned and must-have ones included."""
        scenario, wishes = self.scenario, self.scenario.wishes
        out = left_out | {self.numbers[id_] for id_ in self.refused}
        count = len(self.tubes)
        owned = self.owned - out
        must_have = frozenset(self.numbers[id_] for id_ in wishes.must_have) - out
        total = sum(sample.weight for sample in self.samples)
        beyond = scenario.budget + 1
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
            budget=scenario.budget,
            most_tubes=count if scenario.most_tubes is None else scenario.most_tubes,
            least_value=int(np.ceil(wishes.least_coverage * total - 1e-9)),
        )


def pose(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    cache: Cache,
    progress: Callable[[str], None],
    deadline: Deadline | None = None,
) -> Question:
    """Work out everything the choice needs; the mixing takes seconds unless remembered.

    Raises
    ------
    LimitError
        If the deadline, or the memory there is, is too little for mixing so many tubes.
    """
    progress("looking at paper and light")
    optics = optics_for(catalogue, scenario.paper, scenario.light, cache)
    samples = _samples(catalogue, scenario, optics)
    tubes = catalogue.tubes
    K = np.array([tube.K for tube in tubes.values()])
    S = np.array([tube.S for tube in tubes.values()])
    ratios = contrast_ratio(K, S, optics.weights[:, 1])
    transparencies = {id_: transparency(r) for id_, r in zip(tubes, ratios.tolist(), strict=True)}
    space = RecipeSpace.no_thinner_than(scenario.wishes.thinnest_wash)
    sets = reach_of(
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
    )


def _samples(catalogue: Catalogue, scenario: Scenario, optics: Optics) -> tuple[Sample, ...]:
    """Return the samples of the flowers, then those of the painter's own colours."""
    samples: list[Sample] = []
    for wish in scenario.flowers:
        samples += samples_of_flower(catalogue.flowers[wish.name], wish.importance)
    for colour in scenario.own_colours:
        lab = colour.lab
        if lab is None:
            L, a, b = reflectance_lab(np.asarray(colour.reflectance), optics).tolist()
            lab = (L, a, b)
        samples += samples_of_colour(colour.name, lab, colour.importance)
    return tuple(samples)


def _sets_without(
    sets: tuple[SetArray, ...], out: frozenset[int], count: int
) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return the sets that hold none of the tubes ruled out, as tuples."""
    ruled_out = np.zeros(count + 1, dtype=np.bool_)  # the last place stands for NO_TUBE
    ruled_out[list(out)] = True
    return tuple(
        tuple(
            tuple(tube for tube in row if tube != NO_TUBE)
            for row in rows[~ruled_out[rows].any(axis=1)].tolist()
        )
        for rows in sets
    )
