"""What is said on the page of buying bit by bit."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.report.sentences.instalments import answer_sentence, fading_sentence, terms_sentences
from fewtubes.report.sentences.instalments_at_once import comparison_sentence
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan

__all__ = ["ORDER_WORDS", "bought_others"]


def bought_others(found: Instalments, answer: Plan | None) -> str:
    """Return that the last answer's question is another, "" if it is not."""
    if answer is None or _asked(answer.scenario) == _asked(found.question.scenario):
        return ""
    return "This was asked before your last answer, whose question is another; ask again for it."


def _asked(scenario: Scenario) -> tuple[object, ...]:
    """Return what a question asks for, but for the money."""
    group = scenario.group
    return (
        None if group is None else replace(group, levy=None),
        scenario.picture,
        scenario.flowers,
        scenario.own_colours,
        scenario.wishes,
        scenario.tolerance,
        scenario.currency,
        scenario.most_tubes,
        scenario.paper,
        scenario.light,
        scenario.prefer,
    )


ORDER_WORDS: Mapping[str, Callable[..., object]] = {
    one.__name__: one
    for one in (
        answer_sentence,
        bought_others,
        comparison_sentence,
        fading_sentence,
        terms_sentences,
    )
}
"""By the name under which templates call them."""
