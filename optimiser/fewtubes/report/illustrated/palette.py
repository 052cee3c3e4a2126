"""The tubes in the illustrated report: painted out, then as a list to take to the shop."""

from collections.abc import Sequence
from itertools import groupby

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.picture.parts import tube_dabs
from fewtubes.picture.sheet import BEYOND
from fewtubes.picture.svg import svg_inline
from fewtubes.picture.wash_strip import beyond_steps, strip_picture
from fewtubes.picture.washes import washes_of
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.html import FIXED_BLANK, Html, element, paragraph, together
from fewtubes.report.terminal.palette import nothing_words, use_words
from fewtubes.shopping.plan import Pack, PlannedTube
from fewtubes.words.counting import counted
from fewtubes.words.hiding import hiding
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.tubes import codes_words
from fewtubes.words.washes import strength_words

__all__ = ["palette_ribbon", "palette_section", "shopping_section"]


def palette_ribbon(basis: Basis) -> Html:
    """Return one dab a tube under the title, those to buy and one's own apart; or nothing."""
    owned = [planned.tube for planned in basis.plan.tubes if planned.owned]
    bought = [planned.tube for planned in basis.plan.bought]
    groups = [("to buy", bought), ("your own", owned)] if owned else [("", bought)]
    parts = [
        element("div", Html(_dabs(basis, tubes)), *([element("span", said)] if said else []))
        for said, tubes in groups
        if tubes
    ]
    return element("div", *parts, class_="ribbon") if parts else Html()


def palette_section(basis: Basis) -> Html:
    """Return every tube painted out, with what is to be known of it."""
    plan = basis.plan
    if not plan.tubes:
        return paragraph(f"None: {nothing_words(plan)}")
    lead = paragraph(
        f"Each stroke is computed for this paper and light at {len(STRENGTHS)} strengths, from full"
        " strength on the left to the thinnest wash on the right. It was laid over a black line:"
        " the more of the line is hidden, the more opaque the paint. What hangs on a tube is the"
        " coverage that would be lost without it."
    )
    items = [_tube(basis, planned, number) for number, planned in enumerate(plan.tubes)]
    aside = [paragraph(_set_aside(basis))] if plan.set_aside else []
    return together(lead, element("div", *items, class_="tubes"), *aside)


def shopping_section(basis: Basis) -> Html:
    """Return the table of what to buy."""
    plan = basis.plan
    if not plan.bought:
        return paragraph(f"Nothing to buy: {nothing_words(plan)}")
    currency = plan.scenario.currency
    titles = ("Tube", "Pigments", "Lasts", "Packs", f"Price, {currency}")
    cells = [element("th", title, scope="col") for title in titles[:-1]]
    head = element("tr", *cells, element("th", titles[-1], scope="col", class_="number"))
    rows = [_row(basis, planned) for planned in plan.bought]
    total = element(
        "tr",
        element("th", "Total", scope="row"),
        element("td", ""),
        element("td", ""),
        element("td", counted(sum(p.count for t in plan.bought for p in t.packs), "pack")),
        element("td", amount(plan.cost), class_="number"),
    )
    return element(
        "table",
        element("caption", "Prices as in the catalogue."),
        element("thead", head),
        element("tbody", *rows),
        element("tfoot", total),
    )


def _tube(basis: Basis, planned: PlannedTube, number: int) -> Html:
    """Return one tube: the stroke beside its name and traits."""
    name = printable(planned.tube.name)
    picture = strip_picture(planned.tube, basis.optics, basis.sheet, name=name)
    drawn = Html(svg_inline(picture, prefix=f"strip{number}-"))
    owned = [element("span", "your own", class_="tag")] if planned.owned else []
    return element(
        "article",
        element("figure", drawn),
        element(
            "div",
            element("h3", name, *owned),
            paragraph(_trade_offs(planned), class_="traits"),
            paragraph(f"{use_words(planned)}.".capitalize(), class_="traits"),
            *_beyond(planned, basis),
        ),
        class_="tube",
    )


def _trade_offs(planned: PlannedTube) -> str:
    """Return pigments, lightfastness and opacity in words."""
    tube = planned.tube
    white = " Half or more of it is white pigment." if planned.white_filled else ""
    return (
        f"{codes_words(tube)}. Lightfastness {tube.lightfastness.name},"
        f" {LIGHTFASTNESS_WORDS[tube.lightfastness]}. {planned.transparency.word.capitalize()},"
        f" hides {hiding(planned.contrast_ratio)}.{white}"
    )


def _beyond(planned: PlannedTube, basis: Basis) -> list[Html]:
    """Return which strengths of a stroke the screen cannot show."""
    steps = beyond_steps(washes_of(planned.tube, basis.optics))
    if not steps:
        return []
    runs = groupby(enumerate(steps), key=lambda item: item[1] - item[0])
    words = joined([_run_words([step for _, step in run]) for _, run in runs])
    return [paragraph(f"{BEYOND} More vivid on paper than here: {words}.", class_="traits")]


def _run_words(steps: Sequence[int]) -> str:
    """Return neighbouring strengths in words, e.g. ``full strength (100 %) to light wash (12 %)``.

    Parameters
    ----------
    steps
        Places in `STRENGTHS`, one after the other.
    """
    words = [strength_words(STRENGTHS[step]) for step in (steps[0], steps[-1])]
    return words[0] if len(steps) == 1 else " to ".join(words)


def _row(basis: Basis, planned: PlannedTube) -> Html:
    tube = planned.tube
    dab = element("span", Html(_dabs(basis, [tube])), class_="dab")
    return element(
        "tr",
        element("th", dab, printable(tube.name), scope="row"),
        element("td", codes_words(tube)),
        element(
            "td",
            tube.lightfastness.name,
            element("span", f", {LIGHTFASTNESS_WORDS[tube.lightfastness]}", class_="roomy"),
        ),
        element("td", joined([_pack(pack) for pack in planned.packs]), class_="packs"),
        element("td", amount(planned.cost), class_="number"),
    )


def _dabs(basis: Basis, tubes: list[Tube]) -> str:
    """Return a dab of each tube; what they are called stands beside."""
    return svg_inline(tube_dabs(tubes, basis.optics, basis.sheet), prefix="", spoken=False)


def _pack(pack: Pack) -> str:
    return f"{pack.count} × {pack.offer.ml:g} ml".replace(" ", FIXED_BLANK)


def _set_aside(basis: Basis) -> str:
    names = joined([printable(tube.name) for tube in basis.plan.set_aside])
    return f"Of your own, but kept out of use by the wishes: {names}."
