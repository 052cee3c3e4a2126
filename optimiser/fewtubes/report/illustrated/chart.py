"""What stands on the sheet to paint: pairs of tubes in steps, every puddle with its washes.

A box is empty, for the painter's own paint; the computed colour is small beneath it. Every colour
is that of a recipe, by the model that all else is computed with.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.recipes import STRENGTHS, Recipe
from fewtubes.picture.sheet import Shown, screen_colour
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.sentences.puddles import (
    Subject,
    colour_name,
    puddle_words,
    puddles_of,
    subjects_of,
)
from fewtubes.shopping.puddles import Puddle
from fewtubes.words.lists import joined
from fewtubes.words.washes import strength_percent, strength_words

__all__ = [
    "MOST_TUBES_IN_ALL_PAIRS",
    "PAIR_PARTS",
    "WASH",
    "Box",
    "Row",
    "pair_rows",
    "puddle_rows",
    "tube_rows",
]

PAIR_PARTS = ((4, 1), (2, 1), (1, 1), (1, 2), (1, 4))
"""Steps from one tube to another: of the parts in recipes those up to 4, no step hidden."""

WASH = STRENGTHS[4]
"""The wash that pairs are painted in as well, a quarter; thin enough to show what water does."""

TUBE_STRENGTHS = (STRENGTHS[0], STRENGTHS[2], STRENGTHS[4], STRENGTHS[6], STRENGTHS[8])
"""Washes in which each tube stands by itself, each half of the one before."""

MOST_TUBES_IN_ALL_PAIRS = 40
"""Of more tubes only the pairs that a puddle holds are painted: all would fill over 60 pages."""


@dataclass(frozen=True)
class Box:
    """An empty box with what belongs into it."""

    label: str
    """Parts or wash, short enough to stand over the box."""
    recipe: Recipe
    shown: Shown
    """The computed colour as a screen shows it."""
    use: str = ""
    """What the wash is for; blank of steps and of what nothing is painted with."""


@dataclass(frozen=True)
class Row:
    """Boxes that are painted one after the other."""

    title: str
    lines: tuple[tuple[Box, ...], ...]
    """Under each other: of pairs full strength, and the same in a wash."""


def tube_rows(basis: Basis) -> list[Row]:
    """Return every tube of the palette alone, from full strength to a thin wash."""
    return [
        Row(
            basis.names[id_],
            (
                tuple(
                    _box(basis, strength_percent(strength), Recipe((id_,), (1,), strength))
                    for strength in TUBE_STRENGTHS
                ),
            ),
        )
        for id_ in basis.tubes
    ]


def pair_rows(basis: Basis) -> list[Row]:
    """Return the pairs of the palette's tubes, each in steps, in full and in a wash."""
    return [
        Row(
            f"{basis.names[one]} : {basis.names[other]}",
            tuple(
                tuple(
                    _box(basis, f"{parts[0]} : {parts[1]}", Recipe((one, other), parts, strength))
                    for parts in PAIR_PARTS
                )
                for strength in (STRENGTHS[0], WASH)
            ),
        )
        for one, other in _pairs(basis)
    ]


def puddle_rows(basis: Basis) -> list[tuple[str, list[Row]]]:
    """Return what is painted in one go, each with its puddles numbered as in the report."""
    subjects = [Subject("", own=False), *(subject for subject, _ in subjects_of(basis.plan))]
    found = ((subject, puddles_of(basis.plan, subject)) for subject in subjects)
    return [
        (subject.name or "all in one sitting", [_puddle(basis, puddle) for puddle in puddles])
        for subject, puddles in found
        if puddles
    ]


def _pairs(basis: Basis) -> Sequence[tuple[str, str]]:
    pairs = list(combinations(basis.tubes, 2))
    if len(basis.tubes) <= MOST_TUBES_IN_ALL_PAIRS:
        return pairs
    mixed = [frozenset(puddle.tubes) for puddle in basis.plan.mixed.mixed]
    return [pair for pair in pairs if any(mix.issuperset(pair) for mix in mixed)]


def _puddle(basis: Basis, puddle: Puddle) -> Row:
    title = f"Puddle {puddle.number}: {puddle_words(puddle, basis.names)}"
    return Row(title, (tuple(_washes(basis, puddle)),))


def _washes(basis: Basis, puddle: Puddle) -> Iterator[Box]:
    """Yield the puddle at full strength, then each wash that is painted with it."""
    used: dict[float, list[str]] = {STRENGTHS[0]: []}
    for place in puddle.colours:
        recipe = basis.plan.samples[place].recipe
        if recipe is not None:
            used.setdefault(recipe.strength, []).append(colour_name(basis.plan, place, puddle))
    for strength, names in used.items():
        recipe = Recipe(puddle.tubes, puddle.parts, strength)
        yield _box(basis, strength_words(strength), recipe, use=joined(names))


def _box(basis: Basis, label: str, recipe: Recipe, *, use: str = "") -> Box:
    lab = recipe_lab(recipe, basis.tubes, basis.optics)
    return Box(label, recipe, screen_colour(lab), use)
