"""The answer in short, as the page shows it first: what is covered, what is not, what to mix."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fewtubes.mixing.recipes import Recipe
from fewtubes.picture.parts import parts_picture
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import drawn
from fewtubes.report.sentences.puddles import (
    Subject,
    puddle_words,
    puddles_of,
    puddling_words,
    subject_fewest_words,
    subjects_of,
    thinned_words,
)
from fewtubes.report.sentences.reasons import obstacle_words
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import Puddle
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent

__all__ = ["CoveredFlower", "ShortAnswer", "ShortPuddle", "ShortSubject", "short_answer"]

MOST_MISSED = 12
"""Colours out of reach that are listed at once; the others are folded away."""

LONGEST_LABEL = 60
"""Characters of a name in a line."""

OWN_PLACE = "own-colours"
"""Id of the painter's own colours among the flowers, wanted and mixed."""


@dataclass(frozen=True)
class CoveredFlower:
    """How much of a flower is covered."""

    name: str
    colours: str
    covered: str


@dataclass(frozen=True)
class ShortPuddle:
    """A mix and what it is thinned for."""

    number: int
    dabs: str
    """Markup of its parts."""
    mix: str
    thinned: str


@dataclass(frozen=True)
class ShortSubject:
    """What is mixed for a flower, for the painter's own colours, or for the whole sitting."""

    name: str
    takes: str
    """How many puddles, and whether fewer would do."""
    puddles: tuple[ShortPuddle, ...]
    bare: str
    """Colours that the bare paper has."""
    place: str
    """Id of where each of its colours stands beside its mix; blank for a sitting."""


@dataclass(frozen=True)
class ShortAnswer:
    """What the page shows of an answer before anything is unfolded."""

    covered: tuple[CoveredFlower, ...]
    missed: tuple[str, ...]
    """A line for each colour out of reach, those that count most."""
    further_missed: tuple[str, ...]
    """The same for the others."""
    puddles: str
    """What puddles are, and for what they are shared."""
    subjects: tuple[ShortSubject, ...]
    cautions: tuple[tuple[str, str], ...]
    """Tubes, and what to take care of with them."""
    counted: str
    """How many flowers and colours there are."""


def short_answer(basis: Basis) -> ShortAnswer:
    """Return an answer in short."""
    plan = basis.plan
    lines = [*_missed_lines(plan)]
    return ShortAnswer(
        covered=tuple(
            CoveredFlower(
                printable(one.name, LONGEST_LABEL),
                f"{one.covered} of {one.total}",
                percent(one.coverage),
            )
            for one in plan.flowers
        ),
        missed=tuple(lines[:MOST_MISSED]),
        further_missed=tuple(lines[MOST_MISSED:]),
        puddles=puddling_words(plan),
        subjects=tuple(_subjects(basis)),
        cautions=tuple(
            (joined([*map(printable, caution.tubes)]), caution.text)
            for caution in plan.cautions
            if caution.tubes
        ),
        counted=(
            f"{counted(len(subjects_of(plan)), 'flower')}, {counted(len(plan.samples), 'colour')}"
        ),
    )


def _missed_lines(plan: Plan) -> Iterator[str]:
    """Yield a line for each colour out of reach, those that weigh most first."""
    missed = [planned for planned in plan.samples if not planned.covered]
    own = {colour.name for colour in plan.scenario.own_colours}
    for planned in sorted(missed, key=lambda one: -one.sample.weight):
        sample = planned.sample
        name = printable(sample.flower, LONGEST_LABEL)
        if sample.flower not in own:
            name = f"{name} / {printable(sample.name, LONGEST_LABEL)}"
        off = ""
        if math.isfinite(planned.match):
            off = f" ({difference(planned.match, plan.scenario.tolerance)})"
        yield f"{name}{off}: {_way_words(planned, plan.scenario)}."


def _way_words(planned: PlannedSample, scenario: Scenario) -> str:
    """Return the simplest way to bring a colour, or why there is none, without full stop."""
    currency = scenario.currency
    if planned.remedies:
        first = min(planned.remedies, key=lambda remedy: not remedy.allowed)
        refused = "" if first.allowed else ", which the wishes rule out"
        price = money(first.cost, currency) if first.cost else "owned"
        return f"{printable(first.tube.name)} ({price}) would bring it{refused}"
    if planned.together:
        names = joined([printable(remedy.tube.name) for remedy in planned.together])
        cost = money(sum(remedy.cost for remedy in planned.together), currency)
        return f"{names} together ({cost}) would bring it"
    nearer = planned.nearer
    if nearer is not None:
        after = difference(nearer.match, scenario.tolerance)
        name, cost = printable(nearer.tube.name), money(nearer.cost, currency)
        return f"no tube brings it; nearest with {name} ({cost}): {after}"
    return obstacle_words(planned.obstacle, scenario)


def _subjects(basis: Basis) -> Iterator[ShortSubject]:
    """Yield what is mixed: for the sitting if puddles serve all, then for each flower."""
    plan = basis.plan
    sitting = Subject("", own=False)
    shared = puddles_of(plan, sitting)
    if shared:
        yield ShortSubject("all in one sitting", "", _puddles(basis, shared), "", "")
    number = {part.name: place for place, part in enumerate(basis.flowers)}
    for subject, places in subjects_of(plan):
        puddles = puddles_of(plan, subject)
        bare = [
            printable(_label(plan.samples[place], own=subject.own), LONGEST_LABEL)
            for place in places
            if plan.samples[place].covered and plan.samples[place].is_bare_paper
        ]
        if puddles or bare:
            yield ShortSubject(
                name=printable(subject.name, LONGEST_LABEL),
                takes=subject_fewest_words(plan, subject),
                puddles=_puddles(basis, puddles),
                bare=joined(bare),
                place=OWN_PLACE if subject.own else f"flower-{number[subject.name]}",
            )


def _label(planned: PlannedSample, *, own: bool) -> str:
    return planned.sample.flower if own else planned.sample.name


def _puddles(basis: Basis, puddles: Sequence[Puddle]) -> tuple[ShortPuddle, ...]:
    return tuple(
        ShortPuddle(
            number=puddle.number,
            dabs=str(_dabs(basis, puddle)),
            mix=puddle_words(replace(puddle, addition=None), basis.names),
            thinned=thinned_words(basis.plan, _without_steps(basis.plan, puddle)),
        )
        for puddle in puddles
    )


def _without_steps(plan: Plan, puddle: Puddle) -> Puddle:
    """Return a puddle as of the colours between which there are steps, if it serves any of them."""
    swatches = tuple(t for t in puddle.colours if not plan.samples[t].sample.is_step)
    return replace(puddle, colours=swatches or puddle.colours)


def _dabs(basis: Basis, puddle: Puddle) -> str:
    recipe = Recipe(puddle.tubes, puddle.parts, 1.0)
    picture = parts_picture(recipe, basis.tubes, basis.optics, basis.sheet)
    return drawn(picture, spoken=False)
