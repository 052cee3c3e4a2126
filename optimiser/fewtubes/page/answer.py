"""An answer as the page shows it: drawn by the process that found it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fewtubes.comparison.compare import Comparison
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.svg import svg_inline
from fewtubes.report.illustrated_basis import Basis
from fewtubes.report.illustrated_closing import (
    cautions_section,
    colours_section,
    sureness_section,
)
from fewtubes.report.illustrated_flowers import flowers_section
from fewtubes.report.illustrated_front import front_body
from fewtubes.report.illustrated_limits import missed_section, reach_section, trade_off_section
from fewtubes.report.illustrated_palette import palette_ribbon, palette_section, shopping_section
from fewtubes.shopping.plan import Plan

__all__ = ["COSTS", "Answer", "Section", "drawn_answer", "drawn_costs"]

COSTS = "cost"
"""Id of the section on coverage against cost, which is drawn after the rest."""


@dataclass(frozen=True)
class Section:
    """A part of the answer; `markup` is safe as it stands, and empty if it comes later."""

    id: str
    heading: str
    markup: str


@dataclass(frozen=True, eq=False)
class Answer:
    """A plan with everything the page shows of it."""

    plan: Plan
    ribbon: str
    """Markup: one dab a tube."""
    sections: tuple[Section, ...]
    pairs: Mapping[tuple[str, str], str]
    """Markup of the colour wanted beside its mix, by flower and name of the colour."""
    inks: str
    """Style sheet with the paper's colour and the inks."""


def drawn_answer(plan: Plan, optics: Optics) -> Answer:
    """Return the answer drawn; it takes a second or two."""
    basis = Basis(plan, optics)
    sheet = basis.sheet
    parts: tuple[tuple[str, str, Callable[[], str]], ...] = (
        ("shopping", "To buy", lambda: shopping_section(basis)),
        ("tubes", "The tubes, painted out", lambda: palette_section(basis)),
        ("flowers", "The flowers, wanted and mixed", lambda: flowers_section(basis)),
        ("missed", "Out of reach", lambda: missed_section(basis)),
        ("reach", "Hue and chroma", lambda: reach_section(basis)),
        ("trade-offs", "How long it lasts, how much it hides", lambda: trade_off_section(basis)),
        (COSTS, "Coverage against cost", lambda: ""),
        ("sure", "How sure that is", lambda: sureness_section(plan)),
        ("care", "Take care", lambda: cautions_section(plan)),
        ("colours", "A screen is not paint", colours_section),
    )
    return Answer(
        plan=plan,
        ribbon=str(palette_ribbon(basis)),
        sections=tuple(Section(id_, heading, str(draw())) for id_, heading, draw in parts),
        pairs={
            (planned.sample.flower, planned.sample.name): svg_inline(
                pair_picture(planned, basis.tubes, optics, sheet), prefix="", spoken=False
            )
            for planned in plan.samples
        },
        inks=f":root{{--ground:{sheet.ground};--ink:{sheet.ink};--soft-ink:{sheet.soft_ink}}}\n",
    )


def drawn_costs(plan: Plan, optics: Optics, comparison: Comparison) -> str:
    """Return coverage against cost as markup, for the section that an answer leaves open."""
    return str(front_body(Basis(plan, optics), comparison))
