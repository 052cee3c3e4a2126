"""Buying bit by bit as one illustrated page: a section for each sum, and the order to pin up."""

from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.report.illustrated.instalment_steps import BoughtBasis, step_body, step_id
from fewtubes.report.illustrated.markup import fill
from fewtubes.report.illustrated.page import Section, report_style, style_digest
from fewtubes.report.sentences.asked import asked_words, counting_words
from fewtubes.report.sentences.instalments import (
    COMPUTED,
    answer_sentence,
    fading_sentence,
    paid_words,
    proof_sentences,
    terms_sentences,
    title_words,
    turn_words,
)
from fewtubes.report.sentences.instalments_at_once import (
    comparison_rows,
    comparison_sentence,
    demanded_sentence,
)
from fewtubes.scenario.demands import LONGEST_PURPOSE
from fewtubes.scenario.names import named_tubes
from fewtubes.shopping.cautions import cautions_for
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["InstalmentsReport"]


@dataclass(frozen=True, eq=False)
class InstalmentsReport:
    """An order of buying with everything that is drawn of it."""

    found: Instalments

    @cached_property
    def basis(self) -> BoughtBasis:
        """The order with what can be mixed at each time."""
        return BoughtBasis(self.found)

    @cached_property
    def ribbon(self) -> Markup:
        """One dab a tube, in the order of buying; those at home apart."""
        tubes, _ = self.basis.parts[-1]
        owned = [planned.tube for planned in tubes if planned.owned]
        bought = [purchase.tube for purchase in self.found.purchases]
        groups = [("to buy, in this order", bought), ("your own", owned)]
        return fill(
            "ribbon.html", groups=[(said, self.basis.dabs(some)) for said, some in groups if some]
        )

    @cached_property
    def steps(self) -> tuple[Section, ...]:
        """A section for each time."""
        return tuple(
            Section(step_id(place), title_words(self.found, place), step_body(self.basis, place))
            for place in range(len(self.found.times))
        )

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """The parts of the page."""
        return (
            *self.steps,
            Section("beside", "Beside buying at once", self._beside()),
            Section("sure", "How sure that is", self._sure()),
            Section("care", "Take care", self.care),
            Section("colours", "A screen is not paint", fill("colours.html")),
            Section("order", "The order, to pin up", self.pinned),
        )

    @cached_property
    def care(self) -> Markup:
        """What to take care of with all that is held in the end."""
        tubes, _ = self.basis.parts[-1]
        told = [(joined([*map(printable, one.tubes)]), one.text) for one in cautions_for(tubes)]
        return fill("care.html", cautions=told)

    @cached_property
    def pinned(self) -> Markup:
        """The order on one line: when, which tubes, for how much."""
        currency = self.found.question.scenario.currency
        turns = [
            (
                turn_words(self.found, place),
                [(self.basis.dabs([one.tube]), printable(one.tube.name)) for one in time.bought],
                paid_words(time, currency),
            )
            for place, time in enumerate(self.found.times)
        ]
        return fill("instalment_order.html", turns=turns)

    def page(self) -> str:
        """Return the whole page."""
        found, scenario = self.found, self.found.question.scenario
        style = report_style(self.basis.sheet)
        label = found.question.catalogue.label
        return fill(
            "instalments.html",
            title=printable(scenario.title),
            style=style,
            style_digest=style_digest(style),
            ribbon=self.ribbon,
            shows=printable(scenario.shows, LONGEST_PURPOSE),
            answer=answer_sentence(found),
            comparison=comparison_sentence(found),
            fading=fading_sentence(found),
            terms=terms_sentences(found),
            asked=asked_words(scenario, label, named_tubes(scenario, found.question.catalogue)),
            sections=self.sections,
            source=printable(label),
        )

    def _beside(self) -> Markup:
        """Return what is given up at each time against buying at once."""
        return fill(
            "instalment_costs.html",
            said=comparison_sentence(self.found),
            currency=self.found.question.scenario.currency,
            rows=comparison_rows(self.found),
            demanded=demanded_sentence(self.found),
        )

    def _sure(self) -> Markup:
        said = [
            proof_sentences(self.found),
            COMPUTED,
            counting_words(self.found.question.counted_to),
        ]
        return fill("sure.html", sentences=[one for one in said if one])
