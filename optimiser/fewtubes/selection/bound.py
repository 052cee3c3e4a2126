"""How much a palette could still cover: a Lagrangian bound over many branches at once.

For a branch with tubes P held and the others free or ruled out, every sample t not covered has
blockers h (sets of which one must be bought), so y_t ≤ Σ_{i∈h} x_i. Charging u_h ≥ 0 to each, with
Σ_{h of t} u_h ≤ w_t, gives for every choice of u

    value ≤ covered + Σ_t (w_t − Σ_{h of t} u_h)
            + max { Σ_i g_i x_i : Σ x_i ≤ slots, Σ p_i x_i ≤ money }

with g_i = Σ_{h∋i} u_h. The maximum is bounded by the best `slots` gains and by the fractional
knapsack; u is improved by subgradient steps (Held, Wolfe, Crowder, Mathematical Programming 6,
1974, 62–88). A tube whose presence, or absence, would sink the bound below the value sought is
ruled out, or bought.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.masks import BoolArray
from fewtubes.selection.blockers import Rows
from fewtubes.selection.packed import IntArray

__all__ = ["Bounds", "Branches", "bound_branches"]

LEAST_PRICE = 1e-3
"""Stands for a price of 0, by which gains cannot be divided."""

STEP_SHRINK = np.float32(0.9)
"""Factor on the step length from step to step."""


@dataclass(frozen=True, eq=False)
class Branches:
    """What the bound needs of each branch (first axis: branches)."""

    base: IntArray
    """Covered weight, shape (branches,)."""
    weights: Rows
    """Weight of each sample that is neither covered nor lost, else 0, shape (branches, m)."""
    free: BoolArray
    """Tubes that may still be bought, shape (branches, n)."""
    slots: IntArray
    """Tubes that may still be bought, shape (branches,)."""
    money: IntArray
    """Price that may still be paid, shape (branches,)."""
    alive: BoolArray
    """Blockers without a tube held, of samples with weight, shape (branches, blockers)."""
    charges: Rows
    """Charges u to begin with, shape (branches, blockers)."""


@dataclass(frozen=True, eq=False)
class Bounds:
    """The outcome for each branch."""

    value: IntArray
    """Upper bound on the covered weight, shape (branches,)."""
    charges: Rows
    """The charges u that gave it, shape (branches, blockers)."""
    refused: BoolArray
    """Free tubes with which the target cannot be reached, shape (branches, n)."""
    required: BoolArray
    """Free tubes without which it cannot be reached, shape (branches, n)."""


@dataclass(frozen=True, eq=False)
class _Knapsack:
    """An upper bound on the gains that can be bought, and each tube's price in it."""

    value: Rows
    taken: Rows
    """Share of each tube taken, shape (branches, n)."""
    with_tube: Rows
    """Bound when the tube must be taken, shape (branches, n)."""
    without_tube: Rows
    """Bound when it must not, shape (branches, n)."""


def bound_branches(
    branches: Branches,
    rows: Rows,
    samples: npt.NDArray[np.intp],
    prices: IntArray,
    target: IntArray,
    *,
    steps: int,
) -> Bounds:
    """Bound each branch, stopping early on those that cannot reach the target.

    Parameters
    ----------
    rows, samples
        The blockers, shapes (blockers, n) and (blockers,).
    prices
        Price of each tube, shape (n,).
    target
        Covered weight that is sought in each branch, shape (branches,).
    steps
        Subgradient steps.
    """
    price = np.maximum(prices, LEAST_PRICE).astype(np.float32)
    order = np.argsort(samples, kind="stable")
    starts = np.flatnonzero(np.diff(samples[order], prepend=-1))
    groups = (order, starts, samples[order][starts])
    total = branches.weights.sum(axis=1, dtype=np.float64)
    u = _within_weights(np.where(branches.alive, branches.charges, 0), branches.weights, groups)
    best = branches.base + total  # u = 0
    best_u = np.zeros_like(u)
    n = rows.shape[1]
    margin = _rounding(branches.base + total)
    refused = np.zeros((len(total), n), dtype=np.bool_)
    required = np.zeros_like(refused)
    step = np.float32(1.0)
    for _ in range(steps):
        gains = np.where(branches.free & ~refused, u @ rows, 0)
        knapsack = _knapsack(gains, price, branches.slots, branches.money)
        fixed = branches.base + total - u.sum(axis=1, dtype=np.float64)
        bound = fixed + knapsack.value
        missing = (target - fixed - margin)[:, None]
        refused |= branches.free & (knapsack.with_tube < missing)
        required |= branches.free & (knapsack.without_tube < missing)
        better = bound < best
        best = np.where(better, bound, best)
        best_u = np.where(better[:, None], u, best_u)
        if (best + margin < target).all():
            break
        slope = np.where(branches.alive, 1 - knapsack.taken @ rows.T, 0)
        # At the upper limit of a sample's charges a rise is no way down.
        length = np.maximum((slope * slope).sum(axis=1), 1e-6)
        stride = step * np.maximum(bound - target + 1, 1) / length
        u = u + stride.astype(np.float32)[:, None] * slope
        u = _within_weights(np.maximum(u, 0), branches.weights, groups)
        step *= STEP_SHRINK
    reachable = branches.base + total.astype(np.int64)
    return Bounds(
        value=np.minimum(np.floor(best + margin).astype(np.int64), reachable),
        charges=best_u,
        refused=refused,
        required=required & ~refused,
    )


def _rounding(most: FloatArray) -> FloatArray:
    """Return an allowance for rounding in single precision, from all that is at stake."""
    return 1e-5 * most + 0.25


def _within_weights(u: Rows, weights: Rows, groups: tuple[npt.NDArray[np.intp], ...]) -> Rows:
    """Scale the charges of each sample down to its weight where they exceed it."""
    order, starts, grouped = groups
    if len(order) == 0:
        return u
    sums = np.add.reduceat(u[:, order], starts, axis=1)
    scale = np.ones_like(weights)
    scale[:, grouped] = weights[:, grouped] / np.maximum(
        sums, np.maximum(weights[:, grouped], 1e-9)
    )
    sample_of = np.empty(len(order), dtype=np.intp)
    sample_of[order] = np.repeat(grouped, np.diff(np.append(starts, len(order))))
    return np.asarray(u * scale[:, sample_of])


def _knapsack(gains: Rows, price: Rows, slots: IntArray, money: IntArray) -> _Knapsack:
    """Bound the gains that can be bought by count and by money; the smaller one counts."""
    by_count = _best_by_count(gains, slots)
    by_money = _best_by_money(gains, price, money)
    pick = (by_count.value <= by_money.value)[:, None]
    return _Knapsack(
        value=np.minimum(by_count.value, by_money.value),
        taken=np.where(pick, by_count.taken, by_money.taken),
        with_tube=np.minimum(by_count.with_tube, by_money.with_tube),
        without_tube=np.minimum(by_count.without_tube, by_money.without_tube),
    )


def _best_by_count(gains: Rows, slots: IntArray) -> _Knapsack:
    """Take the `slots` largest gains."""
    n = gains.shape[1]
    slots = np.minimum(slots, n)
    ranked = -np.sort(-gains, axis=1)
    sums = np.concatenate([np.zeros((len(gains), 1), np.float32), ranked.cumsum(axis=1)], axis=1)
    value = np.take_along_axis(sums, slots[:, None], axis=1)
    padded = np.concatenate([ranked, np.zeros((len(gains), 1), np.float32)], axis=1)
    last = np.take_along_axis(padded, np.maximum(slots - 1, 0)[:, None], axis=1)
    following = np.take_along_axis(padded, slots[:, None], axis=1)
    taken = gains >= last
    return _Knapsack(
        value=value[:, 0],
        taken=_ranked_first(gains, slots),
        with_tube=np.where(taken, value, value - last + gains),
        without_tube=np.where(taken, value - gains + following, value),
    )


def _ranked_first(gains: Rows, slots: IntArray) -> Rows:
    """Return 1 for the `slots` largest gains of each row, else 0."""
    order = np.argsort(-gains, axis=1, kind="stable")
    rank = np.empty_like(order)
    np.put_along_axis(rank, order, np.arange(gains.shape[1])[None], axis=1)
    return (rank < slots[:, None]).astype(np.float32)


def _best_by_money(gains: Rows, price: Rows, money: IntArray) -> _Knapsack:
    """Fill the money with the best gains per price, the last one in part (Dantzig 1957)."""
    order = np.argsort(-gains / price, axis=1)
    paid = price[order].cumsum(axis=1)
    sorted_gains = np.take_along_axis(gains, order, axis=1)
    room = money[:, None].astype(np.float32) + np.float32(0.5)  # for LEAST_PRICE (up to 500 tubes)
    share = np.clip((room - paid) / price[order] + 1, 0, 1)
    value = (share * sorted_gains).sum(axis=1, keepdims=True)
    taken = np.empty_like(gains)
    np.put_along_axis(taken, order, share.astype(np.float32), axis=1)
    broken = np.minimum((paid <= room).sum(axis=1, keepdims=True), gains.shape[1] - 1)
    rate = (
        np.take_along_axis(sorted_gains, broken, axis=1)
        / price[np.take_along_axis(order, broken, axis=1)]
    )
    surplus = gains - rate * price  # gain of a tube above what its price would bring elsewhere
    all_fit = paid[:, -1:] <= room
    surplus = np.where(all_fit, gains, surplus)
    return _Knapsack(
        value=value[:, 0],
        taken=taken,
        with_tube=value + np.minimum(surplus, 0),
        without_tube=value - np.maximum(surplus, 0),
    )
