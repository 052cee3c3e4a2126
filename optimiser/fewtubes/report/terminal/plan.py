"""The plan as a report in the terminal: short, or in full."""

from rich.console import Console

from fewtubes.report.terminal.class_share import print_class
from fewtubes.report.terminal.head import print_answer, print_asked
from fewtubes.report.terminal.layout import bullet, heading
from fewtubes.report.terminal.paint import print_paint
from fewtubes.report.terminal.palette import print_owned, print_to_buy, print_traits
from fewtubes.report.terminal.proof import print_proof
from fewtubes.report.terminal.recipes import print_flower_coverage, print_recipes
from fewtubes.report.terminal.short_plan import print_short
from fewtubes.report.terminal.steadiness import print_steadiness
from fewtubes.shopping.plan import Plan
from fewtubes.words.lists import joined

__all__ = ["print_plan"]


def print_plan(plan: Plan, console: Console, *, full: bool = False) -> None:
    """Print the answer.

    Parameters
    ----------
    plan
        The answer.
    console
        Where to print; its width and colours are respected.
    full
        Whether to print all of it; else what one buys, mixes and has to know.
    """
    print_asked(plan.scenario, plan.catalogue_label, console, names=plan.names, full=full)
    print_answer(plan, console)
    if not full:
        print_short(plan, console)
        return
    print_to_buy(plan, console)
    print_owned(plan, console)
    print_class(plan, console)
    print_paint(plan, console, full=True)
    print_flower_coverage(plan, console)
    print_recipes(plan, console)
    print_traits(plan, console)
    print_proof(plan, console)
    if plan.steadiness is not None:
        print_steadiness(plan, plan.steadiness, console)
    _print_cautions(plan, console)


def _print_cautions(plan: Plan, console: Console) -> None:
    heading(console, "Take care")
    for caution in plan.cautions:
        tubes = f" ({joined(list(caution.tubes))})" if caution.tubes else ""
        bullet(console, f"{caution.text}{tubes}")
