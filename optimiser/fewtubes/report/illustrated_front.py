"""Coverage against cost in the illustrated report: the whole front, sizes, what floors cost."""

from fewtubes.comparison.compare import Comparison, Size
from fewtubes.picture.front_steps import Step, front_steps
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.svg import svg_inline
from fewtubes.report.compare_front_text import floor_sentence, milestone_words
from fewtubes.report.illustrated_html import Html, element, listed, paragraph, together
from fewtubes.report.printable import printable
from fewtubes.report.words import counted, joined, money, percent
from fewtubes.shopping.plan import Plan

__all__ = ["front_body", "front_picture"]


def front_body(plan: Plan, comparison: Comparison, sheet: Sheet) -> Html:
    """Return the body of the section: picture, prices of round coverages, sizes, floors."""
    picture = front_picture(plan, comparison, sheet)
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
        f" the plan. {milestone_words(comparison)}"
    )
    drawn = element("figure", Html(svg_inline(picture, prefix="front-")), class_="steps")
    floors = [floor_sentence(comparison, kept) for kept in comparison.floors[1:]]
    asking = together(paragraph("Asking for more of every tube:"), listed(floors)) if floors else ""
    return together(lead, drawn, _sizes(comparison), asking)


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


def _sizes(comparison: Comparison) -> Html:
    """Return the table of the best palette of each number of tubes within the budget."""
    titles = ("Tubes to buy", "Covers", "Price", "Which")
    head = element("tr", *(element("th", title, scope="col") for title in titles))
    rows = [_size(comparison, size) for size in comparison.sizes if size.palette.bought]
    if not rows:
        return Html("")
    return element(
        "table",
        element("caption", "The best palette of each number of tubes within the budget."),
        element("thead", head),
        element("tbody", *rows),
        class_="stacking",
    )


def _size(comparison: Comparison, size: Size) -> Html:
    tubes = comparison.question.tubes
    names = joined([printable(tubes[number].name) for number in size.palette.bought])
    currency = comparison.question.scenario.currency
    return element(
        "tr",
        element("th", counted(len(size.palette.bought), "tube"), scope="row"),
        element("td", percent(comparison.share(size.palette.value)), class_="number"),
        element("td", money(size.palette.cost, currency), class_="number"),
        element("td", names),
    )
