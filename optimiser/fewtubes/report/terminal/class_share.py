"""What a class buys together, in the terminal."""

from rich.console import Console

from fewtubes.report.sentences.painters import (
    class_share_words,
    class_tube_cells,
    leader_words,
    painters_words,
)
from fewtubes.report.terminal.layout import INDENT, heading, paragraph, plain, put, table
from fewtubes.shopping.plan import Plan

__all__ = ["print_class"]

NARROW = 80
"""Columns below which each paint is told in a sentence, since a table would break its words."""


def print_class(plan: Plan, console: Console) -> None:
    """Print the cost a head, what is left of money and paint, and who decides what is fit.

    Nothing where the scenario is of no class.
    """
    share = plan.class_share
    if share is None:
        return
    heading(console, f"For {painters_words(share.group)}")
    rows = [class_tube_cells(tube) for tube in share.tubes]
    if console.width < NARROW:
        for name, needed, bought, left in rows:
            paragraph(console, name, style="bold")
            said = f"needed {needed}; bought {bought}; left over {left}"
            paragraph(console, said, indent=2 * INDENT)
    elif rows:
        made = table("paint", "needed", "bought", "left over")
        for row in rows:
            made.add_row(*map(plain, row))
        put(console, made)
    for said in class_share_words(share, plan.scenario.currency):
        paragraph(console, said)
    paragraph(console, leader_words(share.group.pupils))
