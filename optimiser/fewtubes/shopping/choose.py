"""Chooses the best palette of a question; the smaller mean match settles ties."""

import time
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.coverage.samples import lab_table
from fewtubes.errors import ClashError
from fewtubes.mixing.matching import Match, best_matches
from fewtubes.selection.certificate import Choice, Method
from fewtubes.selection.instance import Palette
from fewtubes.selection.solve import solve
from fewtubes.shopping.clash import clash_message, refused_must_have
from fewtubes.shopping.misses import Misses, nearest_choice
from fewtubes.shopping.question import Question

__all__ = ["Chosen", "Taken", "choose", "chosen_of", "matches_of", "mean_match"]


@dataclass(frozen=True, eq=False)
class Taken:
    """Any palette with recipes, whether or not it is the best."""

    palette: Palette
    matches: tuple[Match | None, ...]
    """As of `Chosen`."""


@dataclass(frozen=True, eq=False)
class Chosen:
    """The palette taken, with the best recipe for each sample."""

    choice: Choice
    palette: Palette
    matches: tuple[Match | None, ...]
    """For each sample; None if there is no tube at all, and where it was not asked for."""
    misses: Misses | None = None
    """How near it comes to what is out of reach, where that was wished for and could be proven."""


def choose(
    question: Question,
    *,
    seconds: float,
    method: Method = Method.SEARCH,
    of_covered: bool = True,
) -> Chosen:
    """Solve the choice; of equal palettes take the one with the smallest mean match.

    Where the scenario wishes it, equals are first told apart by how near they come to what is out
    of reach, before their price.

    Parameters
    ----------
    question
        The question.
    seconds
        Time for the proof [s].
    method
        The exact method that answers.
    of_covered
        Whether the nearest recipes of covered samples are asked for, which takes time; where they
        settle nothing and puddles take their place they are not.

    Raises
    ------
    ClashError
        If the demands cannot all be met, saying which clash and what would do.
    """
    refused_must_have(question)
    began = time.monotonic()
    choice = solve(question.instance, seconds=seconds, method=method, state=question.search_state)
    if not choice.palettes:
        raise ClashError(clash_message(question, choice, seconds=seconds))
    misses = None
    if question.scenario.nearer:
        left = max(0.0, seconds - (time.monotonic() - began))
        choice, misses = nearest_choice(question, choice, seconds=left)
    return chosen_of(question, choice, of_covered=of_covered, misses=misses)


def chosen_of(
    question: Question, choice: Choice, *, of_covered: bool, misses: Misses | None = None
) -> Chosen:
    """Return the palette of a choice that is taken, with its recipes; parameters as of `choose`."""
    if not of_covered and len(choice.palettes) == 1:
        (palette,) = choice.palettes
        covered = set(palette.covered)
        missed = [t for t in range(len(question.samples)) if t not in covered]
        return Chosen(choice, palette, matches_of(question, palette, missed), misses)
    tried = [(palette, matches_of(question, palette)) for palette in choice.palettes]
    palette, matches = min(tried, key=lambda item: mean_match(question, *item))
    return Chosen(choice, palette, matches, misses)


def matches_of(
    question: Question, palette: Palette, samples: Sequence[int] | None = None
) -> tuple[Match | None, ...]:
    """Return the best recipe for each sample from the tubes of a palette and the owned ones.

    Parameters
    ----------
    question, palette
        The question and what is bought.
    samples
        Numbers of those that are asked for; all if None. Others have None.
    """
    asked = range(len(question.samples)) if samples is None else samples
    numbers = sorted(question.owned.union(palette.bought))
    found = best_matches(
        {question.tubes[number].id: question.tubes[number] for number in numbers},
        lab_table([question.samples[t] for t in asked]),
        optics=question.optics,
        space=question.space,
        tolerance=question.scenario.tolerance,
    )
    nearest = {t: best[0] for t, best in zip(asked, found, strict=True) if best}
    return tuple(map(nearest.get, range(len(question.samples))))


def mean_match(
    question: Question, palette: Palette, matches: tuple[Match | None, ...]
) -> tuple[float, tuple[int, ...]]:
    """Return the mean match of the covered samples by importance [ΔE00], then the tubes."""
    covered = [(question.samples[t].weight, matches[t]) for t in palette.covered]
    weights = np.array([weight for weight, match in covered if match is not None])
    differences = np.array([match.difference for _, match in covered if match is not None])
    mean = float(weights @ differences / weights.sum()) if len(weights) else 0.0
    return (mean, palette.bought)
