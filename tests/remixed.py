"""Plans made by hand whose samples are put in place of others: their puddles follow."""

from dataclasses import replace

from fewtubes.mixing.recipes import Recipe
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import FewestPuddles, Puddle, Puddles, Puddling

__all__ = ["mixed_of", "with_samples"]


def with_samples(plan: Plan, *samples: PlannedSample) -> Plan:
    """Return the plan with other samples."""
    return replace(plan, samples=samples, mixed=mixed_of(samples))


def mixed_of(samples: tuple[PlannedSample, ...]) -> Puddles:
    """Return a puddle for each mix of each flower, in the order in which they are met."""
    flowers: dict[str, dict[tuple[tuple[str, ...], tuple[int, ...]], list[int]]] = {}
    for place, planned in enumerate(samples):
        recipe = planned.recipe
        flower = flowers.setdefault(planned.sample.flower, {})
        if planned.covered and isinstance(recipe, Recipe) and not recipe.is_bare_paper:
            flower.setdefault((recipe.tubes, recipe.parts), []).append(place)
    puddles = tuple(
        Puddle(flower, False, number, *mix, 45.0, tuple(places), None)
        for flower, mixes in flowers.items()
        for number, (mix, places) in enumerate(mixes.items(), 1)
    )
    all_mixes = {(puddle.tubes, puddle.parts) for puddle in puddles}
    return Puddles(
        Puddling.EACH_FLOWER,
        mixed=puddles,
        fewest=tuple(
            FewestPuddles(flower, own=False, number=len(mixes), bound=len(mixes))
            for flower, mixes in flowers.items()
        ),
        sitting=FewestPuddles("", own=False, number=len(all_mixes), bound=len(all_mixes)),
    )
