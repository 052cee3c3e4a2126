"""The fewest sets that cover all, against exhaustive search over every choice of sets."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fewtubes.selection import covering, covering_program
from fewtubes.selection.covering import (
    NOT_COVERED,
    CostArray,
    CoverInstance,
    greedy_cover,
    sure_bound,
    undominated,
)
from fewtubes.selection.covering_program import MOST_EQUALS, fewest_cover

OUT = NOT_COVERED
COST = st.one_of(st.just(OUT), st.integers(0, 4))


@st.composite
def instances(draw: st.DrawFn) -> CoverInstance:
    """Return an instance of up to seven sets and six items, each of which can be covered."""
    items = draw(st.integers(1, 6))
    rows = draw(st.lists(st.lists(COST, min_size=items, max_size=items), min_size=1, max_size=7))
    free = draw(st.lists(st.sampled_from([OUT, OUT, OUT, 0, 3]), min_size=items, max_size=items))
    costs = table(rows)
    costs[0, (costs >= OUT).all(axis=0) & (np.array(free) >= OUT)] = 2
    return CoverInstance(costs, np.array(free, dtype=np.int64))


def table(rows: list[list[int]]) -> CostArray:
    """Return costs, shape (sets, items)."""
    return np.array(rows, dtype=np.int64)


def every_cover(instance: CoverInstance) -> list[tuple[int, int, tuple[int, ...]]]:
    """Return number, cost and sets of every cover there is, best first."""
    places = range(len(instance.costs))
    tried = [sets for size in range(len(places) + 1) for sets in combinations(places, size)]
    costs = [(len(sets), instance.cost_of(sets), sets) for sets in tried]
    return sorted(found for found in costs if found[1] < OUT)


@settings(max_examples=60, deadline=None)
@given(instance=instances(), most_tried=st.sampled_from([0, covering.MOST_TRIED]))
def test_it_finds_what_trying_every_choice_finds(instance: CoverInstance, most_tried: int) -> None:
    """The program and trying a few choices by itself alike."""
    number, cost, _ = every_cover(instance)[0]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(covering, "MOST_TRIED", most_tried)
        cover = fewest_cover(instance, seconds=10)
        fewest = fewest_cover(instance, seconds=10, cheapest=False)
    assert cover.proven
    assert cover.cheapest
    assert cover.bound == number
    assert {(len(sets), instance.cost_of(sets)) for sets in cover.equals} == {(number, cost)}
    assert len(set(cover.equals)) == len(cover.equals)
    assert (len(fewest.sets), fewest.bound) == (number, number)
    assert instance.cost_of(fewest.sets) < OUT


@settings(max_examples=30, deadline=None)
@given(instance=instances())
def test_the_program_lists_what_trying_all_lists(instance: CoverInstance) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(covering, "MOST_TRIED", 0)
        listed = fewest_cover(instance, seconds=10).equals
    tried = fewest_cover(instance, seconds=10).equals
    assert len(listed) == len(tried)
    if len(tried) < MOST_EQUALS:
        assert set(listed) == set(tried)


@settings(max_examples=60, deadline=None)
@given(instance=instances())
def test_what_is_left_out_beforehand_is_never_needed(instance: CoverInstance) -> None:
    kept = undominated(instance.costs)
    fewer = CoverInstance(instance.costs[kept], instance.free)
    assert every_cover(fewer)[0][:2] == every_cover(instance)[0][:2]
    assert instance.cost_of(greedy_cover(instance)) < OUT


def test_more_sets_than_a_block_are_compared_with_each_other() -> None:
    """Costs (k, 300 − k) are each nearer for one item; the same with 1 more for both is not."""
    rows = [[k, 300 - k] for k in range(300)] + [[k + 1, 301 - k] for k in range(300)]
    assert undominated(table(rows)) == list(range(300))


def test_all_that_rank_equal_are_listed_and_cheaper_ones_alone() -> None:
    """By hand: two sets are needed; {0, 1}, {0, 2} cost 1 + 1 + 1, {0, 3} costs 1 + 1 + 2."""
    instance = CoverInstance(
        table([[1, 1, OUT], [OUT, OUT, 1], [OUT, OUT, 1], [OUT, OUT, 2]]), np.full(3, OUT)
    )
    cover = fewest_cover(instance, seconds=10)
    assert set(cover.equals) == {(0, 1), (0, 2)}


def test_fewer_sets_go_before_any_cost() -> None:
    """One set at 1,000 an item, against two at nothing."""
    rows = [[1000, 1000], [0, OUT], [OUT, 0]]
    assert fewest_cover(CoverInstance(table(rows), np.full(2, OUT)), seconds=10).sets == (0,)


def test_where_few_choices_are_possible_no_program_is_built(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """So that a few colours cost no time; what is more than `MOST_TRIED` is left to the program."""
    instance = CoverInstance(table([[1, OUT], [OUT, 1], [2, 2], [0, 3]]), np.full(2, OUT))
    assert covering.best_covers(instance) == [(3,)]  # 0 + 3 costs less than 2 + 2
    monkeypatch.setattr(covering_program, "_Run", None)
    assert fewest_cover(instance, seconds=10).sets == (3,)
    monkeypatch.setattr(covering, "MOST_TRIED", 4)  # none and one are 1 + 4 choices
    assert covering.best_covers(instance) is None


def test_what_is_free_needs_no_set() -> None:
    instance = CoverInstance(table([[0, 0]]), np.array([3, 3]))
    cover = fewest_cover(instance, seconds=10)
    assert (cover.sets, cover.bound, cover.proven) == ((), 0, True)


def test_an_item_that_nothing_holds_is_refused() -> None:
    with pytest.raises(ValueError, match="no set holds the items \\[1\\]"):
        CoverInstance(table([[0, OUT]]), np.full(2, OUT))


def test_without_time_it_answers_and_proves_nothing() -> None:
    rows = [[0, 0, OUT, OUT], [OUT, OUT, 0, 0], [0, OUT, 0, OUT]]
    instance = CoverInstance(table(rows), np.full(4, OUT))
    cover = fewest_cover(instance, seconds=0)
    assert cover.sets == (0, 1)
    assert (cover.bound, cover.proven, cover.cheapest) == (1, False, False)


def test_what_branches_stop_stands_and_is_the_same_at_any_time(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Thirty random sets of twenty items (fixed); HiGHS is stopped before its first branch."""
    rng = np.random.default_rng(5)
    costs = np.where(rng.random((30, 20)) < 0.2, rng.integers(0, 400, (30, 20)), OUT)
    costs[0, (costs >= OUT).all(axis=0)] = 3
    instance = CoverInstance(costs.astype(np.int64), np.full(20, OUT))
    proven = fewest_cover(instance, seconds=60)
    monkeypatch.setattr(covering_program, "MOST_NODES", 0)
    stopped = fewest_cover(instance, seconds=60)
    assert stopped == fewest_cover(instance, seconds=600)
    assert not stopped.cheapest
    assert instance.cost_of(stopped.sets) < OUT
    assert stopped.bound <= len(proven.sets) <= len(stopped.sets)


@settings(max_examples=60, deadline=None)
@given(instance=instances())
def test_no_cover_has_fewer_sets_than_the_sure_bound(instance: CoverInstance) -> None:
    number = every_cover(instance)[0][0]
    assert sure_bound(instance) <= number
    assert (sure_bound(instance) > 0) == (number > 0)


def test_items_that_share_no_set_are_counted() -> None:
    """Three items, each in a set of its own; and a ring of three that two sets hold."""
    apart = CoverInstance(np.where(np.eye(3, dtype=bool), 1, OUT), np.full(3, OUT))
    assert sure_bound(apart) == 3
    ring = table([[0, 0, OUT], [OUT, 0, 0], [0, OUT, 0]])
    assert sure_bound(CoverInstance(ring, np.full(3, OUT))) == 2
    assert sure_bound(CoverInstance(table([[0, 0, 0]]), np.full(3, OUT))) == 1
    assert sure_bound(CoverInstance(table([[0, 0, 0]]), np.zeros(3, dtype=np.int64))) == 0
