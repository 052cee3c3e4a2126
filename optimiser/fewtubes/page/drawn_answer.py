"""An answer as the page shows it: drawn by the process that found it."""

from collections.abc import Mapping
from dataclasses import dataclass

from fewtubes.page.short_answer import ShortAnswer, short_answer
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.svg import svg_inline
from fewtubes.report.illustrated.handout_page import handout_page
from fewtubes.report.illustrated.page import Section, inks_style
from fewtubes.report.illustrated.palette import palette_ribbon
from fewtubes.report.illustrated.report import AnswerReport
from fewtubes.shopping.plan import Plan

__all__ = ["Answer", "drawn_answer"]


@dataclass(frozen=True, eq=False)
class Answer:
    """A plan with everything the page shows of it."""

    plan: Plan
    ribbon: str
    """Markup: one dab a tube."""
    sections: tuple[Section, ...]
    pairs: Mapping[tuple[str, str], str]
    """Markup of the colour wanted beside its mix, by flower and name of the colour."""
    inks: str
    """Style sheet with the paper's colour and the inks."""
    short: ShortAnswer
    """What is shown before anything is unfolded."""
    handout: str = ""
    """The hand-out for each painter of a class, a page of its own; blank without a class."""

    @property
    def parts(self) -> Mapping[str, Section]:
        """The sections by id."""
        return {section.id: section for section in self.sections}


def drawn_answer(report: AnswerReport) -> Answer:
    """Return the answer drawn, with the parts of its illustrated report."""
    basis = report.basis
    plan, sheet = basis.plan, basis.sheet
    return Answer(
        plan=plan,
        ribbon=str(palette_ribbon(basis)),
        sections=report.sections,
        pairs={
            (planned.sample.flower, planned.sample.name): svg_inline(
                pair_picture(planned, basis.tubes, basis.optics, sheet), prefix="", spoken=False
            )
            for planned in plan.samples
        },
        inks=inks_style(sheet),
        short=short_answer(basis),
        handout="" if plan.scenario.group is None else handout_page(basis),
    )
