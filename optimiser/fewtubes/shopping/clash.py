"""Demands that cannot all be met, in words: which clash, and what would do."""

from fewtubes.catalogue.exact import exact
from fewtubes.errors import ClashError
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.feasibility import ClashReport, Demand, NearestFigure, explain_clash
from fewtubes.shopping.question import Question

__all__ = ["clash_message", "refused_must_have"]

QUESTIONS = 9
"""Most questions `explain_clash` asks."""


def refused_must_have(question: Question) -> None:
    """Raise ClashError if a must-have tube is kept out of use by another wish."""
    lines = [
        f"'{question.catalogue.tubes[id_].name}' ({id_}) is a must-have tube, but"
        f" {question.refused[id_]}; take it off one of the two lists or change the wish."
        for id_ in question.scenario.wishes.must_have
        if id_ in question.refused
    ]
    if lines:
        raise ClashError("\n".join(lines))


def clash_message(question: Question, choice: Choice, *, seconds: float) -> str:
    """Say why there is no palette."""
    if choice.certificate.status is Status.STOPPED:
        return (
            f"no palette that meets all demands was found in {seconds:g} s, and it is not proven"
            " that there is none; allow more time or ask for less."
        )
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
    words = {
        Demand.MUST_HAVE: "the must-have tubes",
        Demand.BUDGET: f"the budget of {_money(question, question.scenario.budget_hundredths)}",
        Demand.MOST_TUBES: f"at most {most} tube{'' if most == 1 else 's'}",
        Demand.LEAST_VALUE: f"a coverage of at least {float(100 * exact(least)):g} %",
    }
    told = []
    for clash in report.clashes:
        named = [words[demand] for demand in Demand if demand in clash]
        if len(named) == 1:
            told.append(f"{named[0]} cannot be met with these tubes and wishes")
        else:
            told.append(f"{', '.join(named[:-1])} and {named[-1]} clash")
    return "; ".join(told) + "."


def _remedy(question: Question, remedy: NearestFigure) -> str:
    """Say what would do if one demand alone gave way; "" if nothing would."""
    if remedy.figure is None:
        return ""
    sure = remedy.status is Status.PROVEN
    if remedy.demand is Demand.BUDGET:
        at = "The smallest budget that would do is" if sure else "A budget that would do is"
        return f"{at} {_money(question, remedy.figure)}."
    if remedy.demand is Demand.MOST_TUBES:
        at = "The fewest tubes that would do are" if sure else "A number of tubes that would do is"
        return f"{at} {remedy.figure}."
    total = sum(question.instance.weights)
    at = "The greatest coverage within the rest is" if sure else "A coverage that can be had is"
    return f"{at} {_rounded_down(remedy.figure, total)}." if total else ""


def _rounded_down(part: int, whole: int) -> str:
    """Return part ÷ whole in per cent; rounded up it could not be reached when asked for."""
    return f"{1000 * part // whole / 10:g} %"


def _money(question: Question, hundredths: int) -> str:
    """Return an amount with its currency."""
    return f"{question.scenario.currency} {hundredths / 100:.2f}"
