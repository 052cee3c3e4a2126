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

No rounding can sink the bound below a value that is there:

- Charges are whole numbers of grains, and all weights together are less than 2^24 grains
  (`PackedSets.grain`). Each gain is a sum of charges of samples not covered, in all at most their
  weights: so every partial sum of a product u @ rows, in whatever order it is taken, is a whole
  number below 2^24, which single precision holds exactly.
- `_within_limits` keeps the charges of each sample within its weight, in exact numbers (see there).
  The steps that choose u may round as they like, since any u within the weights gives a bound.
- Weights are whole numbers of at most 2^53 in all, and a grain is a power of 2: covered +
  Σ (w_t − Σ u_h) is exact in doubles.
- By number: sums of the largest gains are exact in doubles.
- By money, for any rate λ ≥ 0, Σ g_i x_i ≤ λ · money + Σ max(0, g_i − λ p_i) (weak duality), and
  what a tube taken or left out loses changes only its own term. This alone is rounded. A free tube
  costs no more than the money, so g_i and λ p_i are at most twice the result; n + 1 such terms are
  off by less than 4 (n + 1) 2^-52 of it together, which is less than `ROUNDING` of it for n up to
  a million.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.masks import BoolArray
from fewtubes.selection.blockers import Rows
from fewtubes.selection.finite_product import finite_product
from fewtubes.selection.packed import IntArray

__all__ = ["Bounds", "Branches", "bound_branches"]

LEAST_PRICE = 1e-3
"""Stands for a price of 0 in the order of gains for money, by which they cannot be divided."""

ROUNDING = 1e-9
"""Share of a figure in doubles that is allowed for rounding; see above."""

SAFE = 1 - 2**-22
"""Factor on charges that are scaled down; see `_within_limits`."""

STEP_SHRINK = np.float32(0.9)
"""Factor on the step length from step to step."""


@dataclass(frozen=True, eq=False)
class Branches:
    """What the bound needs of each branch (first axis: branches)."""

    base: IntArray
    """Covered weight, shape (branches,)."""
    weights: IntArray
    """Weight of each sample that is neither covered nor lost, else 0, shape (branches, m)."""
    limits: Rows
    """The same in whole grains, rounded down."""
    grain: float
    """A power of 2; see `PackedSets`."""
    free: BoolArray
    """Tubes that may still be bought, shape (branches, n)."""
    slots: IntArray
    """Tubes that may still be bought, shape (branches,)."""
    prices: IntArray
    """Price of each tube, shape (n,), or (branches, n) where they differ from branch to branch."""
    money: IntArray
    """Price that may still be paid, shape (branches,)."""
    alive: BoolArray
    """Blockers without a tube held, of samples with weight, shape (branches, blockers)."""
    charges: Rows
    """Charges u to begin with [grains], shape (branches, blockers)."""


@dataclass(frozen=True, eq=False)
class Bounds:
    """The outcome for each branch."""

    value: IntArray
    """Upper bound on the covered weight, shape (branches,)."""
    charges: Rows
    """The charges u that gave it [grains], shape (branches, blockers)."""
    refused: BoolArray
    """Free tubes with which the target cannot be reached, shape (branches, n)."""
    required: BoolArray
    """Free tubes without which it cannot be reached, shape (branches, n)."""


@dataclass(frozen=True, eq=False)
class _Knapsack:
    """An upper bound on the gains that can be bought, and each tube's price in it."""

    value: FloatArray
    """In grains, as all of these, shape (branches,)."""
    taken: Rows
    """Share of each tube taken, shape (branches, n)."""
    with_tube: FloatArray
    """Bound when the tube must be taken, shape (branches, n)."""
    without_tube: FloatArray
    """Bound when it must not, shape (branches, n)."""


def bound_branches(
    branches: Branches,
    rows: Rows,
    samples: npt.NDArray[np.intp],
    target: IntArray,
    *,
    steps: int,
) -> Bounds:
    """Bound each branch, stopping early on those that cannot reach the target.

    Parameters
    ----------
    rows, samples
        The blockers, shapes (blockers, n) and (blockers,).
    target
        Covered weight that is sought in each branch, shape (branches,).
    steps
        Subgradient steps.
    """
    grain = branches.grain
    order = np.argsort(samples, kind="stable")
    starts = np.flatnonzero(np.diff(samples[order], prepend=-1))
    groups = (order, starts, samples[order][starts])
    total = branches.base + branches.weights.sum(axis=1)
    u = _within_limits(np.where(branches.alive, branches.charges, 0), branches.limits, groups)
    best = total.astype(np.float64)  # u = 0
    best_u = np.zeros_like(u)
    refused = np.zeros((len(total), rows.shape[1]), dtype=np.bool_)
    required = np.zeros_like(refused)
    step = np.float32(1.0)
    for _ in range(steps):
        gains = np.where(branches.free & ~refused, finite_product(u, rows), 0)
        knapsack = _knapsack(gains, branches.prices, branches.slots, branches.money)
        fixed = total - grain * u.sum(axis=1, dtype=np.float64)
        bound = fixed + grain * knapsack.value
        missing = ((target - fixed) / grain)[:, None]
        refused |= branches.free & (knapsack.with_tube < missing)
        required |= branches.free & (knapsack.without_tube < missing)
        better = bound < best
        best = np.where(better, bound, best)
        best_u = np.where(better[:, None], u, best_u)
        if (best < target).all():
            break
        slope = np.where(branches.alive, 1 - finite_product(knapsack.taken, rows.T), 0)
        # At the upper limit of a sample's charges a rise is no way down.
        length = np.maximum((slope * slope).sum(axis=1), 1e-6)
        stride = step * np.maximum(bound - target + 1, 1) / (grain * length)
        u = u + stride.astype(np.float32)[:, None] * slope
        u = _within_limits(np.maximum(u, 0), branches.limits, groups)
        step *= STEP_SHRINK
    return Bounds(
        value=np.floor(best).astype(np.int64),
        charges=best_u,
        refused=refused,
        required=required & ~refused,
    )


def _within_limits(u: Rows, limits: Rows, groups: tuple[npt.NDArray[np.intp], ...]) -> Rows:
    """Return whole charges, those of each sample scaled down to its limit where they exceed it.

    Notes
    -----
    Charges are cut to whole grains, of which sums are exact in doubles. A scale and a product are
    rounded once each in singles, so a charge that is scaled down is at most
    (1 + 2^-24)^2 (1 + 2^-53)^2 `SAFE` < 1 times its share of the limit, and is cut again.
    """
    order, starts, grouped = groups
    if len(order) == 0:
        return u
    sample_of = np.empty(len(order), dtype=np.intp)
    sample_of[order] = np.repeat(grouped, np.diff(np.append(starts, len(order))))
    u = np.floor(u)
    sums = np.add.reduceat(u[:, order], starts, axis=1, dtype=np.float64)
    most = limits[:, grouped]
    scale = np.ones_like(limits)
    scale[:, grouped] = np.where(sums > most, SAFE * most / np.maximum(sums, 1), 1)
    return np.asarray(np.floor(u * scale[:, sample_of]))


def _knapsack(gains: Rows, prices: IntArray, slots: IntArray, money: IntArray) -> _Knapsack:
    """Bound the gains that can be bought by count and by money; the smaller one counts."""
    by_count = _best_by_count(gains, slots)
    by_money = _best_by_money(gains.astype(np.float64), prices, money)
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
    none = np.zeros((len(gains), 1))
    sums = np.concatenate([none, ranked.cumsum(axis=1, dtype=np.float64)], axis=1)
    value = np.take_along_axis(sums, slots[:, None], axis=1)
    padded = np.concatenate([ranked, none], axis=1)
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


def _best_by_money(gains: FloatArray, prices: IntArray, money: IntArray) -> _Knapsack:
    """Fill the money with the best gains per price, the last one in part (Dantzig 1957).

    The rate λ is that of the tube taken in part; 0 if all can be had.
    """
    rates = gains / np.maximum(prices, LEAST_PRICE)
    order = np.argsort(-rates, axis=1)
    ordered = prices[order] if prices.ndim == 1 else np.take_along_axis(prices, order, axis=1)
    paid = ordered.cumsum(axis=1)
    room = money[:, None]
    share = np.clip((room - paid) / np.maximum(ordered, LEAST_PRICE) + 1, 0, 1)
    taken = np.empty(gains.shape, dtype=np.float32)
    np.put_along_axis(taken, order, share.astype(np.float32), axis=1)
    broken = np.minimum((paid <= room).sum(axis=1, keepdims=True), gains.shape[1] - 1)
    rate = np.take_along_axis(rates, np.take_along_axis(order, broken, axis=1), axis=1)
    rate = np.where(paid[:, -1:] <= room, 0, rate)
    surplus = gains - rate * prices  # gain of a tube above what its price would bring elsewhere
    value = rate * room + np.maximum(surplus, 0).sum(axis=1, keepdims=True)
    value = value * (1 + ROUNDING)
    return _Knapsack(
        value=value[:, 0],
        taken=taken,
        with_tube=value + np.minimum(surplus, 0),
        without_tube=value - np.maximum(surplus, 0),
    )
