"""The one place that names the solver: HiGHS, run through PuLP, and what it truly found.

PuLP reports the status ``Optimal`` also when a time limit stopped HiGHS with some solution in
hand. The truth is therefore read from HiGHS itself, and an `Outcome` says which of the two it was.
HiGHS's own tolerances stay in place [1e-6 for whole numbers], so callers must check a solution
again in whole numbers (`fewtubes.selection.program` does).
"""

from dataclasses import dataclass
from enum import StrEnum
from math import inf, isfinite
from time import perf_counter
from typing import Any

__all__ = ["Ending", "Outcome", "solve"]

ONE_THREAD = 1
"""HiGHS gains little from more threads on such programs, and one thread repeats exactly."""

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
    INFEASIBLE = "infeasible"


@dataclass(frozen=True)
class Outcome:
    """What one run of the solver found.

    Parameters
    ----------
    ending
        How the run ended.
    objective
        Objective of the best solution found, in the program's own sense; None if none was found.
        When there is one, the program's variables hold it.
    bound
        Proven bound on the objective from the other side; infinite if there is none yet.
    nodes
        Branches looked at.
    seconds
        Time taken [s], building included.
    """

    ending: Ending
    objective: float | None
    bound: float
    nodes: int
    seconds: float

    @property
    def gap(self) -> float:
        """|bound − objective|, in the objective's unit; infinite without a solution or bound."""
        if self.objective is None or not isfinite(self.bound):
            return inf
        return abs(self.bound - self.objective)


def solve(
    problem: Any,
    *,
    time_limit_s: float,
    absolute_gap: float,
    proof_only: bool = False,
    threads: int = ONE_THREAD,
) -> Outcome:
    """Solve a PuLP problem with HiGHS, silently, and report how it really ended.

    Parameters
    ----------
    problem
        A `pulp.LpProblem` with at least one whole-number variable, every variable bounded.
        Its variables take the values of the solution found.
    time_limit_s
        Time allowed [s]; with nothing left nothing is run.
    absolute_gap
        The search may end when bound and objective differ by this much; below one unit of a
        whole-number objective, that is a proof. The relative gap allowed is always 0.
    proof_only
        Whether no solution is expected, so that none need be looked for before branching.
    threads
        Threads that HiGHS may use.
    """
    if time_limit_s <= 0.0:
        return Outcome(Ending.STOPPED, None, _no_bound(problem), nodes=0, seconds=0.0)
    import highspy  # noqa: PLC0415

    began = perf_counter()
    # HiGHS keeps its threads for the whole process; a new number of them needs a new start.
    highspy.Highs.resetGlobalScheduler(True)
    options: dict[str, float | bool | int] = {
        "time_limit": float(time_limit_s),
        "mip_rel_gap": 0.0,
        "mip_abs_gap": float(absolute_gap),
        "threads": threads,
    }
    if proof_only:
        options.update(NO_HEURISTICS)
    problem.solve(_quiet_highs(options))
    return _outcome(problem, perf_counter() - began)


def _no_bound(problem: Any) -> float:
    """Return the bound that says nothing, in the problem's sense."""
    import pulp  # noqa: PLC0415

    return inf if problem.sense == pulp.LpMaximize else -inf


def _outcome(problem: Any, seconds: float) -> Outcome:
    """Read the ending, objective and bound from HiGHS, turned to the problem's sense."""
    import highspy  # noqa: PLC0415
    import pulp  # noqa: PLC0415

    status = problem.solverModel.getModelStatus()
    endings = {
        highspy.HighsModelStatus.kOptimal: Ending.OPTIMAL,
        highspy.HighsModelStatus.kTimeLimit: Ending.STOPPED,
        highspy.HighsModelStatus.kInfeasible: Ending.INFEASIBLE,
        # Presolve may not say which; with every variable bounded it can only be infeasible.
        highspy.HighsModelStatus.kUnboundedOrInfeasible: Ending.INFEASIBLE,
    }
    if status not in endings:
        raise RuntimeError(f"HiGHS ended in a way that is not expected of it: {status.name}")
    info = problem.solverModel.getInfo()
    sign = -1.0 if problem.sense == pulp.LpMaximize else 1.0  # PuLP hands HiGHS a minimisation
    found = info.primal_solution_status == highspy.kSolutionStatusFeasible
    return Outcome(
        ending=endings[status],
        objective=sign * info.objective_function_value if found else None,
        bound=sign * info.mip_dual_bound,
        nodes=max(0, int(info.mip_node_count)),
        seconds=seconds,
    )


def _quiet_highs(options: dict[str, float | bool | int]) -> Any:
    """Return PuLP's HiGHS with these options, silent from its first line."""
    import highspy  # noqa: PLC0415
    import pulp  # noqa: PLC0415

    class QuietModel(highspy.Highs):  # type: ignore[misc]  # highspy is untyped here
        """HiGHS prints its banner while being made, before any option can be set from outside."""

        def enableCallbacks(self) -> None:  # noqa: N802  # HiGHS's name
            self.silent()
            super().enableCallbacks()

    class QuietHighs(pulp.HiGHS):  # type: ignore[misc]  # PuLP is untyped here
        """PuLP's HiGHS with that model in place of its own."""

        def createAndConfigureSolver(self, lp: Any) -> None:  # noqa: N802  # PuLP's name
            lp.solverModel = QuietModel()
            for name, value in options.items():
                lp.solverModel.setOptionValue(name, value)

    return QuietHighs(msg=False)
