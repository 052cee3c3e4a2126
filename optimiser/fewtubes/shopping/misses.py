"""Among equal choices the one that brings what is out of reach as near as it can.

Equal are choices that cover as much with as few tubes, of which as few fade (where that is counted
before the price). Each leaves as much weight out of reach as any other, and of that the nearest
recipes count: Σ w_t · d_t over the colours t that a choice does not cover, d_t being the match of
the nearest recipe of its tubes, bare paper included, in whole hundredths of ΔE00. The least sum is
taken, then the lowest price and what follows it.
"""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fewtubes.coverage.samples import lab_table
from fewtubes.errors import LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.matching import best_matches
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.equals import equals_of
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import MOST_TIES
from fewtubes.selection.search_state import SearchState
from fewtubes.shopping.question import Question

__all__ = [
    "COUNTED_TO",
    "Misses",
    "Nearest",
    "misses_nothing",
    "nearest_choice",
    "nearest_of_equals",
    "shortfalls",
]

COUNTED_TO = 0.01
"""Matches are summed in whole hundredths of ΔE00, which nobody sees; so equal is equal."""

TOGETHER = 24
"""Palettes mixed at once: neighbours share most of their tubes, all of them hardly any."""


@dataclass(frozen=True)
class Misses:
    """How near a choice comes to what it leaves out of reach, beside those that are equal."""

    among: int
    """Choices that are equal in coverage, tubes and fading ones, this one included."""
    complete: bool
    """Whether these are all, and each was looked at."""
    mean: float
    """Mean match of the nearest recipes of what is out of reach, by importance [ΔE00]."""
    without_wish: float
    """The same of the choice that would be taken without the wish."""
    extra_cost: int
    """What the choice costs more than that one [hundredths of the currency]; may be negative."""


@dataclass(frozen=True)
class Nearest:
    """The palettes that come nearest, and what is known of them."""

    palettes: tuple[Palette, ...]
    """Those that tie in how near they come and in all that follows, by tube numbers."""
    complete: bool
    """Whether all ties are listed."""
    misses: Misses


def nearest_choice(
    question: Question, choice: Choice, *, seconds: float
) -> tuple[Choice, Misses | None]:
    """Return the choice among its equals that comes nearest to what is out of reach.

    A choice that is not proven, and one that misses nothing, stays as it is. Where not all equals
    could be looked at the choice that is returned is no longer called proven.

    Parameters
    ----------
    question, choice
        The question and what answers it without the wish.
    seconds
        Time for looking at its equals [s].
    """
    best = choice.palettes[0] if choice.palettes else None
    proven = choice.certificate.status is Status.PROVEN
    if best is None or not proven or misses_nothing(question, best):
        return choice, None
    began = time.monotonic()
    state = question.search_state
    state.deadline = began + seconds
    nodes = state.nodes
    found = nearest_of_equals(question, best, state=state)
    certificate = replace(
        choice.certificate,
        status=Status.PROVEN if found.misses.complete else Status.STOPPED,
        nodes=choice.certificate.nodes + state.nodes - nodes,
        seconds=choice.certificate.seconds + time.monotonic() - began,
    )
    return Choice(found.palettes, found.complete, certificate), found.misses


def misses_nothing(question: Question, palette: Palette) -> bool:
    """Whether a palette covers everything."""
    return len(palette.covered) == len(question.samples)


def nearest_of_equals(question: Question, best: Palette, *, state: SearchState) -> Nearest:
    """Return the palettes equal to a best one that come nearest to what they do not cover.

    Parameters
    ----------
    question
        The question.
    best
        Its best palette, or that of a number of tubes; it misses something.
    state
        The choice made ready for a search; its deadline says until when.
    """
    equals, complete = equals_of(question.instance, best, state=state)
    deadline = Deadline(max(0.0, state.deadline - time.monotonic()))
    first = [best, *(palette for palette in equals if palette != best)]
    sums = shortfalls(question, first, deadline=deadline)
    looked_at = first[: len(sums)]
    ranked = sorted(zip(sums, [p.rank for p in looked_at], looked_at, strict=True), key=_order)
    least = ranked[0][:2]
    ties = sorted((p for *figures, p in ranked if tuple(figures) == least), key=lambda p: p.bought)
    usual = min(range(len(looked_at)), key=lambda n: (looked_at[n].rank, looked_at[n].bought))
    whole = sum(question.instance.weights) - best.value
    return Nearest(
        palettes=tuple(ties[:MOST_TIES]),
        complete=complete and len(sums) == len(equals) and len(ties) <= MOST_TIES,
        misses=Misses(
            among=len(looked_at),
            complete=complete and len(sums) == len(equals),
            mean=least[0] * COUNTED_TO / whole,
            without_wish=sums[usual] * COUNTED_TO / whole,
            extra_cost=ties[0].cost - looked_at[usual].cost,
        ),
    )


def _order(item: tuple[int, tuple[int, ...], Palette]) -> tuple[int, tuple[int, ...], object]:
    shortfall, rank, palette = item
    return shortfall, rank, palette.bought


def shortfalls(
    question: Question, palettes: Sequence[Palette], *, deadline: Deadline
) -> tuple[int, ...]:
    """Return Σ w_t · d_t over what each palette does not cover, d_t in `COUNTED_TO` of ΔE00.

    Of as many palettes, from the first on, as there is time for; the first in any case.
    """
    sums: list[int] = []
    for start in range(0, len(palettes), TOGETHER):
        some = palettes[start : start + TOGETHER]
        try:
            sums += _shortfalls(question, some, deadline if start else Deadline())
        except LimitError:
            break
    return tuple(sums)


def _shortfalls(
    question: Question, palettes: Sequence[Palette], deadline: Deadline
) -> tuple[int, ...]:
    """Return the sums of some palettes, whose tubes are mixed together."""
    held = [question.owned.union(palette.bought) for palette in palettes]
    numbers = sorted(frozenset[int]().union(*held))
    rows = [
        (place, t)
        for place, palette in enumerate(palettes)
        for t in sorted(set(range(len(question.samples))).difference(palette.covered))
    ]
    found = best_matches(
        {question.tubes[number].id: question.tubes[number] for number in numbers},
        lab_table([question.samples[t] for _, t in rows]),
        optics=question.optics,
        space=question.space,
        tolerance=question.scenario.tolerance,
        barred=np.array([[n not in held[place] for n in numbers] for place, _ in rows]),
        deadline=deadline,
    )
    sums = [0] * len(palettes)
    for (place, t), best in zip(rows, found, strict=True):
        difference = best[0].difference if best else question.paper_differences[t]
        sums[place] += question.samples[t].weight * round(difference / COUNTED_TO)
    return tuple(sums)
