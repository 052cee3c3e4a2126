"""Which tube would bring a colour nearest where no single one brings it, and which two would."""

from collections.abc import Mapping, Sequence

import numpy as np

from fewtubes.coverage.reach import NO_TUBE
from fewtubes.coverage.samples import lab_table
from fewtubes.mixing.matching import TUBE_BURDEN
from fewtubes.mixing.one_more import Paints, mix_count, nearest_with_one_more
from fewtubes.shopping.obstacles import remedy_of
from fewtubes.shopping.plan_parts import Nearer, Remedy
from fewtubes.shopping.question import Question

__all__ = ["nearer_tubes", "two_together"]

MOST_MIXES = 1_000_000
"""Mixes looked at for it, about half a second's work; with a larger box nothing is told."""


def nearer_tubes(
    question: Question, palette: frozenset[int], missed: Mapping[int, float]
) -> dict[int, Nearer]:
    """Return for colours out of reach the further tube that would bring each nearest.

    Of tubes that may be bought; of equals the cheapest, then the first by id. None for a colour
    that no tube brings nearer by as much as a further tube must better a mix to be worth it.

    Parameters
    ----------
    palette
        Numbers of the tubes bought and owned.
    missed
        Number of each colour, and how near the palette comes [ΔE00].
    """
    made = question.made_by_water(palette)
    further = [
        number
        for number, tube in enumerate(question.tubes)
        if number not in palette | made
        and tube.id not in question.refused
        and question.is_sold(tube)
    ]
    too_many = mix_count(len(palette), len(further), question.space) > MOST_MIXES
    if not missed or not further or too_many:
        return {}
    numbers = list(missed)
    matches = nearest_with_one_more(
        Paints(
            np.array([tube.K for tube in question.tubes]),
            np.array([tube.S for tube in question.tubes]),
            question.optics,
            question.space,
        ),
        lab_table([question.samples[t] for t in numbers]),
        np.array([missed[t] - TUBE_BURDEN for t in numbers]),
        palette=sorted(palette),
        further=further,
    )
    found = {
        t: _nearest(question, palette, further, column)
        for t, column in zip(numbers, matches.T, strict=True)
    }
    return {t: nearer for t, nearer in found.items() if nearer is not None}


def _nearest(
    question: Question, palette: frozenset[int], further: Sequence[int], matches: np.ndarray
) -> Nearer | None:
    """Return the tube of the smallest match, shape (further,); None if none comes nearer."""
    if not np.isfinite(matches).any():
        return None
    least = float(matches.min())
    equal = [question.tubes[n] for n, match in zip(further, matches, strict=True) if match == least]
    cost, _, tube = min(
        ((question.cost_beside(tube, palette), tube.id, tube) for tube in equal),
        key=lambda ranked: ranked[:2],
    )
    return Nearer(tube, cost, least)


def two_together(question: Question, sample: int, palette: frozenset[int]) -> tuple[Remedy, ...]:
    """Return the two tubes that bring a colour, by number, if both come to the palette.

    Allowed ones first, then the cheapest; empty if no two that are sold would do.
    """
    owned = question.scenario.wishes.all_owned
    held = [*palette, NO_TUBE]
    sets = question.sets[sample]
    missing = sets[(~np.isin(sets, held)).sum(axis=1) == 2]
    pairs = {tuple(sorted(set(row) - set(held))) for row in missing.tolist()}
    found = []
    made = question.made_by_water(palette)
    for pair in pairs:
        if made.intersection(pair) or question.made_by_water(frozenset(pair[:1])) & set(pair):
            continue
        if question.made_by_water(frozenset(pair[1:])) & set(pair):
            continue
        tubes = [question.tubes[number] for number in pair]
        if all(tube.id in owned or question.is_sold(tube) for tube in tubes):
            found.append(
                tuple(
                    remedy_of(question, tube, palette.union(pair[:place]))
                    for place, tube in enumerate(tubes)
                )
            )
    return min(
        found,
        key=lambda two: (
            not all(remedy.allowed for remedy in two),
            sum(remedy.cost for remedy in two),
            [remedy.tube.id for remedy in two],
        ),
        default=(),
    )
