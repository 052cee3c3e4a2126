"""From an answer to its illustrated report, step by step: drawn, compared, drawn again.

The command line goes through all steps at once, the page shows each as it comes. Nothing is posed,
mixed or drawn twice.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from markupsafe import Markup

from fewtubes.comparison.compare import compared
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.extent import extent_for
from fewtubes.comparison.sold_out import if_sold_out
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.files import picture_files
from fewtubes.report.illustrated.front import front_body
from fewtubes.report.illustrated.page import COSTS, Section, illustrated_page, plan_sections

if TYPE_CHECKING:
    from fewtubes.shopping.shop import Answered

__all__ = ["STAND_INS_SECONDS", "AnswerReport"]

STAND_INS_SECONDS = 5.0
"""Longest time for what stands in for tubes that are sold out [s]; tenths are usual."""


@dataclass(frozen=True, eq=False)
class AnswerReport:
    """An answer with everything that is drawn of it."""

    answered: "Answered"
    stand_ins_seconds: float = STAND_INS_SECONDS
    """Time for what stands in for tubes that are sold out [s]."""

    @cached_property
    def basis(self) -> Basis:
        """The plan with its paper and light, and what stands in for its tubes."""
        plan, question = self.answered.plan, self.answered.question
        sold_out = if_sold_out(question, plan, seconds=self.stand_ins_seconds)
        return Basis(plan, question.optics, sold_out)

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """The parts of the page; that of coverage against cost is empty as yet."""
        return tuple(plan_sections(self.basis, Markup()))

    def comparison(
        self, seconds: float, progress: Callable[[str], None] = lambda _stage: None
    ) -> Comparison:
        """Return palettes of the same question side by side, within a time [s]."""
        extent = extent_for(self.answered.plan, seconds=seconds)
        return compared(self.answered.question, extent, progress=progress)

    def costs(self, comparison: Comparison) -> Markup:
        """Return coverage against cost."""
        return front_body(self.basis, comparison)

    def page(self, costs: Markup | None = None) -> str:
        """Return the whole page, with coverage against cost once that is known."""
        if costs is None:
            return illustrated_page(self.basis, self.sections)
        filled = [replace(it, body=costs) if it.id == COSTS else it for it in self.sections]
        return illustrated_page(self.basis, filled)

    def pictures(self, comparison: Comparison) -> Mapping[str, str | bytes]:
        """Return the pictures as files, by name."""
        return picture_files(self.basis, comparison=comparison)
