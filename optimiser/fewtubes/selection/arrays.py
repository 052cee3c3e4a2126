"""A program written in PuLP as plain arrays, which is how HiGHS takes it.

PuLP's own way to HiGHS differs from version to version: in the sense it hands over, and in what its
status means. Variables, rows and bounds mean the same in all of them, so only those are read.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import inf
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.masks import BoolArray

__all__ = ["ProgramArrays", "program_arrays"]

PlaceArray = npt.NDArray[np.int32]


@dataclass(frozen=True, eq=False)
class ProgramArrays:
    """A program: c·x is made largest or smallest, with row and column bounds.

    Parameters
    ----------
    cost, lower, upper, whole
        Objective, bounds, and whether only whole numbers will do, shapes (columns,).
    row_lower, row_upper
        Bounds of the rows, shapes (rows,).
    starts
        Where each row begins in the next two, shape (rows + 1,).
    columns, coefficients
        The entries of the rows, shapes (entries,).
    offset
        Added to the objective.
    maximise
        Whether the largest objective is sought, else the smallest.
    """

    cost: FloatArray
    lower: FloatArray
    upper: FloatArray
    whole: BoolArray
    row_lower: FloatArray
    row_upper: FloatArray
    starts: PlaceArray
    columns: PlaceArray
    coefficients: FloatArray
    offset: float
    maximise: bool


def program_arrays(
    problem: Any, more_rows: Iterable[Any] = ()
) -> tuple[ProgramArrays, tuple[str, ...]]:
    """Return a PuLP problem with further constraints as arrays, and the columns' names.

    Parameters
    ----------
    problem
        A `pulp.LpProblem`.
    more_rows
        PuLP constraints over its variables that are not part of it.
    """
    import pulp

    variables = problem.variables()
    names = tuple(variable.name for variable in variables)
    place = {name: column for column, name in enumerate(names)}
    cost = np.zeros(len(names))
    objective = problem.objective
    for variable, coefficient in objective.items() if objective is not None else ():
        cost[place[variable.name]] = coefficient
    return ProgramArrays(
        cost=cost,
        lower=_bounds((variable.lowBound for variable in variables), -inf),
        upper=_bounds((variable.upBound for variable in variables), inf),
        whole=np.array([variable.cat == pulp.LpInteger for variable in variables], dtype=np.bool_),
        **_rows([*problem.constraints(), *more_rows], place),
        offset=0.0 if objective is None else float(objective.constant),
        maximise=problem.sense == pulp.LpMaximize,
    ), names


def _rows(rows: Iterable[Any], place: Mapping[str, int]) -> dict[str, Any]:
    """Return the five arrays of the rows."""
    lower, upper, starts = [], [], [0]
    columns: list[int] = []
    coefficients: list[float] = []
    for row in rows:
        entries = row.items()
        columns += [place[variable.name] for variable, _ in entries]
        coefficients += [coefficient for _, coefficient in entries]
        starts.append(len(columns))
        lower.append(row.getLb())
        upper.append(row.getUb())
    return {
        "row_lower": _bounds(lower, -inf),
        "row_upper": _bounds(upper, inf),
        "starts": np.array(starts, dtype=np.int32),
        "columns": np.array(columns, dtype=np.int32),
        "coefficients": np.array(coefficients, dtype=np.float64),
    }


def _bounds(values: Iterable[float | None], missing: float) -> FloatArray:
    """Return bounds as an array, those that are not there as infinite."""
    return np.array([missing if value is None else value for value in values], dtype=np.float64)
