"""One stage of the lexicographic program: the best of one figure, the earlier ones held fixed.

The solver works in floating point and within tolerances, so nothing is taken from it on trust.
A solution is read as the tubes it buys, and its figures are counted anew in whole numbers. What is
not as good as was asked for is ruled out by a cut that no better palette fails, and the solver is
run again. So the tolerances can only let too much in, which costs time, and never keep a palette
out, which would be a false proof.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil, floor, isfinite
from time import perf_counter
from typing import Any

from fewtubes.selection.figures import Figure
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.model import Model, at_least_value, at_most, meets_demands
from fewtubes.selection.solver import Ending, Outcome, run_solver

__all__ = [
    "Stage",
    "best_known",
    "cut_off",
    "figure_limit",
    "holding",
    "read_palette",
    "run_stage",
    "solve_figure",
]

GAP_IN_STEPS = 0.8
"""How much bound and solution may differ at the end; below 1, so that whole numbers are equal."""

ROUNDING_IN_STEPS = 0.1
"""Allowed for the solver's rounding when its bound is made whole: of 2^17 steps, it is 0.8e-6."""


@dataclass(frozen=True)
class Stage:
    """One stage: the better palette known after it, the bound, and whether they meet."""

    palette: Palette | None
    bound: int
    proven: bool
    infeasible: bool
    nodes: int


def run_stage(
    instance: ChoiceInstance,
    model: Model,
    figure: Figure,
    *,
    fixed: Mapping[Figure, int],
    best: Palette | None,
    deadline: float,
    proof_only: bool = False,
) -> Stage:
    """Look for a palette with a better figure than the best known, or a proof of there being none.

    Asking only for better ones lets HiGHS cut off most of its branches; a known palette cannot be
    handed to it as a start instead, because HiGHS 1.16 then may report an objective that its
    solution does not have.

    Notes
    -----
    The proof is one of two. Either the solver finds nothing better possible: what it was asked is
    met, in exact numbers, by every palette that is better. Or it ends with a solution whose own
    figure, counted in whole numbers, is within `GAP_IN_STEPS` and `ROUNDING_IN_STEPS` of its bound
    and of the objective that it cut its branches off with, so that no whole number lies between.
    """
    kept = list(holding(model, fixed))
    cuts: list[Any] = []
    if best is not None and figure is Figure.VALUE:
        cuts.append(cut_off(model, best, best.value + 1))
    nodes = 0
    while True:
        better = [] if best is None else [_better(model, figure, figure.of(best))]
        outcome = solve_figure(
            model, figure, [*kept, *better, *cuts], deadline, proof_only=proof_only
        )
        nodes += outcome.nodes
        if outcome.ending is Ending.INFEASIBLE:
            bound = figure.of(best) if best else 0
            return Stage(best, bound, proven=True, infeasible=best is None, nodes=nodes)
        if outcome.values:
            found = read_palette(model, instance, outcome.values)
            best = _better_of(instance, figure, fixed, best, found)
            least = fixed.get(Figure.VALUE, best.value + 1 if best else instance.least_value)
            cuts.append(cut_off(model, found, least))
        bound = _whole_bound(model, figure, outcome, figure_limit(instance, figure), best)
        proven = best is not None and figure.of(best) == bound
        if proven or outcome.ending is Ending.STOPPED:
            return Stage(best, bound, proven, infeasible=False, nodes=nodes)
        proof_only = best is not None


def figure_limit(instance: ChoiceInstance, figure: Figure) -> int:
    """Return what no palette can better: the value of every tube, else the must-have tubes'."""
    if figure is Figure.COST and instance.must_serve:
        # In company of others a tube may be needed for less than alone.
        return sum(instance.prices[i] for i in instance.must_have)
    if figure is Figure.VALUE:
        return instance.value(range(instance.tube_count))
    return figure.of(instance.palette(instance.must_have))


def _obvious(instance: ChoiceInstance) -> tuple[Palette, Palette]:
    """Return the must-have tubes alone, and every tube together."""
    return instance.palette(instance.must_have), instance.palette(range(instance.tube_count))


def best_known(
    instance: ChoiceInstance, figure: Figure, *palettes: Palette | None
) -> Palette | None:
    """Return the best by one figure, then by rank, of the palettes that meet the demands.

    The must-have tubes alone and every tube together are tried as well. For a first stage only:
    figures proven before are not looked at.
    """
    tried = (*palettes, *_obvious(instance))
    known = [p for p in tried if p is not None and meets_demands(instance, p)]
    return min(known, key=lambda p: (p.rank[figure.value], p.rank, p.bought), default=None)


def _better_of(
    instance: ChoiceInstance,
    figure: Figure,
    fixed: Mapping[Figure, int],
    best: Palette | None,
    found: Palette,
) -> Palette | None:
    """Return what was found if it truly is as asked and better by the figure, else the best."""
    sound = meets_demands(instance, found) and all(
        known.of(found) == reached for known, reached in fixed.items()
    )
    place = figure.value
    return found if sound and (best is None or found.rank[place] < best.rank[place]) else best


def holding(model: Model, fixed: Mapping[Figure, int]) -> Iterator[Any]:
    """Yield the constraints that hold figures at what was reached."""
    for figure, reached in fixed.items():
        expression = model.expressions[figure]
        if not len(expression):
            continue  # no variable in it: nothing can change it
        if figure is Figure.VALUE:
            yield at_least_value(model, reached)
        elif figure in model.at_least or not model.tells_units_apart(figure):
            yield at_most(model, figure, reached)
        else:  # proven smallest: = is tighter than ≤
            yield expression == reached / model.steps[figure]


def _better(model: Model, figure: Figure, reached: int) -> Any:
    """Return the constraint that asks for at least one unit better than what was reached."""
    unit = model.units[figure]
    if figure is Figure.VALUE:
        return at_least_value(model, reached + unit)
    return at_most(model, figure, reached - unit)


def cut_off(model: Model, palette: Palette, least_value: int) -> Any:
    """Return a constraint that a palette fails and no other palette sought does.

    Parameters
    ----------
    palette
        What is to be ruled out.
    least_value
        What the palettes sought cover at least. If this one covers less, each of them covers a
        sample that it does not; else each buys other tubes.
    """
    import pulp

    covered, bought = set(palette.covered), set(palette.bought)
    uncovered = pulp.lpSum(y for t, y in model.cover.items() if t not in covered)
    if palette.value < least_value:
        return uncovered >= 1
    if model.must_serve:
        # Whoever buys all these tubes and more must cover more.
        return uncovered - pulp.lpSum(model.buy[i] for i in bought) >= 1 - len(bought)
    changes = pulp.lpSum(-x if i in bought else x for i, x in model.buy.items())
    return changes >= 1 - len(bought)


def solve_figure(
    model: Model, figure: Figure, rows: list[Any], deadline: float, *, proof_only: bool = False
) -> Outcome:
    """Run the solver for one figure, under further constraints."""
    import pulp

    model.problem.sense = pulp.LpMaximize if figure is Figure.VALUE else pulp.LpMinimize
    model.problem.setObjective(model.expressions[figure])
    return run_solver(
        model.problem,
        time_limit_s=deadline - perf_counter(),
        absolute_gap=GAP_IN_STEPS,
        more_rows=rows,
        proof_only=proof_only,
    )


def read_palette(model: Model, instance: ChoiceInstance, values: Mapping[str, float]) -> Palette:
    """Return the tubes that a solution buys, their figures counted in whole numbers.

    Parameters
    ----------
    values
        The solution by name of variable; within the solver's tolerance of whole numbers.
    """
    return instance.palette([i for i, x in model.buy.items() if round(values[x.name]) == 1])


def _whole_bound(
    model: Model, figure: Figure, outcome: Outcome, limit: int, best: Palette | None
) -> int:
    """Return the whole number that an outcome proves, no looser than the limit.

    The solver looked for better palettes than the best known, which is then a bound as well.
    Branches that promised less than its gap beyond its own solution it may have cut off.
    """
    step, unit = model.steps[figure], model.units[figure]
    reach, claimed = outcome.bound, outcome.objective
    if figure is Figure.VALUE:
        reach = reach if claimed is None else max(reach, claimed + GAP_IN_STEPS)
        whole = limit
        if isfinite(reach):
            units = floor((reach + ROUNDING_IN_STEPS) * step / unit)
            whole = min(limit, model.free_weight + unit * units)
        return whole if best is None else max(whole, best.value)
    reach = reach if claimed is None else min(reach, claimed - GAP_IN_STEPS)
    whole = limit
    if isfinite(reach):
        whole = max(limit, unit * ceil((reach - ROUNDING_IN_STEPS) * step / unit))
    return whole if best is None else min(whole, figure.of(best))
