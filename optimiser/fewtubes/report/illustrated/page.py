"""The plan as one illustrated page: a file that needs no network, no script and no font of its own.

The page is made for the screen, the phone and the sheet of paper alike; `page.css` beside
this module holds how it looks.
"""

import base64
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import files

from markupsafe import Markup

from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.sold_out import SoldOut
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.sheet import Sheet
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.closing import (
    cautions_section,
    colours_section,
    sureness_section,
)
from fewtubes.report.illustrated.flowers import flowers_section
from fewtubes.report.illustrated.front import front_body
from fewtubes.report.illustrated.limits import missed_section, reach_section, trade_off_section
from fewtubes.report.illustrated.markup import fill
from fewtubes.report.illustrated.palette import palette_ribbon, palette_section, shopping_section
from fewtubes.report.illustrated.planned import class_heading, class_section, paint_section
from fewtubes.report.sentences.asked import asked_words
from fewtubes.report.sentences.misses import misses_words
from fewtubes.report.sentences.more_money import more_money_words
from fewtubes.report.sentences.painters import bought_words
from fewtubes.report.sentences.proof import note_words
from fewtubes.report.sentences.purchase import delivery_aside
from fewtubes.report.sentences.steadiness import steadiness_aside
from fewtubes.report.sentences.trade_offs import fading_words
from fewtubes.scenario.demands import LONGEST_PURPOSE
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent

__all__ = [
    "COSTS",
    "Section",
    "illustrated_page",
    "illustrated_report",
    "inks_style",
    "plan_sections",
    "report_style",
    "style_digest",
]

COSTS = "cost"
"""Id of the section that needs a comparison."""


@dataclass(frozen=True)
class Section:
    """A part of the page."""

    id: str
    heading: str
    body: Markup


def illustrated_report(
    plan: Plan,
    optics: Optics,
    *,
    comparison: Comparison | None = None,
    sold_out: tuple[SoldOut, ...] = (),
) -> str:
    """Return the page.

    Parameters
    ----------
    plan
        The answer.
    optics
        The paper and the light of the plan's scenario.
    comparison
        Palettes of the same scenario side by side; with it the page tells coverage against cost.
    sold_out
        What stands in for each tube to buy, which the shopping list then tells.
    """
    basis = Basis(plan, optics, sold_out)
    costs = Markup() if comparison is None else front_body(basis, comparison)
    return illustrated_page(basis, plan_sections(basis, costs))


def illustrated_page(basis: Basis, sections: Sequence[Section]) -> str:
    """Return the page of sections drawn before; those that are empty are left out."""
    plan, scenario = basis.plan, basis.plan.scenario
    style = report_style(basis.sheet)
    return fill(
        "page.html",
        title=printable(scenario.title),
        style=style,
        style_digest=style_digest(style),
        ribbon=palette_ribbon(basis),
        shows=printable(scenario.shows, LONGEST_PURPOSE),
        answer=_answer(plan),
        misses=misses_words(plan),
        more_money=more_money_words(plan),
        fading=fading_words(plan),
        asked=asked_words(scenario, plan.catalogue_label, plan.names),
        sections=[section for section in sections if section.body],
        source=printable(plan.catalogue_label),
    )


def plan_sections(basis: Basis, costs: Markup) -> list[Section]:
    """Return the parts of the page; `costs`, coverage against cost, may be empty as yet."""
    plan = basis.plan
    planned = [
        Section("class", class_heading(plan), class_section(basis)),
        Section("paint", "Paint", paint_section(basis)),
    ]
    return [
        Section("shopping", "To buy", shopping_section(basis)),
        *(section for section in planned if section.body),
        Section("tubes", "The tubes, painted out", palette_section(basis)),
        Section("flowers", "The flowers, wanted and mixed", flowers_section(basis)),
        Section("reach", "Hue and chroma", reach_section(basis)),
        Section("missed", "Out of reach", missed_section(basis)),
        Section("trade-offs", "How long it lasts, how much it hides", trade_off_section(basis)),
        Section(COSTS, "Coverage against cost", costs),
        Section("sure", "How sure that is", sureness_section(plan)),
        Section("care", "Take care", cautions_section(plan)),
        Section("colours", "A screen is not paint", colours_section()),
    ]


def inks_style(sheet: Sheet) -> str:
    """Return a style sheet with the paper's colour and the inks, which `page.css` refers to."""
    return f":root{{--ground:{sheet.ground};--ink:{sheet.ink};--soft-ink:{sheet.soft_ink}}}\n"


def report_style(sheet: Sheet) -> Markup:
    """Return the style sheet with the scenario's paper and the inks put in."""
    written = (files("fewtubes.report.illustrated") / "page.css").read_text(encoding="utf-8")
    return Markup(inks_style(sheet) + written)  # noqa: S704  # our own file, hex colours


def style_digest(style: str) -> str:
    """Return what the page's policy admits this one style sheet by, and nothing else."""
    return base64.b64encode(hashlib.sha256(style.encode("utf-8")).digest()).decode("ascii")


def _answer(plan: Plan) -> str:
    scenario = plan.scenario
    to_buy = "Nothing to buy"
    if plan.bought:
        price = f"{money(plan.cost, scenario.currency)}{delivery_aside(plan)}"
        to_buy = f"{bought_words(plan)} to buy for {price}"
    covered = sum(planned.covered for planned in plan.samples)
    return (
        f"{to_buy}, {percent(plan.coverage)} of what is to be painted covered: {covered} of"
        f" {counted(len(plan.samples), 'colour')}, counted by importance{steadiness_aside(plan)}."
        f" {note_words(plan)}."
    )
