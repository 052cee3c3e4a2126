"""What stands on a hand-out: the paints by letter, each flower's puddles with boxes for swatches.

It is for whoever paints, not for whoever buys: no prices, no differences, no proofs. Only the
swatches of a flower stand there, not the steps between them, unless a puddle is for steps alone.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fewtubes.picture.brush import Numbered, numbered
from fewtubes.picture.hue_plane import LETTERS
from fewtubes.picture.line_drawing import line_drawing
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.split_flower import split_flower
from fewtubes.report.illustrated.basis import LONGEST_IN_PICTURE, Basis, FlowerPart
from fewtubes.report.sentences.puddles import Subject, puddles_of
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import OWN_COLOURS, Puddle
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable
from fewtubes.words.short_names import short_names
from fewtubes.words.tubes import codes_words
from fewtubes.words.washes import strength_words

__all__ = [
    "HandoutPuddle",
    "HandoutSubject",
    "HandoutTube",
    "HandoutWash",
    "handout_subjects",
    "handout_tubes",
    "white_sheet",
]


WHITE = "#ffffff"


@dataclass(frozen=True)
class HandoutTube:
    """A paint of the palette."""

    letter: str
    """What it is called in the mixes; its number where the alphabet does not reach."""
    name: str
    codes: str
    """Colour Index names of its pigments; blank if none is known."""


@dataclass(frozen=True)
class HandoutWash:
    """One box to paint: a puddle, thinned."""

    strength: str
    """In words, as a share of full strength."""
    uses: str
    """Which colours are painted so, with their numbers in the drawing."""


@dataclass(frozen=True)
class HandoutPuddle:
    """A mix, in parts, with a box for each of its washes."""

    number: int
    parts: tuple[tuple[str, int], ...]
    """Letter of each paint and how many parts of it."""
    words: str
    """The same in words."""
    washes: tuple[HandoutWash, ...]
    """Strongest first."""


@dataclass(frozen=True)
class HandoutSubject:
    """What is painted in one go."""

    name: str
    pictures: tuple[tuple[str, Picture], ...]
    """Line drawings of the flowers, numbered, with their names; none of own colours."""
    puddles: tuple[HandoutPuddle, ...]
    white: str
    """Colours for which the paper is left bare, with their numbers; blank if there is none."""
    left_out: str
    """Colours that no mix of these paints comes near to."""


def handout_tubes(basis: Basis) -> list[HandoutTube]:
    """Return the paints of the palette, each with its letter."""
    return [
        HandoutTube(
            letter,
            basis.names[id_],
            codes_words(basis.tubes[id_]) if basis.tubes[id_].codes else "",
        )
        for id_, letter in _letters(basis).items()
    ]


def handout_subjects(basis: Basis) -> list[HandoutSubject]:
    """Return every flower with its puddles, then own colours; all in one where puddles are shared.

    A flower of which nothing is reached stands there too, so that nobody looks for it.
    """
    own = {colour.name for colour in basis.plan.scenario.own_colours}
    flowers = [part for part in basis.flowers if part.name not in own]
    colours = [part for part in basis.flowers if part.name in own]
    whole = puddles_of(basis.plan, Subject("", own=False))
    if whole:
        return [_subject(basis, "All in one sitting", whole, basis.flowers, own)]
    found = []
    for part in flowers:
        puddles = puddles_of(basis.plan, Subject(part.name, own=False))
        found.append(_subject(basis, part.name, puddles, [part], own))
    if colours:
        puddles = puddles_of(basis.plan, Subject(OWN_COLOURS, own=True))
        found.append(_subject(basis, "Colours of your own", puddles, colours, own))
    return found


def white_sheet(basis: Basis) -> Sheet:
    """Return the inks on white: what is printed is painted on, whatever paper it is."""
    return replace(basis.sheet, ground=WHITE)


def _letters(basis: Basis) -> dict[str, str]:
    """Return a letter for each tube by id."""
    return {
        id_: LETTERS[place] if place < len(LETTERS) else f"{place + 1}"
        for place, id_ in enumerate(basis.tubes)
    }


def _subject(
    basis: Basis,
    name: str,
    puddles: Sequence[Puddle],
    parts: Sequence[FlowerPart],
    own: set[str],
) -> HandoutSubject:
    called = dict(_called(parts, own))
    samples = [one for part in parts for one in part.samples if one in called]
    return HandoutSubject(
        name=printable(name),
        pictures=tuple(
            (printable(part.name, LONGEST_IN_PICTURE), _drawing(basis, part))
            for part in parts
            if part.name not in own
        ),
        puddles=tuple(_puddle(basis, puddle, called) for puddle in puddles),
        white=in_a_row([called[one] for one in samples if one.covered and one.is_bare_paper]),
        left_out=in_a_row([called[one] for one in samples if not one.covered]),
    )


def _swatches(part: FlowerPart) -> tuple[Numbered, ...]:
    """Return the swatches of a flower with their numbers."""
    return numbered([one for one in part.samples if not one.sample.is_step])


def _called(parts: Sequence[FlowerPart], own: set[str]) -> Iterator[tuple[PlannedSample, str]]:
    """Yield each swatch with what it is called: its number and name; own colours by name."""
    for part in parts:
        for item in _swatches(part):
            name = printable(item.planned.sample.name, LONGEST_IN_PICTURE)
            flower = printable(part.name, LONGEST_IN_PICTURE)
            said = f"{item.number} {name}" if len(parts) == 1 else f"{flower} {item.number} {name}"
            yield item.planned, flower if part.name in own else said


def _drawing(basis: Basis, part: FlowerPart) -> Picture:
    name = printable(part.name, LONGEST_IN_PICTURE)
    sheet = white_sheet(basis)
    drawn = split_flower(_swatches(part), basis.tubes, basis.optics, sheet, name=name)
    return line_drawing(drawn, sheet)


def _puddle(basis: Basis, puddle: Puddle, called: dict[PlannedSample, str]) -> HandoutPuddle:
    letters, names = _letters(basis), short_names(basis.tubes.values())
    mix = [*zip(puddle.tubes, puddle.parts, strict=True)]
    words = " + ".join(f"{count} {names[id_]}" for id_, count in mix)
    return HandoutPuddle(
        number=puddle.number,
        parts=tuple((letters[id_], count) for id_, count in mix),
        words=names[puddle.tubes[0]] if len(mix) == 1 else words,
        washes=tuple(_washes(basis, puddle, called)),
    )


def _washes(
    basis: Basis, puddle: Puddle, called: dict[PlannedSample, str]
) -> Iterator[HandoutWash]:
    """Yield the washes of a puddle with what is painted so, strongest first."""
    samples = [basis.plan.samples[place] for place in puddle.colours]
    shown = [one for one in samples if one in called] or samples
    uses: dict[float, list[str]] = {}
    for one in shown:
        if one.recipe is not None:
            said = called.get(one) or printable(one.sample.name, LONGEST_IN_PICTURE)
            uses.setdefault(one.recipe.strength, []).append(said)
    for strength in sorted(uses, reverse=True):
        yield HandoutWash(strength_words(strength), in_a_row(uses[strength]))
