"""The answer in short, as the page shows it first: what is covered, what is not, what to mix."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from fewtubes.picture.mix_bar import mix_bar
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import drawn
from fewtubes.report.sentences.puddles import (
    Subject,
    colour_name,
    puddles_of,
    short_puddling_words,
    subject_label,
    subjects_of,
)
from fewtubes.report.sentences.purchase import added_words, sold_words
from fewtubes.report.sentences.reasons import obstacle_words
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import Puddle
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.matches import bare_figure, difference
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.recipes import short_mix_words
from fewtubes.words.shares import percent
from fewtubes.words.short_names import short_names
from fewtubes.words.unparted import unparted
from fewtubes.words.washes import strength_percent

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
    bar: str
    """Markup of its parts."""
    mix: str
    colours: str
    """Each colour with its wash and how near the mix comes."""


@dataclass(frozen=True)
class ShortSubject:
    """What is mixed for a flower, for the painter's own colours, or for the whole sitting."""

    name: str
    takes: str
    """How many puddles."""
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
    steps_missed: str
    """How many steps between swatches are out of reach besides; blank if none is."""
    puddles: str
    """What puddles are, and for what they are shared."""
    subjects: tuple[ShortSubject, ...]
    cautions: tuple[tuple[str, str], ...]
    """Tubes, and what to take care of with them."""
    care: str
    """What to take care of with any paint."""
    counted: str
    """How many flowers and colours there are."""


def short_answer(basis: Basis) -> ShortAnswer:
    """Return an answer in short."""
    plan = basis.plan
    missed = [planned for planned in plan.samples if not planned.covered]
    steps = sum(planned.sample.is_step for planned in missed)
    lines = [*_missed_lines(missed, plan)]
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
        steps_missed=f"{counted(steps, 'step')} between swatches" if steps else "",
        puddles=short_puddling_words(plan),
        subjects=tuple(_Mixing(basis).subjects()),
        cautions=tuple(
            (joined([*map(printable, caution.tubes)]), caution.short or caution.text)
            for caution in plan.cautions
            if caution.tubes
        ),
        care=" ".join(one.short or one.text for one in plan.cautions if not one.tubes),
        counted=(
            f"{counted(len(subjects_of(plan)), 'flower')}, {counted(len(plan.samples), 'colour')}"
        ),
    )


def _missed_lines(missed: Sequence[PlannedSample], plan: Plan) -> Iterator[str]:
    """Yield a line for each colour out of reach that is no step, those that weigh most first."""
    own = {colour.name for colour in plan.scenario.own_colours}
    swatches = [planned for planned in missed if not planned.sample.is_step]
    for planned in sorted(swatches, key=lambda one: -one.sample.weight):
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
        price = added_words(first.cost, currency, first.source, in_set=first.in_set)
        return f"{printable(first.tube.name)} ({price}) would bring it{refused}"
    if planned.together:
        cost = money(sum(remedy.cost for remedy in planned.together), currency)
        names = joined([sold_words(remedy.tube, remedy.source) for remedy in planned.together])
        return f"{names} together ({cost}) would bring it"
    nearer = planned.nearer
    if nearer is not None:
        after = difference(nearer.match, scenario.tolerance)
        name = printable(nearer.tube.name)
        cost = added_words(nearer.cost, currency, nearer.source, in_set=True)
        return f"no tube brings it; nearest with {name} ({cost}): {after}"
    return obstacle_words(planned.obstacle, scenario)


@dataclass(frozen=True)
class _Mixing:
    """The puddles of a plan as short lines."""

    basis: Basis

    @cached_property
    def names(self) -> Mapping[str, str]:
        """Short names of the palette's tubes by id."""
        return short_names(planned.tube for planned in self.basis.plan.tubes)

    def subjects(self) -> Iterator[ShortSubject]:
        """Yield what is mixed: for the sitting if puddles serve all, then for each flower."""
        plan = self.basis.plan
        shared = puddles_of(plan, Subject("", own=False))
        if shared:
            yield ShortSubject("all in one sitting", "", self.puddles(shared), "", "")
        number = {part.name: place for place, part in enumerate(self.basis.flowers)}
        for subject, places in subjects_of(plan):
            puddles = puddles_of(plan, subject)
            bare = self.bare(places, own=subject.own)
            if puddles or bare:
                yield ShortSubject(
                    name=printable(subject.name, LONGEST_LABEL),
                    takes=subject_label(plan, subject),
                    puddles=self.puddles(puddles),
                    bare=bare,
                    place=OWN_PLACE if subject.own else f"flower-{number[subject.name]}",
                )

    def puddles(self, puddles: Sequence[Puddle]) -> tuple[ShortPuddle, ...]:
        """Return puddles as lines."""
        return tuple(
            ShortPuddle(
                number=puddle.number,
                bar=self._bar(puddle),
                mix=short_mix_words(puddle.tubes, puddle.parts, self.names),
                colours=self._colours(puddle),
            )
            for puddle in puddles
        )

    def bare(self, places: Sequence[int], *, own: bool) -> str:
        """Return which colours of a flower the bare paper has; "" if it has none."""
        samples = [self.basis.plan.samples[place] for place in places]
        found = [one for one in samples if one.covered and one.is_bare_paper]
        return in_a_row(
            [self._colour(one, one.sample.flower if own else one.sample.name) for one in found]
        )

    def _colours(self, puddle: Puddle) -> str:
        """Return the colours of a puddle but for steps, if it serves any besides."""
        plan = self.basis.plan
        shown = [t for t in puddle.colours if not plan.samples[t].sample.is_step]
        return in_a_row(
            [
                self._colour(plan.samples[place], colour_name(plan, place, puddle))
                for place in shown or puddle.colours
            ]
        )

    def _colour(self, planned: PlannedSample, name: str) -> str:
        """Return a colour with its wash and, in brackets, how far off the mix is."""
        plan, recipe = self.basis.plan, planned.recipe
        told = [bare_figure(planned.match, plan.scenario.tolerance)]
        stays = self.basis.stays(planned)
        if stays is not None and not planned.is_bare_paper:
            told.append(f"stays {percent(stays)}")
        mixed = recipe is not None and not recipe.is_bare_paper
        wash = f" {strength_percent(recipe.strength)}" if recipe is not None and mixed else ""
        return unparted(f"{printable(name, LONGEST_LABEL)}{wash} ({'; '.join(told)})")

    def _bar(self, puddle: Puddle) -> str:
        basis = self.basis
        picture = mix_bar(puddle.tubes, puddle.parts, basis.tubes, basis.optics, basis.sheet)
        return drawn(picture, spoken=False)
