"""Coverage against cost in the illustrated report: the whole front, sizes, what floors cost."""

from collections.abc import Sequence

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.compare import Comparison, Size
from fewtubes.picture.front_steps import Step, front_steps
from fewtubes.picture.parts import tube_dabs
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.svg import svg_inline
from fewtubes.report.compare_front_text import floor_sentence, milestone_words
from fewtubes.report.illustrated_basis import Basis
from fewtubes.report.illustrated_html import Html, element, listed, paragraph, together
from fewtubes.report.printable import printable
from fewtubes.report.words import counted, joined, money, percent
from fewtubes.shopping.plan import Plan

__all__ = ["front_body", "front_picture"]


def front_body(basis: Basis, comparison: Comparison) -> Html:
    """Return the body of the section: picture, prices of round coverages, sizes, floors.

    Parameters
    ----------
    basis
        The plan with its paper and light.
    comparison
        Palettes of the plan's scenario side by side.
    """
    picture = front_picture(basis.plan, comparison, basis.sheet)
    if picture is None:
        return paragraph("There is no palette to compare, or nothing to paint.")
    front = comparison.floors[0].front
    proof = (
        "Every step is proven: none covers more for as little, and none is missing."
        if front.complete
        else "Not every step is proven; a question mark stands at those that are not."
    )
    lead = paragraph(
        f"Each dab is a palette: the most that can be covered for its money. {proof} The ring is"
        f" the plan{_cheaper_words(basis.plan, comparison)}. {milestone_words(comparison)}"
    )
    drawn = element("figure", Html(svg_inline(picture, prefix="front-")), class_="steps")
    floors = [floor_sentence(comparison, kept) for kept in comparison.floors[1:]]
    asking = together(paragraph("Asking for more of every tube:"), listed(floors)) if floors else ""
    return together(lead, drawn, _sizes(basis, comparison), asking)


def front_picture(plan: Plan, comparison: Comparison, sheet: Sheet) -> Picture | None:
    """Return the picture of the front, None if there is no step or nothing to paint."""
    steps = [
        Step(step.palette.cost, comparison.share(step.palette.value), step.proven)
        for step in comparison.floors[0].front.steps
    ]
    if not steps or comparison.total == 0:
        return None
    return front_steps(
        steps,
        sheet,
        budget=plan.scenario.budget,
        chosen=Step(plan.cost, plan.coverage, proven=True),
        currency=plan.scenario.currency,
    )


def _cheaper_words(plan: Plan, comparison: Comparison) -> str:
    """Return which palette covers as much for less money, and why it is not the plan; or ``""``."""
    as_good = (
        step.palette
        for step in comparison.floors[0].front.steps
        if comparison.share(step.palette.value) >= plan.coverage
    )
    palette = next(as_good, None)
    if palette is None or palette.cost >= plan.cost:
        return ""
    price = money(palette.cost, plan.scenario.currency)
    more = len(palette.bought) - len(plan.bought)
    but = f", but with {counted(more, 'tube')} more" if more > 0 else ""
    return f"; {price} would cover as much{but}"


def _sizes(basis: Basis, comparison: Comparison) -> Html:
    """Return the table of the best palette of each number of tubes within the budget."""
    titles = ("Tubes to buy", "Covers", "Price")
    figures = [element("th", title, scope="col", class_="number") for title in titles]
    head = element("tr", *figures, element("th", "Which", scope="col"))
    sizes = [size for size in comparison.sizes if size.palette.bought]
    if not sizes:
        return Html("")
    rows = [_size(basis, comparison, size) for size in sizes]
    table = element(
        "table",
        element("caption", "The best palette of each number of tubes within the budget."),
        element("thead", head),
        element("tbody", *rows),
    )
    return together(table, *_care(basis, comparison, sizes))


def _size(basis: Basis, comparison: Comparison, size: Size) -> Html:
    bought = _bought(comparison, size)
    names = joined([printable(tube.name) for tube in bought])
    currency = comparison.question.scenario.currency
    dabs = Html(svg_inline(tube_dabs(bought, basis.optics, basis.sheet), prefix="", spoken=False))
    return element(
        "tr",
        element("th", str(len(bought)), scope="row", class_="number"),
        element("td", percent(comparison.share(size.palette.value)), class_="number"),
        element("td", money(size.palette.cost, currency), class_="number"),
        element("td", element("div", dabs, class_="dabs"), names),
    )


def _bought(comparison: Comparison, size: Size) -> list[Tube]:
    return [comparison.question.tubes[number] for number in size.palette.bought]


def _care(basis: Basis, comparison: Comparison, sizes: Sequence[Size]) -> list[Html]:
    """Return a caution for tubes of the table that the plan, and so its own cautions, lacks."""
    tubes = {tube.id: tube for size in sizes for tube in _bought(comparison, size)}
    harmful = [tube for id_, tube in tubes.items() if tube.hazards and id_ not in basis.tubes]
    if not harmful:
        return []
    held = [
        f"{printable(tube.name)} ({joined([hazard.value for hazard in tube.hazards])})"
        for tube in harmful
    ]
    words = (
        f"Not in the plan, and harmful if it gets into the mouth, the lungs or on the skin:"
        f" {joined(held)}. The maker's label and the safety data sheet decide."
    )
    return [paragraph(words, class_="key")]
