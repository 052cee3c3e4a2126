"""The plan as a report in the terminal."""

from rich.console import Console

from fewtubes.report.sentences.asked import asked_words
from fewtubes.report.sentences.misses import misses_words
from fewtubes.report.sentences.more_money import more_money_words
from fewtubes.report.sentences.proof import note_words
from fewtubes.report.sentences.steadiness import steadiness_aside
from fewtubes.report.sentences.trade_offs import fading_words
from fewtubes.report.terminal.layout import heading, paragraph, plain, put
from fewtubes.report.terminal.palette import print_owned, print_to_buy, print_traits
from fewtubes.report.terminal.proof import print_proof
from fewtubes.report.terminal.recipes import print_flower_coverage, print_recipes
from fewtubes.report.terminal.steadiness import print_steadiness
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.shares import percent

__all__ = ["print_plan"]


def print_plan(plan: Plan, console: Console, *, show_all: bool = False) -> None:
    """Print the whole answer.

    Parameters
    ----------
    plan
        The answer.
    console
        Where to print; its width and colours are respected.
    show_all
        Whether the steps between swatches are listed one by one, as the swatches are.
    """
    _print_question(plan, console)
    _print_answer(plan, console)
    print_to_buy(plan, console)
    print_owned(plan, console)
    print_flower_coverage(plan, console)
    print_recipes(plan, console, show_all=show_all)
    print_traits(plan, console)
    print_proof(plan, console)
    if plan.steadiness is not None:
        print_steadiness(plan, plan.steadiness, console, show_all=show_all)
    _print_cautions(plan, console)


def _print_question(plan: Plan, console: Console) -> None:
    scenario = plan.scenario
    put(console, plain(scenario.title, "bold"))
    if scenario.shows:
        paragraph(console, scenario.shows)
    paragraph(console, asked_words(scenario, plan.catalogue_label))


def _print_answer(plan: Plan, console: Console) -> None:
    heading(console, "Answer")
    scenario = plan.scenario
    covered = sum(planned.covered for planned in plan.samples)
    bought = counted(len(plan.bought), "tube")
    to_buy = f"{bought} to buy for {money(plan.cost, scenario.currency)}"
    left = money(scenario.budget_hundredths - plan.cost, scenario.currency)
    paragraph(
        console,
        f"{to_buy if plan.bought else 'Nothing to buy'}; {left} of the budget is left. Covered:"
        f" {percent(plan.coverage)} of what is to be painted ({covered} of"
        f" {counted(len(plan.samples), 'colour')}, counted by importance)"
        f"{steadiness_aside(plan)}."
        f" {note_words(plan)}.",
    )
    for said in (misses_words(plan), more_money_words(plan), fading_words(plan)):
        if said:
            paragraph(console, said)


def _print_cautions(plan: Plan, console: Console) -> None:
    heading(console, "Take care")
    for caution in plan.cautions:
        tubes = f" ({joined(list(caution.tubes))})" if caution.tubes else ""
        paragraph(console, f"- {caution.text}{tubes}")
