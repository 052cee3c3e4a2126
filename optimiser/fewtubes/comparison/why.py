"""Why these tubes: what hangs on each, what could stand in, what stays out of reach and why."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.comparison.hitting_sets import least_blocker, set_rows
from fewtubes.comparison.reasons import OneOfThese, Route, StandIn, TubeReason, Unreached, Why
from fewtubes.comparison.stand_in_price import stand_in_of
from fewtubes.comparison.stand_ins import Swap, best_swap, best_without
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Certificate, Status
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import best_value, start_search
from fewtubes.selection.search_state import SearchState
from fewtubes.shopping.choose import Chosen, choose, chosen_of
from fewtubes.shopping.clock import Clock
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample, PlannedTube
from fewtubes.shopping.planning import MixedChoice, plan_for
from fewtubes.shopping.puddling import mixed_for
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import TRADE_OFF_SHARE, Limits
from fewtubes.shopping.sourced import MOST_SOURCED
from fewtubes.shopping.sources import source_beside

__all__ = ["reasons_for", "why"]

MOST_SEVERAL = 3
"""Routes of several tubes of which the cost is counted where pictures are planned, for each colour:
each time it takes what is mixed, some 20 ms."""

WITHOUT_SHARE = 0.25
"""Share of the time limit for each tube that is taken to be not on sale."""

PROOF_OF_LEFT = 0.5
TRADE_OFF_OF_LEFT = 0.05
"""Shares of the time left that the proof, and each question about lightfastness or opacity, may
take at most where the time is for the whole answer."""


def why(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
) -> Why:
    """Find the best plan for a scenario and the reasons for it.

    Parameters
    ----------
    catalogue, scenario
        As read; the scenario refers to this catalogue.
    limits
        Time limit and method of proof; by default 60 s for the proof, and an hour for mixing.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere (see `default_cache`).

    Raises
    ------
    InputError
        If the catalogue does not hold what the scenario names.
    ClashError
        If the demands cannot all be met.
    LimitError
        If there is too little time or memory for mixing so many tubes.

    Examples
    --------
    >>> from fewtubes import Scenario, default_cache, read_catalogue, why
    >>> scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"])
    >>> reasons = why(read_catalogue(), scenario, cache=default_cache())
    >>> all(reason.without <= reasons.plan.coverage for reason in reasons.tubes)
    True
    """
    limits = limits or Limits()
    mixing = limits.mixing()
    tell = progress or (lambda _stage: None)
    question = pose(catalogue, scenario, cache=cache_of(cache), progress=tell, deadline=mixing)
    clock = limits.clock(mixing)
    tell("choosing the tubes and proving the choice")
    chosen = choose(question, seconds=clock.share(1.0, of_left=PROOF_OF_LEFT))
    seconds = clock.share(TRADE_OFF_SHARE, of_left=TRADE_OFF_OF_LEFT)

    def mixed_choice(chosen: Chosen) -> MixedChoice:
        mixed = mixed_for(question, chosen, seconds=seconds)
        return MixedChoice(replace(chosen, matches=mixed.matches), mixed.puddles)

    taken, plan = plan_for(
        question,
        mixed_choice(chosen),
        seconds=lambda: seconds,
        again=lambda choice: mixed_choice(chosen_of(question, choice, of_covered=True)),
    )
    return reasons_for(question, plan, taken.chosen.palette, clock=clock, progress=tell)


def reasons_for(
    question: Question,
    plan: Plan,
    palette: Palette,
    *,
    clock: Clock,
    progress: Callable[[str], None],
) -> Why:
    """Return the reasons for a plan, whether or not it is the best.

    Parameters
    ----------
    question, plan
        What was asked, and the answer to it.
    palette
        What that plan buys, with its figures.
    clock
        How the time left is shared among the tubes that are taken away.
    progress
        Called with a few words when that begins.
    """
    progress("taking each tube away in turn")
    seconds = clock.share(TRADE_OFF_SHARE, of_left=TRADE_OFF_OF_LEFT)
    state, values = (
        start_search(question.instance, seconds=seconds),
        CoveredWeight(question.instance),
    )
    without = [
        _without(question, state, planned, clock.share(WITHOUT_SHARE, of_left=1 / still))
        for planned, still in zip(plan.bought, range(len(plan.bought), 0, -1), strict=True)
    ]
    return Why(
        plan=plan,
        tubes=tuple(
            _reason(question, palette, planned, values, certificate)
            for planned, certificate in zip(plan.bought, without, strict=True)
        ),
        unreached=tuple(
            _unreached(question, palette, t, planned)
            for t, planned in enumerate(plan.samples)
            if not planned.covered
        ),
        one_of_these=_one_of_these(question, palette, plan),
    )


def _without(
    question: Question, state: SearchState, planned: PlannedTube, seconds: float
) -> Certificate:
    """Return the best choice if a tube were not on sale."""
    instance, number = question.instance, question.numbers[planned.tube.id]
    if number not in instance.must_have:
        return best_without(instance, state, number, seconds=seconds)
    rest = replace(question.instance_without(frozenset({number})), least_value=0)
    return best_value(rest, seconds=seconds)


def _reason(
    question: Question,
    palette: Palette,
    planned: PlannedTube,
    values: CoveredWeight,
    without: Certificate,
) -> TubeReason:
    """Return what hangs on one tube."""
    instance, bought = question.instance, palette.bought
    number = question.numbers[planned.tube.id]
    kept = set(instance.covered(frozenset(bought) - {number}))
    proven = without.status is Status.PROVEN
    return TubeReason(
        planned=planned,
        wished=number in instance.must_have,
        only_it_brings=tuple(question.samples[t] for t in palette.covered if t not in kept),
        without=values.share(without.value),
        without_bound=values.share(without.value if proven else without.bound),
        stand_in=_stand_in(
            question,
            values,
            best_swap(instance, values, bought, number),
            kept=frozenset(bought) - {number},
        ),
    )


def _stand_in(
    question: Question, values: CoveredWeight, swap: Swap | None, *, kept: frozenset[int]
) -> StandIn | None:
    """Return a swap with its tube, price beside the tubes kept, and coverage."""
    if swap is None:
        return None
    tube = question.tubes[swap.tube]
    return stand_in_of(question, tube, kept, values.share(swap.value))


def _unreached(question: Question, palette: Palette, t: int, planned: PlannedSample) -> Unreached:
    """Return what would bring a colour, by number."""
    held = question.owned.union(palette.bought)
    missing = {
        tuple(int(tube) for tube in row if tube >= 0 and int(tube) not in held)
        for row in question.sets[t]
    }
    bought = frozenset(palette.bought)
    sold = [tubes for tubes in missing if _is_sold(question, tubes)]
    costed = _worth_costing(question, sold)
    ranked = sorted((_route(question, tubes, bought) for tubes in costed), key=_rank_of_route)
    if len(costed) < len(sold):
        ranked = [replace(route, cheapest=False) for route in ranked]
    return Unreached(
        planned=planned,
        singles=_sourced(question, [one for one in ranked if len(one.tubes) == 1], bought),
        cheapest=next(iter(_sourced(question, ranked[:1], bought)), None),
    )


def _sourced(
    question: Question, routes: Sequence[Route], bought: frozenset[int]
) -> tuple[Route, ...]:
    """Return routes, those that are named with the sellers of their tubes."""
    if not question.catalogue.sellers:
        return tuple(routes)
    found = []
    for route in routes[:MOST_SOURCED]:
        beside = bought.union(question.numbers[tube.id] for tube in route.tubes)
        sources = tuple(source_beside(question, tube, beside) for tube in route.tubes)
        found.append(replace(route, sources=sources))
    return (*found, *routes[MOST_SOURCED:])


def _worth_costing(
    question: Question, routes: Sequence[tuple[int, ...]]
) -> Sequence[tuple[int, ...]]:
    """Return the routes whose cost is counted: all, but where each takes long few of several tubes.

    These are allowed ones first, and those whose tubes cost least by themselves.
    """
    if not question.instance.must_serve:
        return routes
    refused = {question.numbers[id_] for id_ in question.refused}
    several = sorted(
        (route for route in routes if len(route) > 1),
        key=lambda route: (
            not refused.isdisjoint(route),
            sum(question.cost(question.tubes[number]) for number in route),
            route,
        ),
    )
    return [*(route for route in routes if len(route) == 1), *several[:MOST_SEVERAL]]


def _is_sold(question: Question, tubes: tuple[int, ...]) -> bool:
    """Whether every tube has packs in the scenario's currency or is owned."""
    owned = set(question.scenario.wishes.all_owned)
    return all(question.tubes[n].id in owned or question.is_sold(question.tubes[n]) for n in tubes)


def _route(question: Question, numbers: tuple[int, ...], bought: frozenset[int]) -> Route:
    """Return tubes to add to those bought; owned ones that the wishes set aside cost nothing."""
    tubes = tuple(question.tubes[number] for number in numbers)
    owned = set(question.scenario.wishes.all_owned)
    cost = sum(
        question.cost_beside(tube, bought.union(numbers[:place]))
        for place, tube in enumerate(tubes)
        if tube.id not in owned
    )
    return Route(
        tubes=tubes,
        cost=cost,
        in_set=not cost and not owned.issuperset(tube.id for tube in tubes),
        refusals=tuple(question.refused.get(tube.id) for tube in tubes),
    )


def _rank_of_route(route: Route) -> tuple[bool, int, int, tuple[str, ...]]:
    """Return what routes are ordered by: allowed, cheap, few."""
    ids = tuple(tube.id for tube in route.tubes)
    return (not route.allowed, route.cost, len(route.tubes), ids)


def _one_of_these(question: Question, palette: Palette, plan: Plan) -> tuple[OneOfThese, ...]:
    """Return the small sets of which one must be bought, each with all its colours."""
    instance = question.instance
    colours: dict[tuple[int, ...], list[PlannedSample]] = {}
    for sets, planned in zip(instance.minimal_sets, plan.samples, strict=True):
        blocker = least_blocker(set_rows(sets, instance.owned, instance.tube_count))
        if blocker is not None:
            colours.setdefault(blocker, []).append(planned)
    return tuple(
        OneOfThese(
            tubes=tuple(question.tubes[n] for n in numbers),
            bought=tuple(question.tubes[n] for n in numbers if n in palette.bought),
            samples=tuple(colours[numbers]),
        )
        for numbers in sorted(colours, key=lambda numbers: (len(numbers), numbers))
    )
