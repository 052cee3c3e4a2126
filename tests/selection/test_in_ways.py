"""Goals in ways to buy: what is tightened holds for all, what is found is visited once."""

import time
from dataclasses import replace

from tests.exhaustive.terms_tried import Tried, draw_choice

from fewtubes.selection.explore import explore, explore_all
from fewtubes.selection.in_ways import goals_in_ways
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal
from fewtubes.selection.start import good_palette


def _rich(seed: int) -> Tried:
    """Return a choice without demands, to which all money is given."""
    one = draw_choice(seed)
    free = replace(one.instance, must_have=frozenset(), least_value=0)
    return replace(one, instance=replace(free, budget=free.any_money))


def test_each_palette_is_visited_once_and_at_its_true_cost() -> None:
    for seed in range(20):
        one = draw_choice(seed)
        state = start_search(one.instance, seconds=60)
        visited: list[tuple[tuple[int, ...], int]] = []
        slots = one.instance.most_tubes - len(one.instance.must_have)
        goal = Goal(1, slots, one.instance.budget)

        def visit(
            added: tuple[int, ...], _value: int, cost: int,
            visited: list[tuple[tuple[int, ...], int]] = visited, one: Tried = one,
        ) -> None:  # fmt: skip
            visited.append((tuple(sorted(one.instance.must_have.union(added))), cost))

        assert explore(state, goal, visit).complete
        assert len({bought for bought, _ in visited}) == len(visited)
        costs = {palette.bought: palette.cost for palette in one.palettes}
        assert all(costs[bought] == cost for bought, cost in visited)


def test_what_a_visitor_asks_for_holds_in_every_way() -> None:
    state = start_search(_rich(3).instance, seconds=60)
    assert state.buying is not None
    goal = Goal(1, 5, 10_000)
    in_ways = goals_in_ways(state.buying, [goal])
    goal.value, goal.slots, goal.money, goal.fading = 7, 2, 30, 1
    assert {(one.value, one.slots, one.money, one.fading) for one in in_ways} == {(7, 2, 30, 1)}


def test_two_goals_are_told_apart() -> None:
    """One asks for more than there is, the other for anything."""
    one = _rich(5)
    state = start_search(one.instance, seconds=60)
    everything = sum(one.instance.weights)
    goals = [Goal(everything + 1, 7, 10_000), Goal(1, 7, 10_000)]
    found: list[int] = []
    ends = explore_all(state, goals, lambda number, *_: found.append(number))
    assert all(end.complete for end in ends)
    assert set(found) == {1}


def test_what_there_was_no_time_to_cost_is_not_called_complete() -> None:
    """Only the palette of no tube is reached; what it is worth stays a bound."""
    one = next(o for o in map(_rich, range(200)) if any(s == ((),) for s in o.instance.minimal_sets)
               or o.instance.owned)  # fmt: skip
    state = start_search(one.instance, seconds=60)
    state.deadline = time.monotonic() - 1
    visited: list[int] = []
    end = explore(state, Goal(0, 0, 10_000), lambda _added, value, _cost: visited.append(value))
    assert not visited
    assert not end.complete


def test_a_good_palette_is_within_the_money() -> None:
    for seed in range(30):
        one = draw_choice(seed)
        instance = one.instance
        if instance.cost(instance.must_have) > instance.budget:
            continue
        slots = max(0, instance.most_tubes - len(instance.must_have))
        added = good_palette(start_search(instance, seconds=60), Goal(1, slots, instance.budget))
        assert instance.cost(instance.must_have.union(added)) <= instance.budget
        assert len(added) <= slots
