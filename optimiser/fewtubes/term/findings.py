"""The answers to all scenarios of a folder, a row each."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fewtubes.errors import Fault
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Batch", "BatchRow", "row_of"]


@dataclass(frozen=True)
class BatchRow:
    """The answer to one scenario in a few figures, or why there is none."""

    name: str
    """What its results are kept under."""
    file: str
    """Name of its file; "" for a scenario that was read from none."""
    title: str = ""
    """What the scenario is called; "" where it could not be read."""
    faults: tuple[Fault, ...] = ()
    """Why there is no answer; none if there is one."""
    currency: str = ""
    """ISO 4217 code."""
    coverage: float = 0.0
    """Covered importance ÷ total importance [0–1]."""
    cost: int = 0
    """Of all that is bought [hundredths of the currency]."""
    bought: tuple[str, ...] = ()
    """Names of the tubes to buy."""
    proven: bool = False
    """Whether the choice is proven best."""
    most: float = 0.0
    """Coverage that no choice exceeds [0–1]; the coverage itself if the choice is proven best."""
    fitted: bool = False
    """Whether any tube that could be chosen was fitted from swatches."""
    worst_lightfastness: str = ""
    """ASTM D4303 category of the tube in use that fades most; "" where nothing is in use."""
    out_of_reach: int = 0
    """Colours that are not covered."""
    colours: int = 0
    """Colours in all."""
    unreached: tuple[str, ...] = ()
    """Names of the flowers and colours of one's own of which nothing is covered."""
    for_class: bool = False
    """Whether it is for a class, which has a table of its own."""
    done_before: bool = False
    """Whether an earlier run had answered it."""

    @property
    def failed(self) -> bool:
        """Whether there is no answer."""
        return bool(self.faults)

    @property
    def fault(self) -> str:
        """Why there is no answer, on a single line; "" if there is one."""
        return " ".join(self.told)

    @property
    def told(self) -> tuple[str, ...]:
        """The faults one by one, each on a single line, without the name of the row's own file."""
        return tuple(" ".join(self._told(fault).split("\n")) for fault in self.faults)

    def _told(self, fault: Fault) -> str:
        """Return a fault, told within the row."""
        if fault.where == self.file:
            return fault.what
        return str(fault).removeprefix(f"{self.file}, ") if self.file else str(fault)


@dataclass(frozen=True, eq=False)
class Batch:
    """The answers to all scenarios."""

    rows: tuple[BatchRow, ...]
    """In the order of their names."""

    @property
    def failed(self) -> tuple[BatchRow, ...]:
        """Those without an answer."""
        return tuple(row for row in self.rows if row.failed)

    def answers(self) -> "pd.DataFrame":
        """Return the answers, with the columns of ``answers.csv``.

        Returns
        -------
        A row for each scenario, in the order of `rows`:

        `title`, `coverage`, `cost`, `currency`, `tubes`
            What the scenario is called, share that is covered [0–1], price of all that is bought,
            ISO 4217 code, and how many tubes are bought.
        `proven`, `at_most`
            Whether the choice is proven best, and the coverage that no choice exceeds [0–1].
        `lightfastness_at_worst`
            ASTM D4303 category I to V of the tube in use that fades most.
        `out_of_reach`, `colours`
            Colours that are not covered, and all of them.
        `to_buy`, `fault`
            Names of the tubes to buy, parted by semicolons; why there is no answer, missing if
            there is one.
        `results`, `file`
            Name under which the results are kept, missing where there are none, and of the
            scenario's file.
        """
        from fewtubes.term.answers_table import answers_table

        return answers_table(self).frame()


def row_of(plan: Plan, *, name: str, file: str) -> BatchRow:
    """Return the row of an answer."""
    certificate = plan.certificate
    worst = plan.lightfastness.worst
    total = plan.total_weight
    return BatchRow(
        name=name,
        file=file,
        title=plan.scenario.title,
        currency=plan.scenario.currency,
        coverage=plan.coverage,
        cost=plan.cost,
        bought=tuple(tube.tube.name for tube in plan.bought),
        proven=certificate.status is Status.PROVEN,
        most=certificate.bound / total if total else 0.0,
        fitted=plan.fitted_paints,
        worst_lightfastness="" if worst is None else worst.name,
        out_of_reach=sum(not planned.covered for planned in plan.samples),
        colours=len(plan.samples),
        unreached=tuple(one.name for one in plan.flowers if not one.covered),
        for_class=plan.class_share is not None,
    )
