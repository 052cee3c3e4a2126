"""The tubes in the illustrated report: as a list to take to the shop, and painted out."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.picture.tube_dabs import tube_dabs
from fewtubes.picture.wash_strip import beyond_steps, strip_picture
from fewtubes.picture.washes import washes_of
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.illustrated.parcels import packs_in_all, parcels_table
from fewtubes.report.sentences.at_home import at_home_words, low_words
from fewtubes.report.sentences.palette import nothing_words, use_words
from fewtubes.report.sentences.sold_out import sold_out_words, tried_words
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.words.hiding import hiding
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.tubes import FITTED, codes_words
from fewtubes.words.unparted import unparted
from fewtubes.words.washes import strength_words

__all__ = [
    "pack_words",
    "palette_ribbon",
    "palette_section",
    "shopping_section",
    "tube_kind_words",
]


@dataclass(frozen=True)
class _Row:
    """A tube to buy, as in `shopping.html`."""

    dab: Markup
    name: str
    codes: str
    grade: str
    lasts: str
    packs: str
    price: str
    sold_out: str
    """What to take if it is sold out; blank if that was not looked for."""
    ticked: bool = True
    """Whether it is put in the basket, as a pack or a set is."""


@dataclass(frozen=True)
class _Stroke:
    """A tube painted out, as in `tubes.html`."""

    stroke: Markup
    name: str
    owned: bool
    kind: str
    """Pigments, lightfastness and opacity in words."""
    use: str
    at_home: str
    """How full it is; blank if that is not known."""
    beyond: str
    """Strengths that the screen cannot show; blank if there are none."""


def palette_ribbon(basis: Basis) -> Markup:
    """Return one dab a tube under the title, those to buy and one's own apart; or nothing."""
    owned = [planned.tube for planned in basis.plan.tubes if planned.owned]
    bought = [planned.tube for planned in basis.plan.bought]
    groups = [("to buy", bought), ("your own", owned)] if owned else [("", bought)]
    return fill(
        "ribbon.html", groups=[(said, _dabs(basis, tubes)) for said, tubes in groups if tubes]
    )


def palette_section(basis: Basis) -> Markup:
    """Return every tube painted out, with what is to be known of it."""
    plan = basis.plan
    return fill(
        "tubes.html",
        nothing="" if plan.tubes else nothing_words(plan),
        strengths=len(STRENGTHS),
        tubes=[_stroke(basis, planned, number) for number, planned in enumerate(plan.tubes)],
        set_aside=joined([printable(tube.name) for tube in plan.set_aside]),
    )


def shopping_section(basis: Basis) -> Markup:
    """Return the table of what to buy."""
    plan = basis.plan
    by_seller = bool(plan.bought) and plan.purchase.by_seller
    return fill(
        "shopping.html",
        parcels=parcels_table(basis) if by_seller else Markup(),
        nothing="" if plan.bought else nothing_words(plan),
        currency=plan.scenario.currency,
        rows=[_row(basis, planned) for planned in plan.bought],
        packs=packs_in_all(plan),
        total=amount(plan.cost),
        prices="price list" if plan.scenario.prices else "catalogue",
        tried=tried_words(plan) if basis.sold_out else "",
        low=low_words(plan),
    )


def _stroke(basis: Basis, planned: PlannedTube, number: int) -> _Stroke:
    name = printable(planned.tube.name)
    picture = strip_picture(planned.tube, basis.optics, basis.sheet, name=name)
    return _Stroke(
        stroke=drawn(picture, prefix=f"strip{number}-"),
        name=name,
        owned=planned.owned,
        kind=tube_kind_words(planned),
        use=f"{use_words(planned)}.".capitalize(),
        at_home=at_home_words(planned, basis.plan),
        beyond=_beyond(planned, basis),
    )


def tube_kind_words(planned: PlannedTube) -> str:
    """Return pigments, lightfastness and opacity in words."""
    tube = planned.tube
    codes = codes_words(tube)
    fitted = f" {FITTED.capitalize()}." if tube.fitted else ""
    white = " Half or more of it is white pigment." if planned.white_filled else ""
    return (
        f"{codes[:1].upper()}{codes[1:]}.{fitted} Lightfastness {tube.lightfastness.name},"
        f" {LIGHTFASTNESS_WORDS[tube.lightfastness]}. {planned.transparency.word.capitalize()},"
        f" hides {hiding(planned.contrast_ratio)}.{white}"
    )


def _beyond(planned: PlannedTube, basis: Basis) -> str:
    """Return which strengths of a stroke the screen cannot show."""
    steps = beyond_steps(washes_of(planned.tube, basis.optics))
    runs = groupby(enumerate(steps), key=lambda item: item[1] - item[0])
    return joined([_run_words([step for _, step in run]) for _, run in runs])


def _run_words(steps: Sequence[int]) -> str:
    """Return neighbouring strengths in words, e.g. ``full strength (100 %) to light wash (12 %)``.

    Parameters
    ----------
    steps
        Places in `STRENGTHS`, one after the other.
    """
    words = [strength_words(STRENGTHS[step]) for step in (steps[0], steps[-1])]
    return words[0] if len(steps) == 1 else " to ".join(words)


def _row(basis: Basis, planned: PlannedTube) -> _Row:
    tube = planned.tube
    return _Row(
        dab=_dabs(basis, [tube]),
        name=printable(tube.name),
        codes=codes_words(tube),
        grade=tube.lightfastness.name,
        lasts=LIGHTFASTNESS_WORDS[tube.lightfastness],
        packs=joined([pack_words(pack) for pack in planned.packs]),
        price=amount(planned.cost),
        sold_out=_sold_out(basis, tube),
    )


def _sold_out(basis: Basis, tube: Tube) -> str:
    found = (item for item in basis.sold_out if item.tube.id == tube.id)
    return next((sold_out_words(item, basis.plan) for item in found), "")


def _dabs(basis: Basis, tubes: list[Tube]) -> Markup:
    """Return a dab of each tube; what they are called stands beside."""
    return drawn(tube_dabs(tubes, basis.optics, basis.sheet), spoken=False)


def pack_words(pack: Pack) -> str:
    """Return how many packs of which size, e.g. ``1 × 5 ml``, kept on one line."""
    return unparted(f"{pack.count} × {pack.offer.ml:g} ml")
