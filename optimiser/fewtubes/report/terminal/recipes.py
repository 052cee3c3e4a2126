"""The flowers of a plan in the terminal: how much is covered, and a recipe for every swatch."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fewtubes.report.sentences.puddles import (
    Subject,
    puddle_words,
    puddles_of,
    puddling_words,
    subject_fewest_words,
    subjects_of,
    thinned_words,
)
from fewtubes.report.sentences.reasons import bare_paper_words, reason_words
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import grid, heading, paragraph, plain, put, table
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.words.matches import difference, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import PARTS_WORDS, RESERVE_WORDS, recipe_words
from fewtubes.words.shares import percent
from fewtubes.words.unsteady import steadiness_words, unsteady_figure
from fewtubes.words.washes import strength_words

__all__ = ["print_flower_coverage", "print_recipes"]

LONGEST_LABEL = 60
"""Characters of a swatch's name beside its recipe; "between A and B" needs two names' room."""


def print_flower_coverage(plan: Plan, console: Console) -> None:
    """Print the coverage of each flower and in all."""
    heading(console, "Covered")
    made = table("flower", "importance", "colours", "covered", right=("importance", "covered"))
    for flower in plan.flowers:
        made.add_row(
            plain(printable(flower.name)),
            plain(f"{float(flower.importance):g}"),
            plain(f"{flower.covered} of {flower.total}"),
            plain(percent(flower.coverage)),
        )
    covered = sum(planned.covered for planned in plan.samples)
    made.add_row(
        plain("in all", "bold"),
        "",
        plain(f"{covered} of {len(plan.samples)}"),
        plain(percent(plan.coverage)),
    )
    put(console, made)


def print_recipes(plan: Plan, console: Console) -> None:
    """Print puddles and washes, flower by flower."""
    heading(console, "Recipes")
    reserved = f" {RESERVE_WORDS}" if any(one.is_bare_paper for one in plan.samples) else ""
    shared = puddling_words(plan)
    if shared:
        paragraph(console, shared)
    paragraph(
        console,
        f"{PARTS_WORDS} The wash is the share of a full-strength stroke. ΔE00 is the colour"
        " difference CIEDE2000; the words beside it are our own. Unsteady: the largest difference"
        f" when each part and the wash are off by 20 %.{reserved}",
    )
    if shows_chips(console):
        paragraph(console, "First block: the colour wanted. Second block: the mix.")
    pages = _Pages(plan, console)
    pages.print_sitting()
    for subject, places in subjects_of(plan):
        pages.print_subject(subject, places)


@dataclass(frozen=True)
class _Pages:
    """The recipes of a plan, printed subject by subject."""

    plan: Plan
    console: Console

    @cached_property
    def names(self) -> dict[str, str]:
        """Names of the palette's tubes by id."""
        return {planned.tube.id: printable(planned.tube.name) for planned in self.plan.tubes}

    def print_sitting(self) -> None:
        """Print the puddles that serve all flowers, if they do."""
        shared = [puddle for puddle in self.plan.mixed.mixed if not puddle.subject]
        if not shared:
            return
        self.console.print()
        put(self.console, plain("Puddles for the sitting", "bold"))
        made = grid(columns=2)
        for puddle in shared:
            made.add_row(
                plain(f"Puddle {puddle.number}"),
                plain(f"{puddle_words(puddle, self.names)}; {thinned_words(self.plan, puddle)}"),
            )
        put(self.console, made)

    def print_subject(self, subject: Subject, places: Sequence[int]) -> None:
        """Print one flower, or the painter's own colours: puddle by puddle, then the rest."""
        self.console.print()
        title = printable(subject.name)
        put(self.console, plain(title[:1].upper() + title[1:] if subject.own else title, "bold"))
        told = subject_fewest_words(self.plan, subject)
        if told:
            paragraph(self.console, told)
        made = grid(columns=3 if shows_chips(self.console) else 2)
        left = list(places)
        for puddle in puddles_of(self.plan, subject):
            self._add_row(made, f"Puddle {puddle.number}", plain(puddle_words(puddle, self.names)))
            for place in puddle.colours:
                self._add_colour(made, place, subject, self._wash_text(place), indent=2)
            left = [place for place in left if place not in puddle.colours]
        for place in left:
            self._add_colour(made, place, subject, self._other_text(place))
        put(self.console, made)

    def _add_colour(
        self, made: Table, place: int, subject: Subject, text: Text, *, indent: int = 0
    ) -> None:
        """Add the row of one colour."""
        planned = self.plan.samples[place]
        name = planned.sample.flower if subject.own else planned.sample.name
        label = f"{' ' * indent}{printable(name, LONGEST_LABEL)}"
        self._add_row(made, label, text, planned)

    def _add_row(
        self, made: Table, label: str, text: Text, planned: PlannedSample | None = None
    ) -> None:
        cells = (plain(label), text)
        if not shows_chips(self.console):
            made.add_row(*cells)
            return
        made.add_row(plain("") if planned is None else _blocks(planned, self.console), *cells)

    def _wash_text(self, place: int) -> Text:
        """Return the wash of a colour from the puddle above it, with its match."""
        planned = self.plan.samples[place]
        wash = "" if planned.recipe is None else strength_words(planned.recipe.strength)
        text = plain(f"{wash}: {_match_text(planned, self.plan.scenario.tolerance)}")
        bare = bare_paper_words(planned, self.plan.scenario)
        return text.append("\n").append_text(plain(bare)) if bare else text

    def _other_text(self, place: int) -> Text:
        """Return what stands at a colour that has no puddle of its own flower."""
        shared = self.plan.mixed.of(place)
        if shared is not None:
            return plain(f"puddle {shared.number}, ").append_text(self._wash_text(place))
        return _sample_text(self.plan.samples[place], self.plan, self.names)


def _blocks(planned: PlannedSample, console: Console) -> Text:
    """Return the colour wanted and, if there is a recipe, the mix."""
    mix = [] if planned.recipe is None else [planned.mix_lab]
    return chips(console, [planned.sample.lab, *mix])


def _sample_text(planned: PlannedSample, plan: Plan, names: Mapping[str, str]) -> Text:
    """Return the recipe with its match, or what comes nearest and why nothing comes nearer."""
    if planned.covered and planned.recipe is not None:
        text = plain(recipe_words(planned.recipe, names)).append("\n")
        text.append_text(plain(_match_text(planned, plan.scenario.tolerance)))
        bare = bare_paper_words(planned, plan.scenario)
        return text.append("\n").append_text(plain(bare)) if bare else text
    nearest = _nearest_text(planned, plan.scenario.tolerance, names)
    return plain("out of reach", "bold").append_text(
        plain(f" — {nearest} {reason_words(planned, plan.scenario)}")
    )


def _match_text(planned: PlannedSample, tolerance: float) -> str:
    words = f"{difference(planned.match, tolerance)}, {match_words(planned.match)}"
    if planned.is_bare_paper or not math.isfinite(planned.match_if_unsteady):
        return words
    steadiness = steadiness_words(planned.match_if_unsteady, tolerance)
    figure = unsteady_figure(planned.match_if_unsteady, tolerance)
    return f"{words}; {steadiness} (unsteady {figure})"


def _nearest_text(planned: PlannedSample, tolerance: float, names: Mapping[str, str]) -> str:
    if planned.recipe is None:
        return "there is no tube to mix from."
    return (
        f"nearest is {recipe_words(planned.recipe, names)}: {difference(planned.match, tolerance)},"
        f" {match_words(planned.match)}."
    )
