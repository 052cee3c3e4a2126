"""What is known about an answer: its value, the best bound, and whether it is proven."""

from dataclasses import dataclass
from enum import StrEnum

from fewtubes.selection.instance import Palette

__all__ = ["Certificate", "Choice", "Method", "Status"]


class Method(StrEnum):
    """The exact method that gave the answer."""

    SEARCH = "exact search"
    PROGRAM = "integer program"
    BOTH = "exact search and integer program"


class Status(StrEnum):
    """How a solution method ended."""

    PROVEN = "proven best"
    STOPPED = "stopped by a limit"
    INFEASIBLE = "proven impossible"


@dataclass(frozen=True)
class Certificate:
    """Evidence for an answer."""

    status: Status
    """Whether it is proven best, stopped by a limit, or proven impossible."""
    method: Method
    """What gave the answer."""
    value: int
    """Covered weight of the answer, a whole number."""
    bound: int
    """Proven upper bound on the covered weight of any answer; `value` when that is proven best."""
    nodes: int
    """Branches looked at."""
    seconds: float
    """Time it took [s]."""

    @property
    def gap(self) -> float:
        """(bound − value) ÷ bound [0–1], 0 when nothing is left to gain."""
        return 0.0 if self.bound == 0 else (self.bound - self.value) / self.bound


@dataclass(frozen=True)
class Choice:
    """The palettes that tie for best in every ranked figure (first = lowest tube numbers)."""

    palettes: tuple[Palette, ...]
    """All ties, sorted by tube numbers; empty when infeasible; one or more otherwise."""
    complete: bool
    """Whether all ties are listed."""
    certificate: Certificate
