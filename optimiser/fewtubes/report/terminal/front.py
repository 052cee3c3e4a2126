"""Coverage against cost in the terminal: a picture of the steps, and what each floor costs."""

from rich.console import Console

from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.floors import CostOfFloor, Floor, FloorFront, cost_of_floor
from fewtubes.comparison.front import Front, FrontStep
from fewtubes.report.sentences.asked import floor_words
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_MOST, DOUBT, MOST_AT_ALL, NO_GAIN, SIGN
from fewtubes.words.proof.comparison import front_proof
from fewtubes.words.shares import percent, percents_apart

__all__ = [
    "floor_lines",
    "floor_sentence",
    "front_chart",
    "milestone_words",
    "milestones",
    "most_words",
    "print_floors",
    "print_front",
]

PICTURE_WIDTH = 64
"""Columns for cost; with the scale and the indent the picture stays within 80."""

PICTURE_HEIGHT = 13
"""Lines for coverage."""

MILESTONES = (0.25, 0.5, 0.75, 0.9, 0.95, 1.0)
"""Coverages whose price is told in words."""


def print_front(comparison: Comparison, console: Console, *, show_all: bool) -> None:
    """Print the picture of the front, its milestones, and all steps if they are asked for."""
    front = comparison.floors[0].front
    heading(console, "Coverage against cost: every step")
    for line in front_chart(
        front,
        total=comparison.total,
        budget=comparison.question.scenario.budget_hundredths,
        currency=comparison.question.scenario.currency,
    ):
        put(console, plain(line))
    paragraph(console, _count_words(front))
    paragraph(console, milestone_words(comparison))
    if show_all:
        _print_steps(comparison, console)


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


def _count_words(front: Front) -> str:
    """Return how many steps there are, and whether all are known."""
    unproven = sum(not step.proven for step in front.steps)
    return front_proof(len(front.steps), unproven, complete=front.complete)


def milestone_words(comparison: Comparison) -> str:
    """Return the price of round coverages, and how much can be reached at all."""
    currency = comparison.question.scenario.currency
    steps = comparison.floors[0].front.steps
    gaining = [step for step in steps if step.palette.cost > 0 and step.palette.value > 0]
    said = [
        f"{percent(comparison.share(step.palette.value))} for"
        f" {AT_MOST.worded(proven=step.proven)}{money(step.palette.cost, currency)}"
        for step in milestones(comparison) or gaining[-1:]
    ]
    nothing = NO_GAIN.worded(proven=steps[-1].sure_up_to_next)
    words = f"For example: {joined(said)}." if said else nothing
    most = most_words(comparison)
    return f"{words} {most}" if most else words


def milestones(comparison: Comparison) -> list[FrontStep]:
    """Return the cheapest steps that reach round coverages, those that cost nothing left out."""
    front = comparison.floors[0].front
    reached = [front.reaching(int(-(-share * comparison.total // 1))) for share in MILESTONES]
    return list(dict.fromkeys(step for step in reached if step and step.palette.cost > 0))


def most_words(comparison: Comparison) -> str:
    """Return the most that any money can buy, if that is not everything, in a sentence."""
    last = comparison.floors[0].front.steps[-1]
    if last.palette.value >= comparison.total:
        return ""
    most = comparison.question.scenario.most_tubes
    limit = "" if most is None else f" with at most {counted(most, 'tube')}"
    known = MOST_AT_ALL.worded(proven=last.sure_up_to_next)
    covered = percent(comparison.share(last.palette.value))
    return f"{known}{covered} is the most that any money can buy{limit}."


def _print_steps(comparison: Comparison, console: Console) -> None:
    price = f"price {comparison.question.scenario.currency}"
    made = table("covers", price, "", "tubes bought", right=("covers", price))
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
    for line in floor_lines(comparison):
        paragraph(console, f"- {line}")


def floor_lines(comparison: Comparison) -> list[str]:
    """Return what each floor costs; floors that cost the same share a sentence."""
    subjects: dict[str, list[str]] = {}
    for kept in comparison.floors[1:]:
        floor, _, price = floor_sentence(comparison, kept).partition(": ")
        subjects.setdefault(price, []).append(floor)
    return [
        f"{'; '.join([floors[0], *(f'{floor[0].lower()}{floor[1:]}' for floor in floors[1:])])}:"
        f" {price}"
        for price, floors in subjects.items()
    ]


def floor_sentence(comparison: Comparison, kept: FloorFront) -> str:
    """Return what a floor costs within the budget, and what winning the loss back would."""
    head = _floor_words(kept.floor)
    if kept.in_the_way:
        names = joined([printable(tube.name) for tube in kept.in_the_way])
        return f"{head}: cannot be had, because the must-have {names} will not do."
    aside = joined([printable(tube.name) for tube in kept.set_aside])
    if aside:
        head = f"{head} (your {aside} left in the box)"
    free = comparison.floors[0].front
    budget = comparison.question.scenario.budget_hundredths
    price = cost_of_floor(free, kept.front, budget)
    best, best_kept = free.within(budget), kept.front.within(budget)
    if price is None or price.lost is None or best is None or best_kept is None:
        return f"{head}: nothing can be bought within the budget."
    if best.palette.value == 0:
        return f"{head}: nothing is gained within the budget, with or without."
    return f"{head}: {_toll_words(comparison, kept.front, price, best, best_kept)}"


def _toll_words(
    comparison: Comparison, kept: Front, price: CostOfFloor, best: FrontStep, best_kept: FrontStep
) -> str:
    """Return what a floor costs, in words, without its subject."""
    currency = comparison.question.scenario.currency
    whole = comparison.share(best.palette.value)
    covered = percent(whole)
    unproven = DOUBT.worded(proven=price.lost_proven and price.extra_proven)
    if price.lost == 0 and price.extra == 0:
        return f"costs nothing{unproven}; {covered} within the budget for as little money."
    lost = "loses nothing within the budget"
    if price.lost:
        still, covered = percents_apart(comparison.share(best_kept.palette.value), whole)
        lost = (
            f"loses {percent(comparison.share(price.lost))} within the budget, covering {still}"
            f" instead of {covered}"
        )
    if price.extra is None:
        most, covered = percents_apart(comparison.share(kept.steps[-1].palette.value), whole)
        return f"{lost}; no money would buy {covered}, the most is {most}{unproven}."
    dear = kept.reaching(best.palette.value)
    full = "" if dear is None else f", {money(dear.palette.cost, currency)} in all"
    if price.extra <= 0:
        return f"{lost}; {covered} costs no more than without{full}{unproven}."
    return f"{lost}; {covered} costs {money(price.extra, currency)} more{full}{unproven}."


def _floor_words(floor: Floor | None) -> str:
    """Return a floor as the subject of a sentence."""
    if floor is None:
        return "The wishes alone"
    words = floor_words(floor)
    throughout = " throughout" if isinstance(floor, Lightfastness) else ""
    return f"{words[0].upper()}{words[1:]}{throughout}"
