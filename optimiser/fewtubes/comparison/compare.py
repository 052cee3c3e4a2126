"""Palettes side by side: by size, by taste among the near-best, by coverage against cost."""

import time
from collections.abc import Callable, Sequence
from dataclasses import replace

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.by_size import BestOfSize, BySize, best_by_size
from fewtubes.comparison.caught_up import caught_up
from fewtubes.comparison.comparison import Alternatives, Comparison, Size
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.floors import FloorFront, floor_fronts
from fewtubes.comparison.in_common import exchanges, one_of_each, shared_tubes
from fewtubes.comparison.near_best import NearBest, near_another, near_best
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.errors import ClashError
from fewtubes.scenario.called import looked_up
from fewtubes.scenario.records import Scenario
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import search
from fewtubes.shopping.choose import matches_of, mean_match
from fewtubes.shopping.clash import clash_message, refused_must_have
from fewtubes.shopping.misses import Nearest, misses_nothing, nearest_of_equals
from fewtubes.shopping.puddle_counts import puddle_counts
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits

__all__ = ["compare", "compared"]

SIZES_SHARE, NEAR_SHARE = 0.3, 0.2
"""Shares of the time for sizes and near-best palettes; the trade-off gets what is left."""

PUDDLES_SHARE = 0.1
"""Share of the time for how few puddles they take."""

NEAREST_SHARE = 0.1
"""Share of the time for which of equal palettes come nearest to what they miss, if wished for."""


def compare(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    extent: Extent | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
    whole: bool = False,
) -> Comparison:
    """Return palettes of a scenario side by side.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue. Its least coverage is disregarded, since
        the reader is to see what less, or more, would cost.
    extent
        How much is compared.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere.
    whole
        Whether the extent's time is for mixing, too.

    Raises
    ------
    InputError
        If the catalogue does not hold what the scenario names.
    ClashError
        If the must-have tubes cannot be bought.
    LimitError
        If there is too little time or memory for mixing so many tubes.

    Examples
    --------
    >>> from fewtubes import Extent, Scenario, compare, default_cache, read_catalogue
    >>> scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"])
    >>> extent = Extent(up_to=3, seconds=20)
    >>> comparison = compare(read_catalogue(), scenario, extent=extent, cache=default_cache())
    >>> comparison.by_number_of_tubes()["coverage"].is_monotonic_increasing
    True
    """
    tell, extent = progress or (lambda _stage: None), extent or Extent()
    limits = Limits(extent.seconds, whole=whole)
    mixing = limits.mixing()
    question = pose(catalogue, scenario, cache=cache_of(cache), progress=tell, deadline=mixing)
    seconds = limits.clock(mixing).share(1.0, of_left=1.0)
    return compared(question, replace(extent, seconds=seconds), progress=tell)


def compared(
    question: Question, extent: Extent, *, progress: Callable[[str], None] = lambda _stage: None
) -> Comparison:
    """Do what `compare` does, once everything is mixed."""
    collector = FaultCollector()
    looked_up(
        sorted(frozenset[str]().union(*extent.known)),
        question.numbers,
        "tube",
        where="known",
        collector=collector,
    )
    collector.raise_if_any()
    _must_haves_can_be_bought(question)
    began = time.monotonic()
    progress("choosing palettes of each size")
    by_size = best_by_size(
        question.instance, up_to=extent.up_to, seconds=SIZES_SHARE * extent.seconds
    )
    nearest = _nearest(question, by_size, seconds=NEAREST_SHARE * extent.seconds)
    sizes = _sizes(question, nearest)
    progress("looking for palettes that come near the best")
    alternatives = _alternatives(question, extent, sizes)
    progress("following coverage against cost, step by step")
    left = extent.seconds - (time.monotonic() - began)
    known = [frozenset(question.numbers[id_] for id_ in tubes) for tubes in extent.known]
    known += [frozenset(palette.bought) for palette in _listed(sizes, alternatives)]
    floors = floor_fronts(question, seconds=max(0.0, left), known=known)
    if not all(best.proven for best in by_size.each):
        by_size = caught_up(question.instance, by_size, [*_of_fronts(floors), *known])
        nearest = _nearest(question, by_size, seconds=NEAREST_SHARE * extent.seconds)
        sizes = _sizes(question, nearest)
        alternatives = _beside(question, extent, alternatives, sizes)
    top = floors[0].front.within(question.scenario.budget_hundredths)
    if extent.puddles:
        progress("counting puddles")
        sizes, alternatives = _with_puddles(
            question, sizes, alternatives, seconds=PUDDLES_SHARE * extent.seconds
        )
    return Comparison(
        question=question,
        extent=extent,
        sizes=sizes,
        by_size=nearest,
        all_gained=top is not None
        and top.sure_up_to_next
        and top.palette.value == sizes[-1].palette.value,
        alternatives=alternatives,
        floors=floors,
        seconds=time.monotonic() - began,
    )


def _with_puddles(
    question: Question,
    sizes: tuple[Size, ...],
    alternatives: Alternatives | None,
    *,
    seconds: float,
) -> tuple[tuple[Size, ...], Alternatives | None]:
    """Return both with how few puddles each palette takes."""
    palettes = _listed(sizes, alternatives)
    counts = puddle_counts(question, palettes, seconds=seconds)
    counted = tuple(
        replace(size, puddles=count) for size, count in zip(sizes, counts, strict=False)
    )
    others = alternatives and replace(alternatives, puddles=counts[len(sizes) :])
    return counted, others


def _must_haves_can_be_bought(question: Question) -> None:
    """Raise ClashError if the must-have tubes are refused, too dear or too many."""
    refused_must_have(question)
    instance = question.instance
    price = instance.cost(instance.must_have)
    if price > instance.budget or len(instance.must_have) > instance.most_tubes:
        choice = search(instance, seconds=1.0)  # says so at once
        raise ClashError(clash_message(question, choice, seconds=1.0))


def _listed(sizes: Sequence[Size], alternatives: Alternatives | None) -> list[Palette]:
    """Return the palettes of all sizes, and behind them those near the best."""
    near = alternatives.near.palettes if alternatives else ()
    return [*(size.palette for size in sizes), *near]


def _of_fronts(floors: Sequence[FloorFront]) -> list[frozenset[int]]:
    """Return the tubes bought at all steps of coverage against cost, whatever floor they keep."""
    return [frozenset(step.palette.bought) for kept in floors for step in kept.front.steps]


def _nearest(question: Question, by_size: BySize, *, seconds: float) -> BySize:
    """Return the best of each size that come nearest to what they miss, where that is wished for.

    As `choose` does it: what is not proven stays, and is not proven where not all equals were
    looked at.
    """
    if not question.scenario.nearer:
        return by_size
    state = question.search_state
    state.deadline = time.monotonic() + seconds
    found: dict[tuple[int, ...], Nearest] = {}

    def settled(best: BestOfSize) -> BestOfSize:
        first = best.palettes[0]
        if not best.proven or misses_nothing(question, first):
            return best
        if first.bought not in found:
            found[first.bought] = nearest_of_equals(question, first, state=state)
        near = found[first.bought]
        return replace(
            best, palettes=near.palettes, complete=near.complete, proven=near.misses.complete
        )

    return replace(by_size, each=tuple(map(settled, by_size.each)))


def _sizes(question: Question, by_size: BySize) -> tuple[Size, ...]:
    palettes = [_preferred(question, best) for best in by_size.each]
    before = [palettes[0], *palettes[:-1]]
    return tuple(
        _size(question, best, palette, earlier)
        for best, palette, earlier in zip(by_size.each, palettes, before, strict=True)
    )


def _preferred(question: Question, best: BestOfSize) -> Palette:
    """Return the tie with the smallest mean match."""
    if len(best.palettes) == 1:
        return best.palettes[0]
    return min(
        best.palettes,
        key=lambda palette: mean_match(question, palette, matches_of(question, palette)),
    )


def _size(question: Question, best: BestOfSize, palette: Palette, before: Palette) -> Size:
    held = [
        question.tubes[number] for number in (*palette.bought, *_owned_in_use(question, palette))
    ]
    return Size(
        best=best,
        palette=palette,
        gained=tuple(sorted(set(palette.covered) - set(before.covered))),
        dropped=tuple(sorted(set(before.covered) - set(palette.covered))),
        lightfastness=max((tube.lightfastness for tube in held), default=None),
        transparency=max((question.transparencies[tube.id] for tube in held), default=None),
    )


def _owned_in_use(question: Question, palette: Palette) -> tuple[int, ...]:
    """Return the owned tubes, by number, that some mix for a colour covered holds."""
    if not question.owned:
        return ()
    matches = matches_of(question, palette)
    mixed = [match.recipe.tubes for t in palette.covered if (match := matches[t]) is not None]
    used = {question.numbers[id_] for ids in mixed for id_ in ids}
    return tuple(sorted(question.owned & used))


def _alternatives(
    question: Question, extent: Extent, sizes: tuple[Size, ...]
) -> Alternatives | None:
    """Return the near-best palettes of the size asked for."""
    size = _near_size(extent, sizes)
    if not size.palette.bought:
        return None
    near = near_best(
        question.instance,
        size.palette,
        best_proven=size.best.proven,
        size=size.best.size,
        loss=question.weight_within(extent.within),
        most=extent.near,
        seconds=NEAR_SHARE * extent.seconds,
    )
    return _around(size.palette, near)


def _near_size(extent: Extent, sizes: tuple[Size, ...]) -> Size:
    """Return the size of which near-best palettes are listed."""
    if extent.near_size is None:
        return sizes[-1]
    return next((size for size in sizes if size.best.size >= extent.near_size), sizes[-1])


def _around(own: Palette, near: NearBest) -> Alternatives:
    """Return palettes near one with what they have in common."""
    return Alternatives(
        own=own,
        near=near,
        shared=shared_tubes(near.palettes),
        groups=one_of_each(near.palettes),
        swaps=exchanges(own, near.palettes),
    )


def _beside(
    question: Question,
    extent: Extent,
    alternatives: Alternatives | None,
    sizes: tuple[Size, ...],
) -> Alternatives | None:
    """Return the near-best palettes beside the size asked for, which may since be a better one."""
    own = _near_size(extent, sizes).palette
    if alternatives is None or own == alternatives.own:
        return alternatives
    loss = question.weight_within(extent.within)
    return _around(own, near_another(alternatives.near, own, loss=loss, most=extent.near))
