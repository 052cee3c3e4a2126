"""What it costs to ask that every tube be lasting, or transparent.

Each floor has its own front of coverage against cost; beside the front without it, it tells the
coverage lost within the budget, and the money that would win it back.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from fewtubes.catalogue.records import Lightfastness, Tube
from fewtubes.comparison.front import fronts
from fewtubes.comparison.front_steps import Front, FrontStep
from fewtubes.mixing.opacity import Transparency
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.shopping.question import Question

__all__ = ["CostOfFloor", "Floor", "FloorFront", "cost_of_floor", "floor_fronts"]

Floor = Lightfastness | Transparency
"""The worst grade that is still used."""

LIGHTFASTNESS_FLOORS = (Lightfastness.III, Lightfastness.II, Lightfastness.I)
TRANSPARENCY_FLOORS = (
    Transparency.SEMI_OPAQUE,
    Transparency.SEMI_TRANSPARENT,
    Transparency.TRANSPARENT,
)


@dataclass(frozen=True, eq=False)
class FloorFront:
    """The front of the palettes that keep a floor.

    Parameters
    ----------
    floor
        None stands for the scenario's own wishes alone.
    front
        No steps if a must-have tube does not keep the floor.
    in_the_way
        The must-have tubes that do not keep it.
    set_aside
        Owned tubes that would stay in the box.
    """

    floor: Floor | None
    front: Front
    in_the_way: tuple[Tube, ...]
    set_aside: tuple[Tube, ...]


@dataclass(frozen=True)
class CostOfFloor:
    """What a floor costs at a budget.

    Parameters
    ----------
    lost
        Covered weight that is lost within the budget; None if nothing can be bought within it.
    lost_proven
        Whether both values are proven.
    extra
        Money beyond what the same coverage costs without the floor [hundredths of the currency];
        None if the floor keeps that coverage out of reach at any price.
    extra_proven
        Whether that is proven.
    """

    lost: int | None
    lost_proven: bool
    extra: int | None
    extra_proven: bool


def cost_of_floor(free: Front, kept: Front, budget: int) -> CostOfFloor | None:
    """Return what keeping a floor costs at a budget; None if nothing is within it without.

    Parameters
    ----------
    free, kept
        The fronts without and with the floor.
    """
    best, best_kept = free.within(budget), kept.within(budget)
    if best is None:
        return None
    wanted = best.palette.value
    cheapest, cheapest_kept = free.reaching(wanted), kept.reaching(wanted)
    lost, extra = None, None
    if best_kept is not None:
        lost = wanted - best_kept.palette.value
    if cheapest is not None and cheapest_kept is not None:
        extra = cheapest_kept.palette.cost - cheapest.palette.cost
    # Who keeps a floor never fares better than who need not: a cost of 0 is proven without
    # more.
    lost_sure = lost == 0 or best_kept is None or best_kept.sure_up_to_next
    return CostOfFloor(
        lost=lost,
        lost_proven=best.sure_up_to_next and lost_sure,
        extra=extra,
        extra_proven=best.proven and (extra == 0 or _reach_proven(kept, cheapest_kept)),
    )


def _reach_proven(front: Front, step: FrontStep | None) -> bool:
    """Whether it is proven that a step is the cheapest of its value, or that there is none."""
    if step is not None:
        return step.proven
    return not front.steps or front.steps[-1].sure_up_to_next


def floor_fronts(
    question: Question, *, seconds: float, known: Sequence[frozenset[int]] = ()
) -> tuple[FloorFront, ...]:
    """Return the front of the scenario's own wishes, then that of every floor above them.

    Parameters
    ----------
    question
        What is asked.
    seconds
        Time for all fronts together [s].
    known
        Numbers of the tubes bought in palettes found elsewhere; no front falls behind them.
    """
    refused = frozenset(question.numbers[id_] for id_ in question.refused)
    floors: list[Floor | None] = [None, *_floors_above(question)]
    barred = [refused | _below(question, floor) for floor in floors]
    found = fronts(
        question.instance,
        barred,
        seconds=seconds,
        known=known,
        with_owned=partial(_with_owned, question),
    )
    return tuple(
        FloorFront(
            floor=floor,
            front=front,
            in_the_way=_tubes(question, sorted(question.instance.must_have & tubes)),
            set_aside=_tubes(question, sorted(question.owned & tubes)),
        )
        for floor, front, tubes in zip(floors, found, barred, strict=True)
    )


def _with_owned(question: Question, owned: frozenset[int]) -> ChoiceInstance:
    """Return the choice with some of the owned tubes alone, by number; none of others is mixed."""
    known = question.instance
    terms, unused = known.terms, question.owned - owned
    if terms is not None and terms.needs_of is not None and unused:
        terms = replace(terms, needs_of=question.paint.needs_without(unused))
    return replace(known, owned=owned, terms=terms)


def _floors_above(question: Question) -> Iterator[Floor]:
    """Yield the floors that ask for more than the scenario does, the least strict first."""
    wishes = question.scenario.wishes
    for lasting in LIGHTFASTNESS_FLOORS:
        if wishes.lightfastness_floor is None or lasting < wishes.lightfastness_floor:
            yield lasting
    for clear in TRANSPARENCY_FLOORS:
        if wishes.transparency_floor is None or clear < wishes.transparency_floor:
            yield clear


def _below(question: Question, floor: Floor | None) -> frozenset[int]:
    """Return the tubes that do not keep a floor."""
    if floor is None:
        return frozenset()
    if isinstance(floor, Lightfastness):
        return frozenset(n for n, tube in enumerate(question.tubes) if tube.lightfastness > floor)
    grades = question.transparencies
    return frozenset(n for n, tube in enumerate(question.tubes) if grades[tube.id] > floor)


def _tubes(question: Question, numbers: Sequence[int]) -> tuple[Tube, ...]:
    return tuple(question.tubes[number] for number in numbers)
