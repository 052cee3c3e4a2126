"""Demands that cannot all be met, in words: which clash, and what would do."""

from fewtubes.errors import ClashError
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.feasibility import ClashReport, Demand, NearestFigure, explain_clash
from fewtubes.shopping.question import Question
from fewtubes.shopping.refusals import Refusal
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.proof.choice import no_choice_found
from fewtubes.words.proof.claims import (
    FEWEST_TUBES,
    GREATEST_COVERAGE,
    SMALLEST_BUDGET,
    for_fitted,
)
from fewtubes.words.shares import asked_percent, percent_below

__all__ = ["clash_message", "refused_must_have"]

QUESTIONS = 9
"""Most questions `explain_clash` asks."""

CHANGE_A_WISH = "take it off one of the two lists or change the wish"

REMEDIES = {
    Refusal.NOT_FOR_SALE: "name it as owned if you have it, or give it a pack in offers.csv",
    Refusal.TOO_LITTLE: "ask for less of it, or correct its stock in offers.csv",
}
"""What helps where no wish is in the way of a must-have tube."""

AT_HOME = "the box at home has it, so take it off the tubes that must be bought"


def refused_must_have(question: Question) -> None:
    """Raise ClashError if a must-have tube is kept out of use by another wish."""
    lines = [
        f"'{question.catalogue.tubes[id_].name}' ({id_}) is a must-have tube, but"
        f" {question.refused[id_]}; {_way_out(question, id_)}."
        for id_ in question.scenario.wishes.must_have
        if id_ in question.refused
    ]
    if lines:
        raise ClashError("\n".join(lines))


def _way_out(question: Question, id_: str) -> str:
    """Return what helps with a must-have tube that is kept out of use."""
    reason, box = question.refused[id_], question.scenario.wishes.box
    if reason in {Refusal.NOT_FOR_SALE, Refusal.NOT_SOLD} and id_ in box.at_hand:
        return AT_HOME
    return REMEDIES.get(reason, CHANGE_A_WISH)


def clash_message(question: Question, choice: Choice, *, seconds: float) -> str:
    """Say why there is no palette."""
    if choice.certificate.status is Status.STOPPED:
        return no_choice_found(seconds)
    report = explain_clash(question.instance, seconds=max(1.0, seconds / QUESTIONS))
    lines = ["the demands cannot all be met: " + _clashes(question, report)]
    lines += [line for remedy in report.remedies if (line := _remedy(question, remedy))]
    if all(_nothing_would_do(remedy) for remedy in report.remedies):
        lines.append("No budget would do.")
    return "\n".join(lines)


def _nothing_would_do(remedy: NearestFigure) -> bool:
    """Whether it is proven that no figure would do; one not found in time proves nothing."""
    return remedy.figure is None and remedy.status is Status.PROVEN


def _clashes(question: Question, report: ClashReport) -> str:
    """Name the demands that clash."""
    most, least = question.scenario.most_tubes, question.scenario.wishes.least_coverage
    budget = money(question.scenario.budget_hundredths, question.scenario.currency)
    kind = "tube" if question.scenario.group is None else "paint"
    words = {
        Demand.MUST_HAVE: "the must-have tubes",
        Demand.BUDGET: f"the budget of {budget}",
        Demand.MOST_TUBES: f"at most {counted(most or 0, kind)}",
        Demand.LEAST_VALUE: f"a coverage of at least {asked_percent(least)}"
        + for_fitted(fitted=question.fitted_paints),
    }
    told = []
    for clash in report.clashes:
        named = [words[demand] for demand in Demand if demand in clash]
        if len(named) == 1:
            told.append(f"{named[0]} cannot be met with these tubes and wishes")
        else:
            told.append(f"{joined(named)} clash")
    return "; ".join(told) + "."


def _remedy(question: Question, remedy: NearestFigure) -> str:
    """Say what would do if one demand alone gave way; "" if nothing would."""
    if remedy.figure is None:
        return ""
    sure = remedy.status is Status.PROVEN
    if remedy.demand is Demand.BUDGET:
        at = SMALLEST_BUDGET.worded(proven=sure)
        return f"{at} {money(remedy.figure, question.scenario.currency)}."
    if remedy.demand is Demand.MOST_TUBES:
        return f"{FEWEST_TUBES.worded(proven=sure)} {remedy.figure}."
    total = sum(question.instance.weights)
    at = GREATEST_COVERAGE.worded(proven=sure)
    return f"{at} {percent_below(remedy.figure, total)}." if total else ""
