"""What one buys, mixes and has to know of a plan, in the terminal; the rest is told in full."""

from rich.console import Console

from fewtubes.report.sentences.proof import plan_standing, ties_words
from fewtubes.report.sentences.steadiness import expected_words, rival_words
from fewtubes.report.sentences.trade_offs import short_trade_off_words
from fewtubes.report.terminal.class_share import print_class
from fewtubes.report.terminal.head import print_in_full
from fewtubes.report.terminal.layout import bullet, heading, paragraph
from fewtubes.report.terminal.missed import print_missed
from fewtubes.report.terminal.paint import print_paint
from fewtubes.report.terminal.short_list import print_list
from fewtubes.report.terminal.short_puddles import print_puddles
from fewtubes.shopping.plan import Plan
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent

__all__ = ["print_short"]

COMPUTED = "Paints are computed, not measured: try a mix before you rely on it."

LEFT_OUT = "steadiness, steps, other tubes, what was searched"


def print_short(plan: Plan, console: Console) -> None:
    """Print list, coverage, puddles, what is out of reach or given up, proof and cautions."""
    print_list(plan, console)
    print_class(plan, console)
    print_paint(plan, console, full=False)
    _print_coverage(plan, console)
    print_missed(plan, console, reasons=not plan.coverage and not plan.more_money)
    print_puddles(plan, console)
    heading(console, "How sure, and what is given up")
    for said in _sure_and_given_up(plan):
        paragraph(console, said)
    print_in_full(console, LEFT_OUT)
    _print_cautions(plan, console)


def _print_coverage(plan: Plan, console: Console) -> None:
    """Print the flowers by how much of them is covered: a line for all that are covered whole."""
    heading(console, "Covered")
    if not plan.coverage:
        paragraph(console, "Nothing.")
        return
    by_share: dict[str, list[str]] = {}
    for flower in sorted(plan.flowers, key=lambda flower: -flower.coverage):
        part = f" ({flower.covered} of {flower.total})" if flower.covered < flower.total else ""
        name = f"{printable(flower.name)}{part}"
        by_share.setdefault(percent(flower.coverage), []).append(name)
    for share, names in by_share.items():
        paragraph(console, f"{share}: {in_a_row(names)}")


def _sure_and_given_up(plan: Plan) -> list[str]:
    """Return what is proven, and what the palette's weakest tubes cost, a line each."""
    said = [f"{plan_standing(plan)} {COMPUTED}"]
    if plan.ties > 1:
        said.append(ties_words(plan))
    if plan.steadiness is not None:
        said += [expected_words(plan, plan.steadiness), rival_words(plan, plan.steadiness)]
    if plan.lasting is None:
        said.append(short_trade_off_words("Lightfastness", plan.lightfastness, plan))
    said.append(short_trade_off_words("Hiding", plan.opacity, plan))
    return [*filter(None, said)]


def _print_cautions(plan: Plan, console: Console) -> None:
    """Print every caution in a few words: a line for each that is about some tubes."""
    heading(console, "Take care")
    for caution in plan.cautions:
        if caution.tubes:
            names = in_a_row([printable(name) for name in caution.tubes])
            text = (caution.short or caution.text).rstrip(".")
            bullet(console, f"{text} ({names})")
    general = [it.short or it.text for it in plan.cautions if not it.tubes]
    paragraph(console, " ".join(general))
