"""The first lines of an answer in the terminal: what was asked, and what the plan is."""

from rich.console import Console

from fewtubes.report.sentences.asked import NONE_KNOWN, Names, asked_words
from fewtubes.report.sentences.misses import misses_words
from fewtubes.report.sentences.more_money import left_words, more_money_words
from fewtubes.report.sentences.painters import bought_words
from fewtubes.report.sentences.palette import nothing_words
from fewtubes.report.sentences.proof import note_words
from fewtubes.report.sentences.purchase import delivery_aside
from fewtubes.report.sentences.steadiness import steadiness_aside
from fewtubes.report.sentences.trade_offs import fading_words
from fewtubes.report.terminal.layout import heading, paragraph, plain, put
from fewtubes.scenario.names import named_tubes
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.question import Question
from fewtubes.words.counting import counted
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent

__all__ = ["print_answer", "print_asked", "print_in_full", "print_question"]


def print_asked(
    scenario: Scenario,
    catalogue_label: str,
    console: Console,
    *,
    names: Names = NONE_KNOWN,
    what: str = "",
    full: bool = True,
) -> None:
    """Print what was asked.

    Parameters
    ----------
    scenario, catalogue_label
        The question, and where its tubes are from.
    console
        Where to print.
    names
        Of the tubes that it names, by id.
    what
        What is told of it, before its title.
    full
        Whether to print what the scenario itself has to say, too.
    """
    title = printable(scenario.title)
    put(console, plain(f"{what}: {title}" if what else title, "bold"))
    if full and scenario.shows:
        paragraph(console, scenario.shows)
    paragraph(console, asked_words(scenario, catalogue_label, names))


def print_question(question: Question, console: Console, *, what: str) -> None:
    """Print what was asked, and what is told of it, without what the scenario itself has to say."""
    scenario, catalogue = question.scenario, question.catalogue
    names = named_tubes(scenario, catalogue)
    print_asked(scenario, catalogue.label, console, names=names, what=what, full=False)


def print_answer(plan: Plan, console: Console) -> None:
    """Print what to buy for how much, what it covers, and what a little more money would."""
    heading(console, "Answer")
    scenario = plan.scenario
    covered = sum(planned.covered for planned in plan.samples)
    bought = bought_words(plan)
    price = f"{money(plan.cost, scenario.currency)}{delivery_aside(plan)}"
    to_buy = f"{bought} to buy for {price}"
    paragraph(
        console,
        f"{to_buy if plan.bought else 'Nothing to buy'}; {left_words(plan)}. Covered:"
        f" {percent(plan.coverage)} of what is to be painted ({covered} of"
        f" {counted(len(plan.samples), 'colour')}, counted by importance)"
        f"{steadiness_aside(plan)}."
        f" {note_words(plan)}.",
    )
    nothing = "" if plan.bought else f"Why nothing: {nothing_words(plan)}"
    for said in (nothing, misses_words(plan), more_money_words(plan), fading_words(plan)):
        if said:
            paragraph(console, said)


def print_in_full(console: Console, rest: str) -> None:
    """Print what the short form of an answer leaves out, and how to have it."""
    paragraph(console, f"--full tells the rest: {rest}.")
