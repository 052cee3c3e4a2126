"""The flowers of a plan in the terminal: how much is covered, and a recipe for every swatch."""

import math
from collections.abc import Mapping, Sequence
from itertools import groupby

from rich.console import Console
from rich.text import Text

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


def print_recipes(plan: Plan, console: Console, *, show_all: bool) -> None:
    """Print the recipe of each swatch, flower by flower; steps only counted unless `show_all`."""
    heading(console, "Recipes")
    reserved = f" {RESERVE_WORDS}" if any(one.is_bare_paper for one in plan.samples) else ""
    paragraph(
        console,
        f"{PARTS_WORDS} The wash is the share of a full-strength stroke. ΔE00 is the colour"
        " difference CIEDE2000; the words beside it are our own. Unsteady: the largest difference"
        f" when each part and the wash are off by 20 %.{reserved}",
    )
    if shows_chips(console):
        paragraph(console, "First block: the colour wanted. Second block: the mix.")
    names = {planned.tube.id: printable(planned.tube.name) for planned in plan.tubes}
    for flower, samples in groupby(plan.samples, key=lambda planned: planned.sample.flower):
        _print_flower(flower, list(samples), plan, console, names, show_all=show_all)


def _print_flower(
    flower: str,
    samples: Sequence[PlannedSample],
    plan: Plan,
    console: Console,
    names: Mapping[str, str],
    *,
    show_all: bool,
) -> None:
    console.print()
    put(console, plain(printable(flower), "bold"))
    made = grid(columns=3 if shows_chips(console) else 2)
    for planned in samples:
        if show_all or not planned.sample.is_step:
            label = plain(printable(planned.sample.name, LONGEST_LABEL))
            cells = (label, _sample_text(planned, plan, names))
            made.add_row(*(_blocks(planned, console), *cells) if shows_chips(console) else cells)
    put(console, made)
    steps = [planned for planned in samples if planned.sample.is_step]
    if steps and not show_all:
        covered = sum(planned.covered for planned in steps)
        paragraph(
            console,
            f"Steps between the petal's swatches: {covered} of {len(steps)} covered.",
        )


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
