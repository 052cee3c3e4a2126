"""The integer program, solved stage by stage, with what each stage proves."""

from collections.abc import Mapping
from time import perf_counter

from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.model import Figure
from fewtubes.selection.solver import Ending
from fewtubes.selection.stage import (
    best_known,
    figure_limit,
    model_with,
    read_palette,
    run_stage,
    solve_figure,
)

__all__ = ["solve_program"]


def solve_program(
    instance: ChoiceInstance,
    *,
    time_limit_s: float,
    most_ties: int = 1,
    start: Palette | None = None,
) -> Choice:
    """Find a best palette with the integer program of `build_model`.

    The figures of `Palette.rank` are settled one after the other; each one proven is fixed as a
    constraint for the next, which loses nothing because all are whole numbers. The status is
    PROVEN only if every stage is; STOPPED with value = bound means that the coverage is proven
    but that a palette as good may exist with fewer, cheaper or more lasting tubes.

    Parameters
    ----------
    instance
        The instance; its figures should stay below about a million units, where the solver's
        tolerances cannot reach the last unit.
    time_limit_s
        Time allowed for all stages together [s].
    most_ties
        How many palettes that tie in every figure to list. With 1 no other is looked for and
        a choice of any tubes is not called complete; with more, those found are listed.
    start
        A palette known from another exact method, believed to be best: each stage then mainly
        proves that there is none better. One that does not meet the demands is ignored.
    """
    began = perf_counter()
    deadline = began + time_limit_s
    fixed: dict[Figure, int] = {}
    best = best_known(instance, Figure.VALUE, start)
    bound = figure_limit(instance, Figure.VALUE)
    nodes, proven = 0, False
    for figure in Figure:
        stage = run_stage(instance, figure, fixed, best, deadline, proof_only=start is not None)
        nodes += stage.nodes
        if stage.infeasible:
            return Choice((), True, _certificate(Status.INFEASIBLE, 0, 0, nodes, began))
        best = stage.palette
        if figure is Figure.VALUE:
            bound = stage.bound
        proven = stage.proven
        if best is None or not proven:
            break
        fixed[figure] = figure.of(best)
    if best is None or not proven:
        value = best.value if best else 0
        certificate = _certificate(Status.STOPPED, value, bound, nodes, began)
        return Choice((best,) if best else (), False, certificate)
    ties, complete, more = _ties(instance, fixed, best, most_ties, deadline)
    return Choice(ties, complete, _certificate(Status.PROVEN, bound, bound, nodes + more, began))


def _ties(
    instance: ChoiceInstance,
    fixed: Mapping[Figure, int],
    first: Palette,
    most_ties: int,
    deadline: float,
) -> tuple[tuple[Palette, ...], bool, int]:
    """List palettes of the same rank, ruling out one after another; tell if these are all."""
    if not first.bought:
        return (first,), True, 0  # ties have as many tubes, and there is only one empty palette
    if most_ties <= 1:
        return (first,), False, 0
    model = model_with(instance, fixed)
    problem = model.problem
    ties = [first]
    nodes = 0
    complete = False
    while True:
        # All ties have as many tubes, so another one lacks at least one of these.
        cut = sum(model.buy[i] for i in ties[-1].bought) <= len(first.bought) - 1
        problem += cut, f"not_again_{len(ties)}"
        outcome = solve_figure(model, Figure.FADE_SUM, deadline)
        nodes += outcome.nodes
        if outcome.objective is None:
            complete = outcome.ending is Ending.INFEASIBLE
            break
        if len(ties) == most_ties:
            break
        ties.append(read_palette(model, instance, fixed))
    return tuple(sorted(ties, key=lambda p: p.bought)), complete, nodes


def _certificate(status: Status, value: int, bound: int, nodes: int, began: float) -> Certificate:
    """Return the certificate of a run that began at a clock time [s]."""
    return Certificate(status, Method.PROGRAM, value, bound, nodes, perf_counter() - began)
