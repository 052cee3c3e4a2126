"""Buying bit by bit as an integer program, which proves the value of an order a second time."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import gcd, inf
from time import perf_counter
from typing import Any

from fewtubes.errors import DefectError
from fewtubes.selection.figures import LOOSENED, MOST_STEPS_BITS
from fewtubes.selection.instalments import BuyingOrder, InstalmentInstance
from fewtubes.selection.model import reduced_sets
from fewtubes.selection.solver import Ending, run_solver

__all__ = ["InstalmentModel", "build_instalment_model", "proven_again"]

GAP_IN_STEPS = 0.8
"""How much bound and solution may differ at the end; below 1, so that whole numbers are equal."""


@dataclass(frozen=True)
class InstalmentModel:
    """The program in PuLP, with what is needed to ask it something.

    Parameters
    ----------
    problem
        The `pulp.LpProblem`.
    buy
        x_i,s by tube and time.
    value
        The weighted value in steps, without `free`, as a linear expression.
    step, unit
        How much of the value counts 1 in it; the least by which the value can change.
    free
        Weighted value of what owned tubes and bare paper cover.
    """

    problem: Any
    buy: Mapping[tuple[int, int], Any]
    value: Any
    step: int
    unit: int
    free: int


def build_instalment_model(
    problem: InstalmentInstance, *, deadline: float = inf
) -> InstalmentModel:
    """Build the integer program, for one instance.

    Parameters
    ----------
    problem
        The instance.
    deadline
        Value of `perf_counter` after which to give up.

    Raises
    ------
    TimeoutError
        If the deadline comes first.

    Notes
    -----
    Numbers, sets and M_t as in `build_model`; k_s is the importance of time s, m_s the money up to
    it, S the last time. Variables, for each time s::

        x_i,s    ∈ {0, 1}   buy_i_by_s              tube i is bought by then
        y_t,s    ∈ [0, 1]   covered_t_from_s        sample t is covered from then on
        z_t,r,s  ≥ 0        held_t_from_s__i__j__k  set r = {i, j, k} ∈ M_t is held, counts for t

    max Σ_s k_s Σ_t w_t y_t,s subject to::

        x_i,s ≤ x_i,s+1                            keep_i_after_s
        Σ_i p_i x_i,s ≤ m_s                        money_s
        Σ_i x_i,S ≤ most tubes                     most_tubes
        x_i,S = 1             i ∈ must have        must_have_i
        x_i,S + x_j,S ≤ 1     i, j one paint       one_of__i__j    (unless both are must-have)
        x_i,S = 0     water makes it of an owned tube              spare_i
        Σ_t w_t y_t,S ≥ least value                least_value
        y_t,s ≤ Σ_{r ∈ M_t} z_t,r,s                covered_t_from_s__needs_a_set
        Σ_{r ∋ i} z_t,r,s ≤ x_i,s                  sets_of_t_from_s__need_tube_i

    With x whole the largest y is whole too, as there.
    """
    import pulp

    known, last = problem.instance, problem.times - 1
    sets = reduced_sets(known)
    tubes = [i for i in range(known.tube_count) if i not in known.owned]
    opened = [t for t, sets_t in enumerate(sets) if sets_t and sets_t != ((),)]
    free = sum(w for w, sets_t in zip(known.weights, sets, strict=True) if sets_t == ((),))
    made = pulp.LpProblem("order_of_buying", pulp.LpMaximize)
    x = {
        (i, s): made.add_variable(f"buy_{i}_by_{s}", cat=pulp.LpBinary)
        for s in range(problem.times)
        for i in tubes
    }
    y = {
        (t, s): made.add_variable(f"covered_{t}_from_{s}", 0, 1)
        for s in range(problem.times)
        for t in opened
    }
    terms = [(problem.importances[s] * known.weights[t], y_ts) for (t, s), y_ts in y.items()]
    unit = max(1, gcd(*(weight for weight, _ in terms)))
    step = _step(sum(weight for weight, _ in terms), unit)
    value = pulp.lpSum((k / step if step > 1 else k) * y_ts for k, y_ts in terms)
    made.setObjective(value)
    for s in range(problem.times):
        for i in tubes if s < last else ():
            made += x[i, s] <= x[i, s + 1], f"keep_{i}_after_{s}"
        made += (
            pulp.lpSum(known.prices[i] * x[i, s] for i in tubes) <= problem.money[s],
            f"money_{s}",
        )
        for t in opened:
            if perf_counter() > deadline:
                raise TimeoutError
            _add_sample(made, x, y[t, s], sets[t], t=t, s=s)
    made += pulp.lpSum(x[i, last] for i in tubes) <= known.most_tubes, "most_tubes"
    for i in sorted(known.must_have):
        made += x[i, last] == 1, f"must_have_{i}"
    for i, j in sorted(known.not_together):
        made += x[i, last] + x[j, last] <= 1, f"one_of__{i}__{j}"
    for i in sorted(known.ruled_out):
        made += x[i, last] == 0, f"spare_{i}"
    if known.least_value > free and opened:
        covered = pulp.lpSum(known.weights[t] * y[t, last] for t in opened)
        made += covered >= known.least_value - free, "least_value"
    return InstalmentModel(made, x, value, step, unit, free * sum(problem.importances))


def _step(total: int, unit: int) -> int:
    """Return the step in which the value is counted, as `build_model` does."""
    return unit << max(0, (total // unit).bit_length() - MOST_STEPS_BITS)


def _add_sample(
    made: Any,
    x: Mapping[tuple[int, int], Any],
    y_ts: Any,
    sets: Sequence[tuple[int, ...]],
    *,
    t: int,
    s: int,
) -> None:
    """Add z_t,r,s and the two families of constraints that tie sample t to the tubes at time s."""
    import pulp

    z = {r: made.add_variable(f"held_{t}_from_{s}__{'__'.join(map(str, r))}", 0, 1) for r in sets}
    made += y_ts <= pulp.lpSum(z.values()), f"covered_{t}_from_{s}__needs_a_set"
    for i in sorted({i for r in sets for i in r}):
        holding = pulp.lpSum(z_r for r, z_r in z.items() if i in r)
        made += holding <= x[i, s], f"sets_of_{t}_from_{s}__need_tube_{i}"


def proven_again(problem: InstalmentInstance, order: BuyingOrder, *, seconds: float) -> bool:
    """Return whether the program proves, too, that no order of buying is worth more.

    It is asked for one that is worth more. What it was asked is met, in exact numbers, by every
    order that is. What it finds is counted anew in whole numbers; if its tolerances let in what is
    no better, nothing is proven.

    Parameters
    ----------
    problem, order
        The instance, and the order that is said to be worth most.
    seconds
        Time for it [s].

    Raises
    ------
    DefectError
        If it finds an order that is worth more.
    """
    deadline = perf_counter() + seconds
    try:
        model = build_instalment_model(problem, deadline=deadline)
    except TimeoutError:
        return False
    if not model.buy:
        return True
    loosened = LOOSENED if model.step > model.unit else 0
    more = (order.value + model.unit - model.free) / model.step - loosened
    outcome = run_solver(
        model.problem,
        time_limit_s=deadline - perf_counter(),
        absolute_gap=GAP_IN_STEPS,
        more_rows=[model.value >= more],
        proof_only=True,
    )
    if outcome.values:
        found = problem.order(_read(problem, model, outcome.values))
        if problem.allows(found) and found.value > order.value:
            raise DefectError(
                f"the search proves that no order of buying is worth more than {order.value}, the"
                f" integer program has one that is worth {found.value}. This is a fault of the"
                " program, not of what was asked, and neither answer can be relied on."
            )
    return outcome.ending is Ending.INFEASIBLE


def _read(
    problem: InstalmentInstance, model: InstalmentModel, values: Mapping[str, float]
) -> list[list[int]]:
    """Return the tubes bought up to each time in a solution."""
    return [
        [i for (i, at), x in model.buy.items() if at == s and round(values[x.name]) == 1]
        for s in range(problem.times)
    ]
