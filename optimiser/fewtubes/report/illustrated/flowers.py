"""The flowers in the illustrated report: each taken apart, with a recipe for every colour."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from fewtubes.mixing.recipes import Recipe
from fewtubes.picture.brush import numbered
from fewtubes.picture.mix_bar import mix_bar
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.sheet import screen_colour
from fewtubes.report.illustrated.basis import Basis, FlowerPart
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.sentences.puddles import (
    Subject,
    puddle_words,
    puddles_of,
    puddling_words,
    subject_fewest_words,
    thinned_words,
)
from fewtubes.report.sentences.reasons import bare_paper_words, reason_words
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import OWN_COLOURS, Puddle
from fewtubes.words.counting import counted
from fewtubes.words.matches import difference, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import PARTS_WORDS, RESERVE_WORDS, recipe_words
from fewtubes.words.shares import percent
from fewtubes.words.unsteady import steadiness_words, unsteady_figure
from fewtubes.words.washes import strength_words

__all__ = ["flowers_section"]

LONGEST_LABEL = 100
"""Characters of a colour's name; "between A and B" needs two names' room."""

OWN = Subject(OWN_COLOURS, own=True)
SITTING = Subject("", own=False)
"""Of the puddles that serve all flowers."""


@dataclass(frozen=True)
class _Colour:
    """A colour with its mix, as in `flowers.html`; blank texts are left out there."""

    mark: str
    name: str
    pair: Markup
    missed: bool
    mix: str
    """What is shown of a colour out of reach."""
    near: str
    """How near the mix comes, in words and number."""
    steadiness: str
    stays: str
    """In what share of trials it stays within tolerance."""
    bar: Markup
    """Parts of the mix, if the colour has one of its own."""
    wash: str
    """Of a puddle that is told above; blank without."""
    recipe: str
    """Tubes, parts and wash, where no puddle is told above."""
    reasons: Sequence[str]
    beyond: str
    """Which half of the dab the screen cannot show."""


@dataclass(frozen=True)
class _Puddle:
    """A mix that is thinned for several colours, as in `flowers.html`."""

    label: str
    bar: Markup
    mix: str
    thinned: str
    """What it is thinned for; blank where its colours stand beneath."""
    items: Sequence[_Colour]
    """Its colours, strongest wash first; none of a puddle for the whole sitting."""


@dataclass(frozen=True)
class _Flower:
    """A flower, as in `flowers.html`."""

    id: str
    title: str
    covered: int
    colours: str
    coverage: str
    weighs: str
    picture: Markup
    takes: str
    """How many puddles, and whether fewer would do."""
    puddles: Sequence[_Puddle]
    items: Sequence[_Colour]
    """Colours that none of its puddles is for: out of reach, bare paper, of a shared puddle."""


_Told = tuple[PlannedSample, _Colour]


def flowers_section(basis: Basis) -> Markup:
    """Return every flower with its recipes."""
    plan = basis.plan
    own = {colour.name for colour in plan.scenario.own_colours}
    reserved = any(one.is_bare_paper for one in plan.samples)
    own_colours = _own_colours(basis, [part for part in basis.flowers if part.name in own])
    own_puddles, own_rest = _by_puddle(basis, OWN, own_colours)
    return fill(
        "flowers.html",
        flowers=[_flower(basis, part) for part in basis.flowers if part.name not in own],
        shared=puddling_words(plan),
        sitting=_by_puddle(basis, SITTING, [])[0],
        own_takes=subject_fewest_words(plan, OWN),
        own_puddles=own_puddles,
        parts=PARTS_WORDS,
        reserve=RESERVE_WORDS if reserved else "",
        any_tube=bool(plan.tubes),
        own=own_rest,
        own_covered=sum(planned.covered for planned, _ in own_colours),
        own_counted=counted(len(own_colours), "colour"),
    )


def _own_colours(basis: Basis, parts: Sequence[FlowerPart]) -> list[_Told]:
    """Return the painter's own colours, each with its letter."""
    samples = [(part, planned) for part in parts for planned in part.samples]
    return [
        (
            planned,
            _colour(
                basis,
                planned,
                f"own{number}-",
                mark=part.letter,
                name=f"{printable(part.name, LONGEST_LABEL)}{_weighs(basis, part)}",
            ),
        )
        for number, (part, planned) in enumerate(samples)
    ]


def _weighs(basis: Basis, part: FlowerPart) -> str:
    """Return the importance of a colour, where it is not the usual one."""
    importance = next(item for item in basis.plan.flowers if item.name == part.name).importance
    return "" if importance == 1 else f" (weighs {float(importance):g})"


def _flower(basis: Basis, part: FlowerPart) -> _Flower:
    number = basis.flowers.index(part)
    coverage = next(flower for flower in basis.plan.flowers if flower.name == part.name)
    letter = f"{part.letter}. " if part.letter else ""
    colours = [
        (
            item.planned,
            _colour(
                basis,
                item.planned,
                f"f{number}-{item.number}-",
                mark=f"{item.number}",
                name=printable(item.planned.sample.name, LONGEST_LABEL),
            ),
        )
        for item in numbered(part.samples)
    ]
    subject = Subject(part.name, own=False)
    puddles, rest = _by_puddle(basis, subject, colours)
    return _Flower(
        id=f"flower-{number}",
        title=f"{letter}{printable(part.name)}",
        covered=coverage.covered,
        colours=counted(coverage.total, "colour"),
        coverage=percent(coverage.coverage),
        weighs=f"{float(coverage.importance):g}",
        picture=drawn(basis.split_flower(part), prefix=f"flower{number}-"),
        takes=subject_fewest_words(basis.plan, subject),
        puddles=puddles,
        items=rest,
    )


def _colour(basis: Basis, planned: PlannedSample, prefix: str, *, mark: str, name: str) -> _Colour:
    recipe, tolerance = planned.recipe, basis.plan.scenario.tolerance
    near = ""
    if math.isfinite(planned.match):
        near = f"{match_words(planned.match)}, {difference(planned.match, tolerance)}"
    stays = basis.stays(planned)
    puddle = basis.puddle(planned)
    pair = pair_picture(planned, basis.tubes, basis.optics, basis.sheet)
    return _Colour(
        mark=mark,
        name=name,
        pair=drawn(pair, prefix=prefix, spoken=False),
        missed=not planned.covered,
        mix="bare paper" if planned.is_bare_paper else "the nearest mix",
        near=near,
        steadiness=_steadiness(planned, tolerance),
        stays="" if stays is None else percent(stays),
        bar=Markup() if puddle or recipe is None else _bar(basis, recipe),
        wash="" if recipe is None or puddle is None else _wash(recipe, puddle),
        recipe="" if recipe is None or puddle is not None else recipe_words(recipe, basis.names),
        reasons=_reasons(basis, planned),
        beyond=_beyond(planned),
    )


def _steadiness(planned: PlannedSample, tolerance: float) -> str:
    """Return how a recipe stands an unsteady hand; "" of bare paper, which has none."""
    if planned.is_bare_paper or not math.isfinite(planned.match_if_unsteady):
        return ""
    words = steadiness_words(planned.match_if_unsteady, tolerance)
    return f"{words} (up to {unsteady_figure(planned.match_if_unsteady, tolerance)})"


def _wash(recipe: Recipe, puddle: Puddle) -> str:
    """Return the wash of a puddle told above; of one that is shared by flowers its number too."""
    wash = strength_words(recipe.strength)
    return wash if puddle.subject else f"puddle {puddle.number}, {wash}"


def _by_puddle(
    basis: Basis, subject: Subject, colours: Sequence[_Told]
) -> tuple[list[_Puddle], list[_Colour]]:
    """Return the puddles of one subject with their colours, and the colours without one there."""
    shown = dict(colours)
    puddles = []
    for puddle in puddles_of(basis.plan, subject):
        samples = [basis.plan.samples[place] for place in puddle.colours]
        items = [shown.pop(planned) for planned in samples if planned in shown]
        puddles.append(
            _Puddle(
                label=f"Puddle {puddle.number}",
                bar=_bar(basis, puddle),
                mix=puddle_words(puddle, basis.names),
                thinned="" if items else thinned_words(basis.plan, puddle),
                items=items,
            )
        )
    return puddles, [*shown.values()]


def _bar(basis: Basis, mix: Recipe | Puddle) -> Markup:
    """Return the parts of a mix as a bar; nothing for bare paper."""
    if not mix.tubes:
        return Markup()
    picture = mix_bar(mix.tubes, mix.parts, basis.tubes, basis.optics, basis.sheet)
    return drawn(picture, spoken=False)


def _reasons(basis: Basis, planned: PlannedSample) -> list[str]:
    """Return why a colour is missed and what would bring it, and whether bare paper would do."""
    scenario = basis.plan.scenario
    reasons = [] if planned.covered else [reason_words(planned, scenario)]
    return [words for words in (*reasons, bare_paper_words(planned, scenario)) if words]


def _beyond(planned: PlannedSample) -> str:
    """Return which half of a dab the screen cannot show, as the beginning of a sentence."""
    wanted, mixed = screen_colour(planned.sample.lab).inside, screen_colour(planned.mix_lab).inside
    if wanted and mixed:
        return ""
    if not (wanted or mixed):
        return "both halves are"
    return "the colour wanted is" if mixed else "the mix is"
