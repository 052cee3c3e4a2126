"""Coverage against cost in the terminal: a picture of the steps, and what each floor costs."""

from rich.console import Console

from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.front_steps import Front
from fewtubes.report.sentences.front import floor_groups, milestone_words
from fewtubes.report.sentences.painters import kind_bought
from fewtubes.report.terminal.layout import INDENT, bullet, heading, paragraph, plain, put, table
from fewtubes.words.lists import in_a_row
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import SIGN
from fewtubes.words.proof.comparison import front_proof
from fewtubes.words.shares import percent

__all__ = ["front_chart", "print_floors", "print_front"]

PICTURE_WIDTH = 64
"""Columns for cost; with the scale and the indent the picture stays within 80."""

PICTURE_HEIGHT = 13
"""Lines for coverage."""


def print_front(comparison: Comparison, console: Console, *, full: bool) -> None:
    """Print the milestones of the front; in full its picture and all steps, too."""
    front = comparison.floors[0].front
    heading(console, f"Coverage against cost{': every step' if full else ''}")
    if full:
        _print_chart(comparison, console)
    paragraph(console, _count_words(front, fitted=comparison.question.fitted_paints))
    paragraph(console, milestone_words(comparison))
    if full:
        _print_steps(comparison, console)


def _print_chart(comparison: Comparison, console: Console) -> None:
    front = comparison.floors[0].front
    for line in front_chart(
        front,
        total=comparison.total,
        budget=comparison.question.scenario.budget_hundredths,
        currency=comparison.question.scenario.currency,
    ):
        put(console, plain(line))


def front_chart(front: Front, *, total: int, budget: int, currency: str) -> list[str]:
    """Return the lines of a picture: to the right dearer, upwards more covered.

    An ``o`` is a step (``?`` if not proven), dashes tell how far it is the most that can be had,
    dots mark the budget.

    Parameters
    ----------
    front
        The steps.
    total
        Weight of everything to be painted.
    budget, currency
        The scenario's, in hundredths.
    """
    if not front.steps or total == 0:
        return ["  Nothing can be drawn: there is no palette, or nothing to paint."]
    first, last = front.steps[0].palette.cost, front.steps[-1].palette.cost
    span = max(1, last - first)

    def column(cost: int) -> int:
        return round((PICTURE_WIDTH - 1) * (cost - first) / span)

    def line_of(value: int) -> int:
        return round((PICTURE_HEIGHT - 1) * (1 - value / total))

    sheet = [[" "] * PICTURE_WIDTH for _ in range(PICTURE_HEIGHT)]
    if first <= budget <= last:
        for line in sheet:
            line[column(budget)] = ":"
    ends = [column(step.palette.cost) for step in front.steps[1:]] + [PICTURE_WIDTH]
    for step, end in zip(front.steps, ends, strict=True):
        line = sheet[line_of(step.palette.value)]
        start = column(step.palette.cost)
        for place in range(start + 1, end):
            if line[place] == " ":
                line[place] = "-"
        line[start] = "o" if step.proven and line[start] != "?" else "?"
    scale = {0: "100 %", (PICTURE_HEIGHT - 1) // 2: "50 %", PICTURE_HEIGHT - 1: "0 %"}
    drawn = [
        f"  {scale.get(number, ''):>5} |{''.join(line).rstrip()}"
        for number, line in enumerate(sheet)
    ]
    return [*drawn, *_cost_scale(first, last, budget, currency, column_of_budget=column(budget))]


def _cost_scale(
    first: int, last: int, budget: int, currency: str, *, column_of_budget: int
) -> list[str]:
    """Return the line below the picture, and that which names prices."""
    left, right = money(first, currency), amount(last)
    line = left + right.rjust(PICTURE_WIDTH - len(left))
    said = [f"        +{'-' * PICTURE_WIDTH}", f"         {line}"]
    if first <= budget <= last:
        mark = f"budget {amount(budget)}"
        start = min(max(0, column_of_budget - len(mark) // 2), PICTURE_WIDTH - len(mark))
        said.append(f"         {' ' * start}{mark}")
    return said


def _count_words(front: Front, *, fitted: bool) -> str:
    """Return how many steps there are, and whether all are known."""
    unproven = sum(not step.proven for step in front.steps)
    return front_proof(len(front.steps), unproven, complete=front.complete, fitted=fitted)


def _print_steps(comparison: Comparison, console: Console) -> None:
    kind = kind_bought(comparison.question.scenario.group)
    price = f"price {comparison.question.scenario.currency}"
    made = table("covers", price, "", f"{kind}s bought", right=("covers", price))
    for step in comparison.floors[0].front.steps:
        tubes = [
            printable(comparison.question.tubes[number].name) for number in step.palette.bought
        ]
        made.add_row(
            percent(comparison.share(step.palette.value)),
            amount(step.palette.cost),
            SIGN.worded(proven=step.proven),
            plain(in_a_row(tubes) or "none"),
        )
    put(console, made)


def print_floors(comparison: Comparison, console: Console) -> None:
    """Print what asking for lasting or transparent tubes everywhere would cost."""
    heading(console, "What lasting or transparent tubes throughout would cost")
    if len(comparison.floors) == 1:
        paragraph(console, "Nothing: the wishes ask for the strictest of both already.")
    for group in floor_groups(comparison):
        bullet(console, group.head)
        for floor in group.floors:
            bullet(console, floor, indent=2 * INDENT)
