"""What stands on a hand-out: the paints by letter, each flower's puddles with boxes for swatches.

It is for whoever paints, not for whoever buys: no prices, no differences, no proofs. Only the
swatches of a flower stand there, not the steps between them, unless a puddle is for steps alone.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fewtubes.picture.brush import Numbered, numbered
from fewtubes.picture.hue_plane import LETTERS
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.split_flower import split_flower
from fewtubes.report.illustrated.basis import LONGEST_IN_PICTURE, Basis, FlowerPart
from fewtubes.report.sentences.puddles import Subject, puddles_of
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import OWN_COLOURS, Puddle
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable
from fewtubes.words.short_names import short_names
from fewtubes.words.tubes import codes_words
from fewtubes.words.washes import strength_name, thinnings, water_words

__all__ = [
    "Handout",
    "HandoutPuddle",
    "HandoutSubject",
    "HandoutTube",
    "HandoutWash",
    "handout_subjects",
    "handout_tubes",
    "white_sheet",
]


WHITE = "#ffffff"

NO_MIX = "No mix comes near:"


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
    """In words."""
    water: str
    """How many brushfuls of water it takes."""
    uses: str
    """Which colours are painted so, with their numbers in the drawing."""
    twice: bool = False
    """Whether it is thinned in two steps."""


@dataclass(frozen=True)
class HandoutPuddle:
    """A mix, in parts, with a box for each of its washes."""

    number: int
    parts: tuple[tuple[str, int], ...]
    """Letter of each paint and how many parts of it."""
    names: tuple[str, ...]
    """Short name of each paint."""
    washes: tuple[HandoutWash, ...]
    """Strongest first."""

    @property
    def words(self) -> str:
        """The parts in words, e.g. ``8 yellow + 1 violet``."""
        if len(self.names) == 1:
            return self.names[0]
        counts = (count for _, count in self.parts)
        return " + ".join(f"{n} {name}" for n, name in zip(counts, self.names, strict=True))


@dataclass(frozen=True)
class HandoutSubject:
    """What is painted in one go."""

    name: str
    pictures: tuple[tuple[str, Picture], ...]
    """The flowers, numbered, with their names, to be drawn as lines; none of own colours."""
    puddles: tuple[HandoutPuddle, ...]
    white: str
    """Colours for which the paper is left bare, with their numbers; blank if there is none."""
    left_out: str
    """Colours that no mix of these paints comes near to."""

    @property
    def has_side(self) -> bool:
        """Whether its one drawing stands at the side of its puddles."""
        return len(self.pictures) == 1

    @property
    def asides(self) -> list[tuple[str, str]]:
        """What is left white and left out, each with what is said first."""
        return [
            *([("Leave the paper white:", f"{self.white}.")] if self.white else []),
            *([(NO_MIX, f"{self.left_out}.")] if self.left_out else []),
        ]


@dataclass(frozen=True)
class Handout:
    """All that stands on a hand-out but what is done with the boxes."""

    title: str
    tubes: tuple[HandoutTube, ...]
    subjects: tuple[HandoutSubject, ...]
    cautions: tuple[str, ...]
    about: tuple[tuple[str, str], ...]
    """What some paints call for, by their letters."""
    leader: str
    """Who decides what is fit to use, and where the mixes come from."""

    @property
    def care(self) -> str:
        """The cautions on end."""
        return " ".join([*self.cautions, *(f"{letters}: {text}" for letters, text in self.about)])


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
    swatches = _swatches(part)
    drawn = split_flower(swatches, basis.tubes, basis.optics, sheet, name=name)
    parts = counted(len(swatches), "part")
    said = f"{parts} to paint in, numbered as beside the boxes."
    return replace(drawn, title=f"{name}, as a line drawing", description=said)


def _puddle(basis: Basis, puddle: Puddle, called: dict[PlannedSample, str]) -> HandoutPuddle:
    letters, names = _letters(basis), short_names(basis.tubes.values())
    mix = [*zip(puddle.tubes, puddle.parts, strict=True)]
    return HandoutPuddle(
        number=puddle.number,
        parts=tuple((letters[id_], count) for id_, count in mix),
        names=tuple(names[id_] for id_ in puddle.tubes),
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
            said = called.get(one) or _step(one, called)
            uses.setdefault(one.recipe.strength, []).append(said)
    for strength in sorted(uses, reverse=True):
        said = in_a_row(uses[strength])
        twice = len(thinnings(strength)) > 1
        name = strength_name(strength).removesuffix(" wash")
        yield HandoutWash(name, water_words(strength), said, twice)


def _step(planned: PlannedSample, called: dict[PlannedSample, str]) -> str:
    """Return a step as what lies between two swatches, each called as in the drawing."""
    sample = planned.sample
    if sample.between is None:
        return printable(sample.name, LONGEST_IN_PICTURE)
    drawn = {(one.sample.flower, one.sample.name): said for one, said in called.items()}
    light, deep = (
        drawn.get((sample.flower, end), printable(end, LONGEST_IN_PICTURE))
        for end in sample.between
    )
    return f"between {light} and {deep}"
