"""The paint that planned pictures take, in the terminal."""

from rich.console import Console

from fewtubes.report.sentences.paint import (
    pack_size_words,
    paint_cells,
    paint_words,
    planned_words,
)
from fewtubes.report.terminal.layout import INDENT, heading, paragraph, plain, put, table
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted

__all__ = ["print_paint"]

NARROW = 80
"""Columns below which each tube is told in a sentence, since a table would break its words."""


def print_paint(plan: Plan, console: Console, *, full: bool) -> None:
    """Print what is taken of each tube and how long it lasts; nothing where it was not asked.

    Parameters
    ----------
    plan, console
        The answer, and where to print.
    full
        Whether to tell every pack size as well.
    """
    paint = plan.paint
    if paint is None:
        return
    heading(console, "Paint")
    paragraph(console, planned_words(plan))
    rows = [paint_cells(it, paint) for it in paint.tubes if it.ml or it.lasts is not None]
    all_planned = counted(paint.picture.pictures, "picture")
    if console.width < NARROW:
        for name, one, planned, held, lasts in rows:
            paragraph(console, name, style="bold")
            said = f"a picture {one}; {all_planned} {planned}; {held}; lasts for {lasts}"
            paragraph(console, said, indent=2 * INDENT)
    elif rows:
        made = table("tube", "a picture", all_planned, "there is", "lasts for")
        for row in rows:
            made.add_row(*map(plain, row))
        put(console, made)
    for said in paint_words(plan):
        paragraph(console, said)
    for said in pack_size_words(plan) if full else ():
        paragraph(console, said)
