"""The integer program, solved stage by stage, with what each stage proves."""

from dataclasses import dataclass, field
from functools import cached_property
from time import perf_counter

from fewtubes.errors import DefectError
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.figures import Figure
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.model import Model, build_model, meets_demands
from fewtubes.selection.solver import Ending
from fewtubes.selection.stage import (
    Stage,
    best_known,
    cut_off,
    figure_limit,
    holding,
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
        The instance. The figures of a palette are counted in whole numbers, however large; where
        they are larger than the solver can tell apart, more runs of it are needed for a proof.
    time_limit_s
        Time allowed for all stages together [s].
    most_ties
        How many palettes that tie in every figure to list. With 1 no other is looked for and
        a choice of any tubes is not called complete; with more, those found are listed.
    start
        A palette known from another exact method, believed to be best: each stage then mainly
        proves that there is none better. One that does not meet the demands is ignored.
    """
    run = _Run(instance, perf_counter(), time_limit_s, start)
    try:
        return run.choice(most_ties)
    except TimeoutError:
        return run.stopped()


@dataclass(eq=False)
class _Run:
    """One run through all stages, and what is known so far."""

    instance: ChoiceInstance
    began: float
    time_limit_s: float
    start: Palette | None
    best: Palette | None = None
    bound: int = 0
    nodes: int = 0
    fixed: dict[Figure, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.best = best_known(self.instance, Figure.VALUE, self.start)
        self.bound = figure_limit(self.instance, Figure.VALUE)

    @property
    def deadline(self) -> float:
        """Value of `perf_counter` at which to stop."""
        return self.began + self.time_limit_s

    @cached_property
    def model(self) -> Model:
        """The program, built when it is needed for the first time; raises TimeoutError."""
        return build_model(self.instance, in_steps=True, deadline=self.deadline)

    def choice(self, most_ties: int) -> Choice:
        """Settle the figures in turn, then list ties; raises TimeoutError."""
        if self.bound < self.instance.least_value:
            return self._impossible()
        for figure in Figure:
            stage = self._stage(figure)
            self.nodes += stage.nodes
            if stage.infeasible:
                return self._impossible()
            self.best = stage.palette
            if figure is Figure.VALUE:
                self.bound = stage.bound
            if self.best is None or not stage.proven:
                return self.stopped()
            self.fixed[figure] = figure.of(self.best)
        ties, complete = self._ties(most_ties)
        return Choice(ties, complete, self._certificate(Status.PROVEN, self.bound))

    def stopped(self) -> Choice:
        """Return what is known when time has run out."""
        value = self.best.value if self.best else 0
        certificate = self._certificate(Status.STOPPED, value)
        return Choice((self.best,) if self.best else (), False, certificate)

    def _impossible(self) -> Choice:
        """Return that the demands cannot be met."""
        self.bound = 0
        return Choice((), True, self._certificate(Status.INFEASIBLE, 0))

    def _stage(self, figure: Figure) -> Stage:
        """Settle one figure; without the solver if the best known cannot be bettered."""
        limit = figure_limit(self.instance, figure)
        if self.best is not None and figure.of(self.best) == limit:
            return Stage(self.best, limit, proven=True, infeasible=False, nodes=0)
        return run_stage(
            self.instance,
            self.model,
            figure,
            fixed=self.fixed,
            best=self.best,
            deadline=self.deadline,
            proof_only=self.start is not None,
        )

    def _ties(self, most_ties: int) -> tuple[tuple[Palette, ...], bool]:
        """List palettes of the same rank, ruling out one after another; tell if these are all."""
        first = self.best
        assert first is not None  # noqa: S101  # settled by the caller
        if not first.bought:
            return (first,), True  # ties have as many tubes, and there is only one empty palette
        if most_ties <= 1:
            return (first,), False
        rows = [*holding(self.model, self.fixed), cut_off(self.model, first, first.value)]
        ties = [first]
        complete = False
        while True:
            outcome = solve_figure(self.model, Figure.FADE_SUM, rows, self.deadline)
            self.nodes += outcome.nodes
            if not outcome.values:
                complete = outcome.ending is Ending.INFEASIBLE
                break
            found = read_palette(self.model, self.instance, outcome.values)
            rows.append(cut_off(self.model, found, first.value))
            if found.rank > first.rank or not meets_demands(self.instance, found):
                continue  # let in by the solver's tolerances
            if found.rank < first.rank:
                raise DefectError(f"{found} ranks before {first}, which was proven best")
            if len(ties) == most_ties:
                break
            ties.append(found)
        return tuple(sorted(ties, key=lambda p: p.bought)), complete

    def _certificate(self, status: Status, value: int) -> Certificate:
        """Return what is known by now."""
        return Certificate(
            status, Method.PROGRAM, value, self.bound, self.nodes, perf_counter() - self.began
        )
