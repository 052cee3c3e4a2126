"""Each time of buying bit by bit, drawn: what to buy, what is in the box then, what is new."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.instalment_findings import Instalment, Instalments, Purchase
from fewtubes.picture.brush import Numbered, numbered
from fewtubes.picture.growing_flower import growing_flower
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.sheet import MISSED, Sheet
from fewtubes.picture.tube_dabs import tube_dabs
from fewtubes.picture.wash_strip import strip_picture
from fewtubes.report.illustrated.basis import LONGEST_IN_PICTURE
from fewtubes.report.illustrated.instalment_parcels import purchase_table
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.illustrated.palette import pack_words, tube_kind_words
from fewtubes.report.sentences.instalments import (
    covered_sentence,
    left_sentence,
    nothing_sentence,
    title_words,
)
from fewtubes.report.sentences.instalments_at_once import beside_sentence
from fewtubes.selection.certificate import Choice
from fewtubes.shopping.choose import Chosen, matches_of
from fewtubes.shopping.plan_parts import PlannedSample, PlannedTube
from fewtubes.shopping.planning import planned_parts
from fewtubes.shopping.puddling import mixed_for
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference, match_words
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.recipes import recipe_words
from fewtubes.words.tubes import codes_words

__all__ = ["BoughtBasis", "step_body", "step_id"]

PUDDLE_SECONDS = 2.0
"""Time at each time of buying for the proof that no fewer puddles will do [s]; tenths are usual."""

LONGEST_LABEL = 100
"""Characters of a colour's name; "between A and B" needs two names' room."""


@dataclass(frozen=True, eq=False)
class BoughtBasis:
    """An order of buying with what can be mixed at each time."""

    found: Instalments

    @cached_property
    def sheet(self) -> Sheet:
        """The paper and the inks."""
        return Sheet.of(self.found.question.optics)

    @cached_property
    def parts(self) -> tuple[tuple[tuple[PlannedTube, ...], tuple[PlannedSample, ...]], ...]:
        """For each time the tubes held and every colour with its mix, as `shop` would mix them."""
        return tuple(_parts(self.found, time) for time in self.found.times)

    def dabs(self, tubes: Sequence[Tube]) -> Markup:
        """Return a dab of each tube; what they are called stands beside."""
        picture = tube_dabs(list(tubes), self.found.question.optics, self.sheet)
        return drawn(picture, spoken=False)


@dataclass(frozen=True)
class _Row:
    """A tube to buy, as in `instalment_step.html`."""

    dab: Markup
    name: str
    codes: str
    grade: str
    packs: str
    price: str


@dataclass(frozen=True)
class _Stroke:
    """A tube newly bought, painted out."""

    stroke: Markup
    name: str
    kind: str


@dataclass(frozen=True)
class _Held:
    """A tube that was in the box before."""

    dab: Markup
    name: str
    owned: bool


@dataclass(frozen=True)
class _Colour:
    """A colour that is new, beside its mix."""

    mark: str
    pair: Markup
    name: str
    near: str
    recipe: str


@dataclass(frozen=True)
class _Flower:
    """A flower as far as it can be painted by then."""

    title: str
    share: str
    picture: Markup
    """Blank of a colour of the painter's own, and where nothing is new."""
    new: Sequence[_Colour]


def step_id(place: int) -> str:
    """Return the anchor of a time."""
    return f"time-{place + 1}"


def step_body(basis: BoughtBasis, place: int) -> Markup:
    """Return what is told of one time of buying.

    Parameters
    ----------
    basis
        The order of buying.
    place
        The time, from 0.
    """
    found, time = basis.found, basis.found.times[place]
    tubes, _ = basis.parts[place]
    new = {purchase.tube.id for purchase in time.bought}
    told = bool(time.bought) or place == 0
    return fill(
        "instalment_step.html",
        heading=title_words(found, place),
        nothing=nothing_sentence(found, place),
        currency=found.question.scenario.currency,
        parcels=_parcels(basis, time),
        rows=[_row(basis, purchase) for purchase in time.bought],
        packs=counted(sum(pack.count for one in time.bought for pack in one.packs), "pack"),
        total=amount(time.cost),
        left=left_sentence(found, place),
        strokes=[_stroke(basis, one, place) for one in tubes if one.tube.id in new],
        held=[
            _Held(basis.dabs([one.tube]), printable(one.tube.name), one.owned)
            for one in tubes
            if one.tube.id not in new
        ],
        told=told,
        covered=covered_sentence(found, place),
        beside=beside_sentence(found, place),
        flowers=[*_flowers(basis, place)] if told else [],
    )


def _parts(
    found: Instalments, time: Instalment
) -> tuple[tuple[PlannedTube, ...], tuple[PlannedSample, ...]]:
    """Return what is held from a time on and what is mixed of it, in the fewest puddles."""
    question = found.question
    chosen = Chosen(
        Choice((time.palette,), complete=False, certificate=found.certificate),
        time.palette,
        matches_of(question, time.palette),
    )
    mixed = mixed_for(question, chosen, seconds=PUDDLE_SECONDS)
    chosen = Chosen(chosen.choice, time.palette, mixed.matches)
    tubes, samples, _ = planned_parts(question, chosen)
    return tubes, samples


def _parcels(basis: BoughtBasis, time: Instalment) -> Markup:
    """Return what is bought where; blank where prices of single tubes are all that is paid."""
    if time.purchase is None:
        return Markup()
    return purchase_table(time.purchase, basis.dabs, basis.found.question.scenario.currency)


def _row(basis: BoughtBasis, purchase: Purchase) -> _Row:
    tube = purchase.tube
    return _Row(
        dab=basis.dabs([tube]),
        name=printable(tube.name),
        codes=codes_words(tube),
        grade=tube.lightfastness.name,
        packs=joined([pack_words(pack) for pack in purchase.packs]),
        price=amount(purchase.cost),
    )


def _stroke(basis: BoughtBasis, planned: PlannedTube, place: int) -> _Stroke:
    name = printable(planned.tube.name)
    picture = strip_picture(planned.tube, basis.found.question.optics, basis.sheet, name=name)
    prefix = f"strip{place}-{basis.found.question.numbers[planned.tube.id]}-"
    return _Stroke(drawn(picture, prefix=prefix), name, tube_kind_words(planned))


def _flowers(basis: BoughtBasis, place: int) -> Iterator[_Flower]:
    """Yield every flower, those without anything new in words alone."""
    found = basis.found
    newly = {found.question.samples[number] for number in found.times[place].newly}
    own = {colour.name for colour in found.question.scenario.own_colours}
    tubes, samples = basis.parts[place]
    held = {one.tube.id: one.tube for one in tubes}
    grouped = groupby(samples, key=lambda planned: planned.sample.flower)
    for turn, (name, group) in enumerate(grouped):
        items = numbered(tuple(group))
        new = [item for item in items if item.planned.sample in newly]
        picture = Markup()
        if new and name not in own:
            numbers = frozenset(item.number for item in new)
            flower = growing_flower(
                items,
                numbers,
                held,
                found.question.optics,
                basis.sheet,
                name=printable(name, LONGEST_IN_PICTURE),
            )
            picture = drawn(flower, prefix=f"grown{place}-{turn}-")
        covered = sum(item.planned.covered for item in items)
        yield _Flower(
            title=printable(name),
            share=f"{covered} of {counted(len(items), 'colour')}",
            picture=picture,
            new=[
                _colour(basis, item, held, f"new{place}-{turn}-", own=name in own) for item in new
            ],
        )


def _colour(
    basis: BoughtBasis, item: Numbered, held: dict[str, Tube], prefix: str, *, own: bool
) -> _Colour:
    planned, question = item.planned, basis.found.question
    pair = pair_picture(planned, held, question.optics, basis.sheet)
    near = f"{match_words(planned.match)}, {difference(planned.match, question.scenario.tolerance)}"
    names = {id_: printable(tube.name) for id_, tube in held.items()}
    return _Colour(
        mark="" if own else item.label.replace(f" {MISSED}", ""),
        pair=drawn(pair, prefix=f"{prefix}{item.number}-", spoken=False),
        name=printable(planned.sample.name, LONGEST_LABEL),
        near=near,
        recipe="" if planned.recipe is None else recipe_words(planned.recipe, names),
    )
