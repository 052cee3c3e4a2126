"""Demands that cannot all be met: which of them clash, and how far each would have to give way."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import combinations

from fewtubes.selection.certificate import Status
from fewtubes.selection.extremes import Extreme, Small, smallest
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.model import meets_demands
from fewtubes.selection.search import search

__all__ = [
    "ClashReport",
    "Demand",
    "NearestFigure",
    "explain_clash",
    "fewest_tubes",
    "greatest_value",
    "smallest_budget",
]


class Demand(StrEnum):
    """A demand that a scenario can make."""

    MUST_HAVE = "must-have tubes"
    BUDGET = "budget"
    MOST_TUBES = "most tubes"
    LEAST_VALUE = "least value"


@dataclass(frozen=True)
class NearestFigure:
    """The nearest figure at which one demand, changed alone, could be met with all others.

    Parameters
    ----------
    demand
        The demand that gives way.
    figure
        Smallest budget [hundredths of the currency], fewest tubes, or greatest covered weight;
        None when no figure would do (PROVEN) or none was found in time (STOPPED).
    status
        PROVEN, or STOPPED: then the figure would do, but a nearer one may exist.
    """

    demand: Demand
    figure: int | None
    status: Status


@dataclass(frozen=True)
class ClashReport:
    """Why an instance cannot be solved.

    Parameters
    ----------
    clashes
        Every smallest set of demands that cannot be met together: without any one of its
        members, the rest of the set can. Empty when all demands can be met.
    complete
        Whether every set was settled in time; if not, a clash may hold a smaller one.
    remedies
        One for the budget, the number of tubes and the least value, in this order; empty when
        all demands can be met.
    """

    clashes: tuple[frozenset[Demand], ...]
    complete: bool
    remedies: tuple[NearestFigure, ...]


def explain_clash(instance: ChoiceInstance, *, seconds: float) -> ClashReport:
    """Say which demands of an instance clash, and how far each would have to give way.

    Parameters
    ----------
    instance
        The instance, feasible or not.
    seconds
        Time allowed for each of the questions asked of the exact search [s]; there are at most
        nine, and most are answered by addition alone.
    """
    clashes: list[frozenset[Demand]] = []
    complete = True
    for demands in _sets_of_demands():
        if any(clash <= demands for clash in clashes):
            continue
        status = _can_be_met(_only(instance, demands), seconds)
        if status is Status.INFEASIBLE:
            clashes.append(demands)
        complete = complete and status is not Status.STOPPED
    if not clashes and complete:
        return ClashReport((), True, ())
    remedies = tuple(
        find(instance, seconds=seconds) for find in (smallest_budget, fewest_tubes, greatest_value)
    )
    return ClashReport(tuple(clashes), complete, remedies)


def smallest_budget(instance: ChoiceInstance, *, seconds: float) -> NearestFigure:
    """Find the smallest budget at which every other demand can be met."""
    relaxed = replace(instance, budget=instance.any_money)
    extreme = smallest(relaxed, Small.COST, seconds=seconds)
    return _remedy(Demand.BUDGET, extreme)


def fewest_tubes(instance: ChoiceInstance, *, seconds: float) -> NearestFigure:
    """Find the fewest tubes with which every other demand can be met."""
    relaxed = replace(instance, most_tubes=instance.tube_count)
    extreme = smallest(relaxed, Small.TUBES, seconds=seconds)
    return _remedy(Demand.MOST_TUBES, extreme)


def greatest_value(instance: ChoiceInstance, *, seconds: float) -> NearestFigure:
    """Find the greatest covered weight that can be reached with every other demand met."""
    relaxed = replace(instance, least_value=0)
    choice = search(relaxed, seconds=seconds)
    certificate = choice.certificate
    if certificate.status is Status.INFEASIBLE:
        return NearestFigure(Demand.LEAST_VALUE, None, Status.PROVEN)
    figure = certificate.value if choice.palettes else None
    settled = figure is not None and figure == certificate.bound
    return NearestFigure(Demand.LEAST_VALUE, figure, Status.PROVEN if settled else Status.STOPPED)


def _remedy(demand: Demand, extreme: Extreme) -> NearestFigure:
    """Return an extreme figure as a remedy."""
    status = Status.STOPPED if extreme.status is Status.STOPPED else Status.PROVEN
    return NearestFigure(demand, extreme.figure, status)


def _sets_of_demands() -> Iterator[frozenset[Demand]]:
    """Yield every set of demands, the smaller ones first."""
    for size in range(1, len(Demand) + 1):
        for demands in combinations(Demand, size):
            yield frozenset(demands)


def _only(instance: ChoiceInstance, demands: frozenset[Demand]) -> ChoiceInstance:
    """Return the instance with all other demands dropped."""
    return replace(
        instance,
        must_have=instance.must_have if Demand.MUST_HAVE in demands else frozenset(),
        budget=instance.budget if Demand.BUDGET in demands else instance.any_money,
        most_tubes=instance.most_tubes if Demand.MOST_TUBES in demands else instance.tube_count,
        least_value=instance.least_value if Demand.LEAST_VALUE in demands else 0,
        # Doubles that are must-have may be bought, whether they must be or not.
        alike=instance.not_together,
        spare=frozenset(pair for pair in instance.spare if pair[1] not in instance.must_have),
    )


def _can_be_met(instance: ChoiceInstance, seconds: float) -> Status:
    """Return PROVEN if the demands can be met, INFEASIBLE if not, STOPPED if time ran out."""
    everything = instance.palette(range(instance.tube_count))
    fewest = instance.palette(instance.must_have)
    if meets_demands(instance, everything) or meets_demands(instance, fewest):
        return Status.PROVEN
    if everything.value < instance.least_value:
        return Status.INFEASIBLE
    # Where paint depends on the palette, others beside must-have tubes may make these cheaper.
    alone = meets_demands(replace(instance, least_value=0), fewest)
    if not alone and not instance.must_serve:
        return Status.INFEASIBLE
    small = Small.COST if instance.any_money > instance.budget else Small.TUBES
    extreme = smallest(instance, small, seconds=seconds)
    if extreme.status is Status.INFEASIBLE:
        return Status.INFEASIBLE
    return Status.PROVEN if extreme.figure is not None else Status.STOPPED
