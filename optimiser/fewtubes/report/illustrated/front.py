"""Coverage against cost in the illustrated report: the whole front, sizes, what floors cost."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.comparison import Comparison
from fewtubes.picture.front_steps import Step, front_steps
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.tube_dabs import tube_dabs
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.sentences.front import floor_groups, found_since, milestones, most_words
from fewtubes.report.sentences.painters import kind_bought
from fewtubes.scenario.preference import Prefer
from fewtubes.selection.instance import Palette
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.hazards import hazard_words
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import (
    COVERS_MOST,
    LEAST_THAT_COVERS,
    LEGEND,
    MOST_FOR_MONEY,
    PALETTE_DOUBT,
)
from fewtubes.words.proof.comparison import END_OF_SIZES_DOUBT, found_in_doubt, picture_proof
from fewtubes.words.shares import percent

__all__ = ["front_body", "front_note", "front_picture"]


@dataclass(frozen=True)
class _Listed:
    """A palette of a table."""

    palette: Palette
    proven: bool
    """Whether it is proven to be what the table says of it."""


@dataclass(frozen=True)
class _Row:
    """A palette, as in `costs.html`."""

    count: int
    covers: str
    price: str
    dabs: Markup
    names: str
    doubt: str


@dataclass(frozen=True)
class _Table:
    """Palettes one below the other, as in `costs.html`."""

    caption: str
    rows: Sequence[_Row]


def front_body(basis: Basis, comparison: Comparison) -> Markup:
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
        return fill("costs.html", picture=None)
    front = comparison.floors[0].front
    unproven = sum(not step.proven for step in front.steps)
    cheapest, sized = _cheapest(comparison), _sized(comparison)
    kind = kind_bought(basis.plan.scenario.group)
    what = COVERS_MOST.worded(proven=all(item.proven for item in sized))
    least = LEAST_THAT_COVERS.worded(proven=all(item.proven for item in cheapest))
    captions = (
        (f"{least} a quarter, half, three quarters, and so on.", cheapest),
        (f"For each number of {kind}s {what} within the budget.", sized),
    )
    return fill(
        "costs.html",
        picture=drawn(picture, prefix="front-"),
        kind=kind,
        known=MOST_FOR_MONEY.worded(proven=front.complete),
        cheaper=_cheaper_words(basis.plan, comparison),
        proof=picture_proof(
            unproven, complete=front.complete, fitted=comparison.question.fitted_paints
        ),
        since=found_since(basis.plan, comparison),
        most=most_words(comparison),
        tables=[
            _Table(caption, [_row(basis, comparison, item) for item in palettes])
            for caption, palettes in captions
            if palettes
        ],
        doubt="" if comparison.all_gained or not sized else END_OF_SIZES_DOUBT,
        harmful=_harmful(basis, comparison, [*cheapest, *sized]),
        floors=floor_groups(comparison) if basis.plan.coverage else (),
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
        f" {percent(last.coverage)} for {money(last.cost, currency)}; the plan, ringed, covers"
        f" {percent(plan.coverage)} for {money(plan.cost, currency)}."
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
    fading = sum(tube.lightfastness.fades for tube in _bought(comparison, palette))
    fading -= sum(planned.tube.lightfastness.fades for planned in plan.bought)
    but, kind = "", kind_bought(plan.scenario.group)
    if more > 0:
        but = f", but with {counted(more, kind)} more"
    elif fading > 0 and plan.scenario.prefer is Prefer.LASTING:
        but = f", but with {counted(fading, kind)} more that fade{'s' if fading == 1 else ''}"
    elif plan.steadiness is not None and not plan.steadiness.ranks_best:
        but = ", but this one is steadier"
    return f"; {price} would cover as much{but}"


def _cheapest(comparison: Comparison) -> list[_Listed]:
    """Return the cheapest palettes for round coverages."""
    return [_Listed(step.palette, proven=step.proven) for step in milestones(comparison)]


def _sized(comparison: Comparison) -> list[_Listed]:
    """Return the best palette of each number of tubes."""
    return [
        _Listed(size.palette, proven=size.best.proven)
        for place, size in enumerate(comparison.sizes)
        if size.palette.bought
        and (place == 0 or size.palette != comparison.sizes[place - 1].palette)
    ]


def _row(basis: Basis, comparison: Comparison, item: _Listed) -> _Row:
    palette, bought = item.palette, _bought(comparison, item.palette)
    return _Row(
        count=len(bought),
        covers=percent(comparison.share(palette.value)),
        price=money(palette.cost, comparison.question.scenario.currency),
        dabs=drawn(tube_dabs(bought, basis.optics, basis.sheet), spoken=False),
        names=joined([printable(tube.name) for tube in bought]),
        doubt=PALETTE_DOUBT.worded(proven=item.proven),
    )


def _bought(comparison: Comparison, palette: Palette) -> list[Tube]:
    return [comparison.question.tubes[number] for number in palette.bought]


def _harmful(basis: Basis, comparison: Comparison, palettes: Sequence[_Listed]) -> str:
    """Return tubes of the tables that call for care and that the plan's own cautions lack."""
    tubes = {tube.id: tube for item in palettes for tube in _bought(comparison, item.palette)}
    return joined(
        [
            f"{printable(tube.name)} ({hazard_words(tube)})"
            for id_, tube in tubes.items()
            if tube.hazards and id_ not in basis.tubes
        ]
    )
