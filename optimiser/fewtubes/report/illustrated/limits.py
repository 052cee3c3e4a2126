"""What the palette cannot do, in the illustrated report: reach, colours missed, trade-offs."""

from collections.abc import Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.picture.sheet import MISSED
from fewtubes.picture.svg import svg_inline
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.html import Html, element, listed, paragraph, together
from fewtubes.report.sentences.reasons import no_single_words, obstacle_words
from fewtubes.report.sentences.trade_offs import trade_off_words
from fewtubes.shopping.plan import PlannedSample
from fewtubes.words.counting import counted
from fewtubes.words.money import money
from fewtubes.words.printable import printable

__all__ = ["missed_section", "reach_section", "trade_off_section"]

MOST_HELPERS = 8
"""Tubes listed that would bring a colour within reach; the recipes and tables name the others."""

MOST_NAMED = 6
"""Colours named in one cell."""


@dataclass(frozen=True, eq=False)
class _Helper:
    """A tube that alone would bring some of the missed colours."""

    tube: Tube
    cost: int
    allowed: bool
    brings: tuple[PlannedSample, ...]

    @property
    def weight(self) -> int:
        """Importance of all it would bring."""
        return sum(planned.sample.weight for planned in self.brings)


def reach_section(basis: Basis) -> Html:
    """Return the plane of hue and chroma with its key."""
    lead = paragraph(
        "Hue goes around, chroma outward: the farther from the middle, the more vivid. Soft dabs"
        " show, for every tenth degree of hue, the strongest colour that any recipe of the palette"
        " gives, and together they fence in what it reaches. Ringed dots are the flowers' colours;"
        " a line joins a flower's petals from light to deep, with the flower's letter at its most"
        f" vivid colour. {MISSED} marks a colour out of reach. Lightness is not shown, so a dot may"
        " lie inside the fence and still be too dark, or too light, for any mix."
    )
    drawn = Html(svg_inline(basis.hue_plane, prefix="plane-"))
    key = "; ".join(
        f"{part.letter} – {printable(part.name)}" for part in basis.flowers if part.letter
    )
    caption = element("figcaption", key, class_="key")
    return together(lead, element("figure", drawn, caption, class_="plane"))


def missed_section(basis: Basis) -> Html:
    """Return what is out of reach, why, and which tube would bring most of it."""
    plan = basis.plan
    missed = [planned for planned in plan.samples if not planned.covered]
    if not missed:
        return paragraph("Nothing: every colour asked for is reached within the tolerance.")
    reasons = {planned.obstacle: 0 for planned in missed}
    for planned in missed:
        reasons[planned.obstacle] += 1
    lead = paragraph(
        f"{counted(len(missed), 'colour')} of {len(plan.samples)} cannot be mixed within the"
        " tolerance from this palette:"
    )
    why = listed(
        f"{counted(count, 'colour')}: {obstacle_words(obstacle, plan.scenario)}."
        for obstacle, count in reasons.items()
        if obstacle is not None
    )
    return together(lead, why, _helpers_table(basis, _helpers(missed)))


def trade_off_section(basis: Basis) -> Html:
    """Return the palette's worst lightfastness and opacity and what better would cost."""
    plan = basis.plan
    lasting, hiding = plan.lightfastness, plan.opacity
    return together(
        paragraph(element("b", "How long it lasts. "), trade_off_words(lasting, plan)),
        paragraph(element("b", "How much it hides. "), trade_off_words(hiding, plan)),
    )


def _helpers(missed: Sequence[PlannedSample]) -> list[_Helper]:
    """Return the tubes that alone would bring missed colours, those that bring most first."""
    found: dict[str, _Helper] = {}
    for planned in missed:
        for remedy in planned.remedies:
            known = found.get(remedy.tube.id)
            brings = (*(known.brings if known else ()), planned)
            found[remedy.tube.id] = _Helper(remedy.tube, remedy.cost, remedy.allowed, brings)
    ranked = found.values()
    return sorted(ranked, key=lambda h: (not h.allowed, -h.weight, h.cost, h.tube.id))


def _helpers_table(basis: Basis, helpers: Sequence[_Helper]) -> Html:
    """Return the table of single further tubes."""
    if not helpers:
        return paragraph(no_single_words(basis.plan.scenario.currency, "any of them"))
    currency = basis.plan.scenario.currency
    titles = ("One further tube", "Price", "Would bring within reach")
    head = element("tr", *(element("th", title, scope="col") for title in titles))
    rows = [_helper_row(helper, currency) for helper in helpers[:MOST_HELPERS]]
    table = element(
        "table",
        element("caption", "Single further tubes, each on its own."),
        element("thead", head),
        element("tbody", *rows),
    )
    rest = len(helpers) - len(rows)
    more = f"{counted(rest, 'further tube')} would bring one or more as well." if rest else ""
    return together(table, paragraph(more, class_="key") if more else "")


def _helper_row(helper: _Helper, currency: str) -> Html:
    refused = "" if helper.allowed else " (ruled out by the wishes)"
    names = [
        f"{printable(planned.sample.flower)}: {printable(planned.sample.name)}"
        for planned in helper.brings[:MOST_NAMED]
    ]
    rest = len(helper.brings) - len(names)
    more = f" and {rest} more" if rest else ""
    return element(
        "tr",
        element("th", f"{printable(helper.tube.name)}{refused}", scope="row"),
        element("td", money(helper.cost, currency), class_="number"),
        element("td", f"{'; '.join(names)}{more}"),
    )
