"""One stage of the integer program: the best that one figure can be, the earlier ones held."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, isfinite
from time import perf_counter

from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.model import Figure, Model, build_model, meets_demands
from fewtubes.selection.solver import Ending, Outcome, solve

__all__ = [
    "Stage",
    "best_known",
    "figure_limit",
    "model_with",
    "read_palette",
    "run_stage",
    "solve_figure",
]

GAP_IN_UNITS = 0.99
"""Whole-number figures: a bound less than one unit away from a solution proves it."""

ROUNDING_IN_UNITS = 1e-3
"""Slack for the solver's own rounding (its tolerance is 1e-6) when a bound is made whole."""


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
    figure: Figure,
    fixed: Mapping[Figure, int],
    best: Palette | None,
    deadline: float,
    *,
    proof_only: bool = False,
) -> Stage:
    """Look for a palette with a better figure than the best known, or a proof of there being none.

    Asking only for better ones lets HiGHS cut off most of its branches; a known palette cannot be
    handed to it as a start instead, because HiGHS 1.16 then may report an objective that its
    solution does not have.
    """
    limit = figure_limit(instance, figure)
    if best is not None and figure.of(best) == limit:
        return Stage(best, limit, proven=True, infeasible=False, nodes=0)
    if figure_limit(instance, Figure.VALUE) < instance.least_value:
        return Stage(None, 0, proven=True, infeasible=True, nodes=0)
    model = model_with(instance, fixed)
    if best is not None:
        _add_figure(model, figure, figure.of(best), only_better=True)
    outcome = solve_figure(model, figure, deadline, proof_only=proof_only)
    if outcome.ending is Ending.INFEASIBLE:
        bound = figure.of(best) if best else 0
        return Stage(best, bound, proven=True, infeasible=best is None, nodes=outcome.nodes)
    if outcome.objective is not None:
        found = read_palette(model, instance, fixed)
        best = min((p for p in (found, best) if p is not None), key=lambda p: p.rank[figure.value])
    bound = _whole_bound(model, figure, outcome.bound, limit, best)
    proven = best is not None and figure.of(best) == bound
    return Stage(best, bound, proven, infeasible=False, nodes=outcome.nodes)


def figure_limit(instance: ChoiceInstance, figure: Figure) -> int:
    """Return what no palette can better: the value of every tube, else the must-have tubes'."""
    must_have, everything = _obvious(instance)
    return figure.of(everything if figure is Figure.VALUE else must_have)


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


def model_with(instance: ChoiceInstance, fixed: Mapping[Figure, int]) -> Model:
    """Build the program with the figures already proven."""
    model = build_model(instance)
    for figure, reached in fixed.items():
        _add_figure(model, figure, reached, only_better=False)
    return model


def _add_figure(model: Model, figure: Figure, reached: int, *, only_better: bool) -> None:
    """Hold a figure at what was reached, or ask for at least one unit better."""
    problem = model.problem
    expression = model.expressions[figure]
    name = f"{'better' if only_better else 'keep'}_{figure.name.lower()}"
    step = max(1, model.units[figure]) if only_better else 0
    if not len(expression):
        return  # no variable in it: nothing can change it
    if figure is Figure.VALUE:
        problem += expression >= reached - model.free_weight + step, name
    elif only_better or figure is Figure.WORST_FADE:
        problem += expression <= reached - step, name
    else:
        problem += expression == reached, name  # proven smallest: = is tighter than ≤


def solve_figure(
    model: Model, figure: Figure, deadline: float, *, proof_only: bool = False
) -> Outcome:
    """Run the solver for one figure."""
    import pulp  # noqa: PLC0415

    model.problem.sense = pulp.LpMaximize if figure is Figure.VALUE else pulp.LpMinimize
    model.problem.setObjective(model.expressions[figure])
    return solve(
        model.problem,
        time_limit_s=deadline - perf_counter(),
        absolute_gap=GAP_IN_UNITS * max(1, model.units[figure]),
        proof_only=proof_only,
    )


def read_palette(model: Model, instance: ChoiceInstance, fixed: Mapping[Figure, int]) -> Palette:
    """Return the solution the variables hold, rounded and checked in whole numbers."""
    palette = instance.palette([i for i, v in model.buy.items() if round(v.varValue) == 1])
    held = all(figure.of(palette) == reached for figure, reached in fixed.items())
    if not held or not meets_demands(instance, palette):
        raise RuntimeError(f"a solution of HiGHS does not hold in whole numbers: {palette}")
    return palette


def _whole_bound(
    model: Model, figure: Figure, bound: float, limit: int, best: Palette | None
) -> int:
    """Return the whole number that a solver's bound proves, no looser than the limit.

    The solver looked for better palettes than the best known, which is then a bound as well.
    """
    unit = max(1, model.units[figure])
    if figure is Figure.VALUE:
        steps = floor(bound / unit + ROUNDING_IN_UNITS) if isfinite(bound) else None
        whole = limit if steps is None else min(limit, model.free_weight + unit * steps)
        return whole if best is None else max(whole, best.value)
    steps = ceil(bound / unit - ROUNDING_IN_UNITS) if isfinite(bound) else None
    whole = limit if steps is None else max(limit, unit * steps)
    return whole if best is None else min(whole, figure.of(best))
