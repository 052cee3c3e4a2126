"""Runs the solver, HiGHS, on a program written in PuLP, and tells how the run really ended.

HiGHS is handed the program's arrays and asked itself for status, bound and solution, so that it
does not matter what a version of PuLP makes of them: one reports ``Optimal`` also when a time limit
stopped HiGHS with some solution in hand, another turns the objective round. HiGHS's own tolerances
stay in place [1e-6 for whole numbers], so callers must check a solution again in whole numbers
(`fewtubes.selection.stage` does).
"""

import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import inf, isfinite
from time import perf_counter
from typing import Any

from fewtubes.errors import DefectError
from fewtubes.selection.apart import run_apart
from fewtubes.selection.arrays import ProgramArrays, program_arrays
from fewtubes.selection.highs import Findings, Options, run_highs

__all__ = ["Ending", "Outcome", "run_solver"]

ONE_THREAD = 1
"""HiGHS gains little from more threads on such programs, and one thread repeats exactly."""

HERE_SECONDS = 0.5
"""What takes longer is begun anew in a process that can be stopped; starting that takes as long."""

LARGE = 20_000
"""Columns from which a program is not tried here at all; it takes longer in any case."""

NO_HEURISTICS: dict[str, float | bool] = {
    "mip_heuristic_effort": 0.0,
    "mip_heuristic_run_rins": False,
    "mip_heuristic_run_rens": False,
    "mip_heuristic_run_root_reduced_cost": False,
    "mip_heuristic_run_feasibility_jump": False,
}
"""HiGHS options that stop it looking for solutions by luck; halves the time of a pure proof."""


class Ending(StrEnum):
    """How a run of the solver ended."""

    OPTIMAL = "optimal"
    STOPPED = "stopped by the time limit"
    ENOUGH = "stopped by the limit on branches"
    INFEASIBLE = "infeasible"


ENDINGS = {
    "kOptimal": Ending.OPTIMAL,
    "kTimeLimit": Ending.STOPPED,
    # The one limit on solutions that is set is the one on branches.
    "kSolutionLimit": Ending.ENOUGH,
    "kInfeasible": Ending.INFEASIBLE,
    # Presolve may not say which; with every variable bounded it can only be infeasible.
    "kUnboundedOrInfeasible": Ending.INFEASIBLE,
}
"""By HiGHS's name of its status; any other is not expected of it."""


@dataclass(frozen=True)
class Outcome:
    """What one run of the solver found.

    Parameters
    ----------
    ending
        How the run ended.
    objective
        Objective of the best solution found, in the program's own sense; None if none was found.
    bound
        Proven bound on the objective from the other side; infinite if there is none yet.
    nodes
        Branches looked at.
    seconds
        Time taken [s], starting included.
    values
        That solution by name of variable; empty if there is none.
    """

    ending: Ending
    objective: float | None
    bound: float
    nodes: int
    seconds: float
    values: Mapping[str, float]

    @property
    def gap(self) -> float:
        """|bound − objective|, in the objective's unit; infinite without a solution or bound."""
        if self.objective is None or not isfinite(self.bound):
            return inf
        return abs(self.bound - self.objective)


def run_solver(
    problem: Any,
    *,
    time_limit_s: float,
    absolute_gap: float,
    more_rows: Iterable[Any] = (),
    proof_only: bool = False,
    threads: int = ONE_THREAD,
    most_nodes: int | None = None,
) -> Outcome:
    """Solve a PuLP problem with HiGHS, silently, and report how it really ended.

    Parameters
    ----------
    problem
        A `pulp.LpProblem` with at least one whole-number variable, every variable bounded. It is
        not changed.
    time_limit_s
        Time allowed [s]; with nothing left nothing is run.
    absolute_gap
        The search may end when bound and objective differ by this much; below one unit of a
        whole-number objective, that is a proof. The relative gap allowed is always 0.
    more_rows
        Further PuLP constraints over the problem's variables.
    proof_only
        Whether no solution is expected, so that none need be looked for before branching.
    threads
        Threads that HiGHS may use.
    most_nodes
        Branches looked at, at most; None if only time counts. On one thread they are the same on
        every machine, however busy.

    Raises
    ------
    DefectError
        If HiGHS ends in a way that is not expected of it.
    """
    began = perf_counter()
    program, names = program_arrays(problem, more_rows)
    options: dict[str, float | bool | int] = {
        "mip_rel_gap": 0.0,
        "mip_abs_gap": float(absolute_gap),
        "threads": threads,
    }
    if proof_only:
        options.update(NO_HEURISTICS)
    if most_nodes is not None:
        options["mip_max_nodes"] = most_nodes
    findings = _run(program, options, began + time_limit_s)
    seconds = perf_counter() - began
    if findings is None:
        bound = inf if program.maximise else -inf
        return Outcome(Ending.STOPPED, None, bound, nodes=0, seconds=seconds, values={})
    if findings.status not in ENDINGS:
        raise DefectError(f"HiGHS ended in a way that is not expected of it: {findings.status}")
    return Outcome(
        ending=ENDINGS[findings.status],
        objective=findings.objective if findings.found else None,
        bound=findings.bound,
        nodes=findings.nodes,
        seconds=seconds,
        values=dict(zip(names, findings.values.tolist(), strict=False)),
    )


def _run(program: ProgramArrays, options: Options, deadline: float) -> Findings | None:
    """Run HiGHS until a value of `perf_counter`, stoppably; None if nothing was found out."""
    findings = None
    left = deadline - perf_counter()
    alone = bool(sys.executable)  # an interpreter inside another program cannot be started again
    if left > 0 and not (alone and len(program.cost) > LARGE and left > HERE_SECONDS):
        import highspy

        here = left if not alone or left <= 2 * HERE_SECONDS else HERE_SECONDS
        # HiGHS keeps its threads for the whole process; a new number of them needs a new start.
        highspy.Highs.resetGlobalScheduler(True)
        findings = run_highs(program, {**options, "time_limit": here})
        if ENDINGS.get(findings.status) is not Ending.STOPPED:
            return findings
        left = deadline - perf_counter()
    if alone and left > HERE_SECONDS / 2:
        return run_apart(program, options, seconds=left) or findings
    return findings
