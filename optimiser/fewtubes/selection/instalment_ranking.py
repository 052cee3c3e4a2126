"""Of orders of buying that are worth as much, the one that ranks first."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from fewtubes.selection.instalment_prefixes import Prefix, Prefixes
from fewtubes.selection.search_state import Goal

__all__ = ["first_ranked"]

Key = tuple[int | tuple[int, ...] | tuple[tuple[int, ...], ...], ...]


def first_ranked(
    prefixes: Prefixes, equals: Sequence[Prefix]
) -> Iterator[tuple[tuple[int, ...], ...]]:
    """Yield the palettes, time by time, of the order of buying that ranks first.

    Number of tubes in the end, fading ones and cost are settled in turn, each among all that are
    equal by then; what follows is compared one by one.

    Parameters
    ----------
    prefixes
        The instance.
    equals
        Beginnings up to the last time but one, all of which come to the same weighted value.
    """
    goals = _fewest_tubes(prefixes, equals)
    if prefixes.problem.instance.fading:
        goals = _fewest_fading(prefixes, goals)
    best: tuple[Key, tuple[tuple[int, ...], ...]] | None = None

    def visit(number: int, tubes: tuple[int, ...], _value: int, cost: int) -> None:
        nonlocal best
        for goal in goals:
            goal.money = min(goal.money, cost)
        key = _key(prefixes, equals[number], tubes, cost)
        if best is None or key < best[0]:
            best = key, (*equals[number].path, tubes)

    prefixes.explore(goals, visit)
    if best is not None:
        yield best[1]


def _goals(prefixes: Prefixes, equals: Sequence[Prefix], slots: int) -> list[Goal]:
    """Return what each beginning may end with in so many tubes at no loss."""
    last = prefixes.problem.times - 1
    return [
        Goal(
            prefixes.may_reach(prefix.tubes, last),
            slots,
            prefixes.problem.money[last],
            begun=prefixes.begun(prefix.tubes, last),
        )
        for prefix in equals
    ]


def _fewest_tubes(prefixes: Prefixes, equals: Sequence[Prefix]) -> list[Goal]:
    """Return goals that allow the fewest tubes in the end, counting up."""
    last = prefixes.problem.times - 1
    slots = min(len(prefixes.begun(prefix.tubes, last)) for prefix in equals)
    found = False
    while True:
        goals = _goals(prefixes, equals, slots)

        def visit(
            _number: int, _tubes: tuple[int, ...], _value: int, _cost: int,
            goals: Sequence[Goal] = goals,
        ) -> None:  # fmt: skip
            nonlocal found
            found = True
            for goal in goals:
                goal.slots = -1  # one is enough

        prefixes.explore(goals, visit)
        if found:
            return _goals(prefixes, equals, slots)
        slots += 1


def _fewest_fading(prefixes: Prefixes, goals: Sequence[Goal]) -> list[Goal]:
    """Return goals that allow the fewest fading tubes of as many."""
    instance = prefixes.problem.instance
    fewest = len(instance.fading)

    def visit(_number: int, tubes: tuple[int, ...], _value: int, _cost: int) -> None:
        nonlocal fewest
        fewest = min(fewest, len(instance.fading.intersection(tubes)))
        for goal in sought:
            goal.fading = fewest - 1

    sought = [replace(goal) for goal in goals]
    prefixes.explore(sought, visit)
    return [replace(goal, fading=fewest) for goal in goals]


def _key(prefixes: Prefixes, prefix: Prefix, tubes: tuple[int, ...], cost: int) -> Key:
    """Return how an order ranks among those worth as much, as `BuyingOrder.rank` has it."""
    fades = [prefixes.problem.instance.fades[tube] for tube in tubes]
    return (
        cost,
        max(fades, default=0),
        sum(fades),
        tuple(-value for value in prefix.values),
        prefix.costs,
        (*prefix.path, tubes),
    )
