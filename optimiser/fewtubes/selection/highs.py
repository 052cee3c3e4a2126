"""Runs HiGHS on the arrays of a program; status, bound and solution are read from HiGHS itself."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.selection.arrays import ProgramArrays

__all__ = ["Findings", "Options", "run_highs"]

Options = Mapping[str, float | bool | int]
"""Options of HiGHS by name."""


@dataclass(frozen=True, eq=False)
class Findings:
    """What HiGHS says after a run.

    Parameters
    ----------
    status
        Name of its `HighsModelStatus`.
    found
        Whether it holds a solution.
    objective
        Of that solution, in the program's own sense.
    bound
        No solution has an objective beyond it; infinite if nothing is known.
    nodes
        Branches looked at.
    values
        The solution by column, shape (columns,); empty if there is none.
    """

    status: str
    found: bool
    objective: float
    bound: float
    nodes: int
    values: FloatArray


def run_highs(program: ProgramArrays, options: Options) -> Findings:
    """Run HiGHS on a program, silently."""
    import highspy

    class QuietHighs(highspy.Highs):  # type: ignore[misc]  # highspy is untyped here
        """HiGHS prints its banner while being made, before any option can be set from outside."""

        def enableCallbacks(self) -> None:  # noqa: N802  # HiGHS's name
            self.silent()
            super().enableCallbacks()

    highs = QuietHighs()
    for name, value in options.items():
        highs.setOptionValue(name, value)
    highs.passModel(_model(program))
    highs.run()
    info = highs.getInfo()
    found = info.primal_solution_status == highspy.kSolutionStatusFeasible
    bound = float(info.mip_dual_bound)
    return Findings(
        status=highs.getModelStatus().name,
        found=found,
        objective=float(info.objective_function_value),
        bound=bound if abs(bound) < highspy.kHighsInf else inf if program.maximise else -inf,
        nodes=max(0, int(info.mip_node_count)),
        values=np.array(highs.getSolution().col_value if found else [], dtype=np.float64),
    )


def _model(program: ProgramArrays) -> object:
    """Return a program as HiGHS's own value."""
    import highspy

    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(program.cost), len(program.row_lower)
    model.col_cost_, model.offset_ = program.cost, program.offset
    model.col_lower_, model.col_upper_ = program.lower, program.upper
    model.row_lower_, model.row_upper_ = program.row_lower, program.row_upper
    model.sense_ = highspy.ObjSense.kMaximize if program.maximise else highspy.ObjSense.kMinimize
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    model.integrality_ = [kinds[int(whole)] for whole in program.whole]
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.num_col_, model.a_matrix_.num_row_ = model.num_col_, model.num_row_
    model.a_matrix_.start_ = program.starts
    model.a_matrix_.index_ = program.columns
    model.a_matrix_.value_ = program.coefficients
    return model
