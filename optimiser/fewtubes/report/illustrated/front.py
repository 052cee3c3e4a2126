"""Coverage against cost in the illustrated report: the whole front, sizes, what floors cost."""

from collections.abc import Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.comparison import Comparison
from fewtubes.picture.front_steps import Step, front_steps
from fewtubes.picture.parts import tube_dabs
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.svg import svg_inline
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.html import Html, element, listed, paragraph, together
from fewtubes.report.terminal.front import floor_lines, milestones, most_words
from fewtubes.selection.instance import Palette
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.hazards import hazard_words
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import COVERS_MOST, LEGEND, MOST_FOR_MONEY, PALETTE_DOUBT
from fewtubes.words.proof.comparison import END_OF_SIZES_DOUBT, found_in_doubt, picture_proof
from fewtubes.words.shares import percent

__all__ = ["front_body", "front_note", "front_picture"]


@dataclass(frozen=True)
class _Listed:
    """A row of a table."""

    palette: Palette
    proven: bool
    """Whether it is proven to be what the table says of it."""


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
    unproven = sum(not step.proven for step in front.steps)
    proof = picture_proof(unproven, complete=front.complete)
    known = MOST_FOR_MONEY.worded(proven=front.complete)
    lead = paragraph(
        f"Each dab is a palette: the most that {known} for its money. The ring is the"
        f" plan{_cheaper_words(basis.plan, comparison)}. {proof}"
    )
    drawn = element("figure", Html(svg_inline(picture, prefix="front-")), class_="steps")
    most = most_words(comparison)
    return together(
        lead,
        drawn,
        *([paragraph(most)] if most else []),
        *_tables(basis, comparison),
        *_floors(basis, comparison),
    )


def front_note(comparison: Comparison) -> str:
    """Return what is said under the picture where it stands alone."""
    return f"{LEGEND.worded(proven=comparison.floors[0].front.complete)} Ringed: the plan."


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
        budget=plan.scenario.budget_hundredths,
        chosen=Step(plan.cost, plan.coverage, proven=True),
        currency=plan.scenario.currency,
        description=_description(plan, steps),
    )


def _description(plan: Plan, steps: Sequence[Step]) -> str:
    """Return what the picture shows, for whoever does not see it."""
    currency = plan.scenario.currency
    bought = [step for step in steps if step.cost > 0]
    first, last = (bought or steps)[0], steps[-1]
    unproven = sum(not step.proven for step in bought)
    return (
        f"{counted(len(bought), 'palette')}{found_in_doubt(unproven)}, from"
        f" {percent(first.coverage)} for {money(first.cost, currency)} to"
        f" {percent(last.coverage)} for {money(last.cost, currency)};"
        f" the plan, ringed, covers {percent(plan.coverage)} for"
        f" {money(plan.cost, currency)}."
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
    steady = plan.steadiness is not None and not plan.steadiness.ranks_best
    but = (
        f", but with {counted(more, 'tube')} more"
        if more > 0
        else ", but this one is steadier"
        if steady
        else ""
    )
    return f"; {price} would cover as much{but}"


def _tables(basis: Basis, comparison: Comparison) -> list[Html]:
    """Return the cheapest palettes for round coverages, and the best of each number of tubes."""
    cheapest = [_Listed(step.palette, proven=step.proven) for step in milestones(comparison)]
    sized = [
        _Listed(size.palette, proven=size.best.proven)
        for place, size in enumerate(comparison.sizes)
        if size.palette.bought
        and (place == 0 or size.palette != comparison.sizes[place - 1].palette)
    ]
    sure = all(item.proven for item in sized)
    what = COVERS_MOST.worded(proven=sure)
    tables = [
        _table(basis, comparison, palettes, caption)
        for caption, palettes in (
            ("The least money that covers a quarter, half, three quarters, and so on.", cheapest),
            (f"For each number of tubes {what} within the budget.", sized),
        )
        if palettes
    ]
    end = (
        [] if comparison.all_gained or not sized else [paragraph(END_OF_SIZES_DOUBT, class_="key")]
    )
    return [*tables, *end, *_care(basis, comparison, [*cheapest, *sized])]


def _table(basis: Basis, comparison: Comparison, palettes: Sequence[_Listed], caption: str) -> Html:
    """Return palettes one below the other."""
    titles = ("Tubes to buy", "Covers", "Price")
    figures = [element("th", title, scope="col", class_="number") for title in titles]
    head = element("tr", *figures, element("th", "Which", scope="col"))
    return element(
        "table",
        element("caption", caption),
        element("thead", head),
        element("tbody", *(_row(basis, comparison, listed_) for listed_ in palettes)),
    )


def _row(basis: Basis, comparison: Comparison, listed_: _Listed) -> Html:
    palette, bought = listed_.palette, _bought(comparison, listed_.palette)
    names = joined([printable(tube.name) for tube in bought])
    unproven = PALETTE_DOUBT.worded(proven=listed_.proven)
    currency = comparison.question.scenario.currency
    dabs = Html(svg_inline(tube_dabs(bought, basis.optics, basis.sheet), prefix="", spoken=False))
    return element(
        "tr",
        element("th", str(len(bought)), scope="row", class_="number"),
        element("td", percent(comparison.share(palette.value)), class_="number"),
        element("td", money(palette.cost, currency), class_="number"),
        element("td", element("div", dabs, class_="dabs"), names, unproven),
    )


def _bought(comparison: Comparison, palette: Palette) -> list[Tube]:
    return [comparison.question.tubes[number] for number in palette.bought]


def _floors(basis: Basis, comparison: Comparison) -> list[Html]:
    """Return what asking for more of every tube costs."""
    lines = floor_lines(comparison)
    if not lines or basis.plan.coverage == 0:
        return []
    return [paragraph("Asking for more of every tube:"), listed(lines)]


def _care(basis: Basis, comparison: Comparison, palettes: Sequence[_Listed]) -> list[Html]:
    """Return a caution for tubes of the tables that the plan, and so its own cautions, lacks."""
    tubes = {tube.id: tube for item in palettes for tube in _bought(comparison, item.palette)}
    harmful = [tube for id_, tube in tubes.items() if tube.hazards and id_ not in basis.tubes]
    if not harmful:
        return []
    held = [f"{printable(tube.name)} ({hazard_words(tube)})" for tube in harmful]
    words = (
        f"Not in the plan, and harmful if it gets into the mouth, the lungs or on the skin:"
        f" {joined(held)}. The maker's label and the safety data sheet decide."
    )
    return [paragraph(words, class_="key")]
