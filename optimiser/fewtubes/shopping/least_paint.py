"""What painting the colours of a question costs at least, by the tubes that are mixed.

A puddle holds at least what is painted from it and what stays in the palette:
M_p ≥ (1 + waste) Σ_t a_t w_t (`fewtubes.shopping.paint_use`). So what a picture takes of tube i is

    V_i ≥ (1 + waste) Σ_t a_t w_t q_ti ÷ Σ_j q_tj ÷ c_i

and packs that hold n V_i for n pictures cost no less than n V_i at the lowest price of a thing that
holds it, shares of sets included (`fewtubes.selection.tube_packs`). Each colour by itself cannot
take less than from the cheapest mix that reaches it.
"""

from math import comb
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.reach import NO_TUBE
from fewtubes.errors import LimitError
from fewtubes.mixing.covering_power import covering_power
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.least_strokes import least_strokes
from fewtubes.mixing.reached_sets import ReachedSets
from fewtubes.selection.least_paint import UNITS, UNREACHED, LeastPaint
from fewtubes.selection.terms import Terms
from fewtubes.selection.tube_packs import packs_of, set_shares
from fewtubes.shopping.needs import THOUSANDTHS
from fewtubes.shopping.paint_use import painted_areas
from fewtubes.shopping.puddles import Puddling

if TYPE_CHECKING:
    from fewtubes.shopping.question import Question

__all__ = ["least_paint_of"]

MOST_SETS = 150_000
"""Sets of tubes, as of 96 tubes; more take too long to mix."""

ROUNDING = 1e-9
"""Share by which a sum of doubles may be off."""


def least_paint_of(
    question: "Question", store: ReachedSets, terms: Terms, deadline: Deadline
) -> LeastPaint | None:
    """Return what paint costs at least; None if there is too little time, or it cannot be told.

    It cannot where each colour has the nearest of all recipes, whose wash may be another, and where
    there are too many tubes.

    Parameters
    ----------
    question
        The question; pictures are planned.
    store
        The colours and paints as they are mixed.
    terms
        What is on sale.
    deadline
        Until when it must be known.
    """
    rates = _rates(question, terms)
    usable = np.flatnonzero(np.isfinite(rates)).tolist()
    count = sum(comb(len(usable), size) for size in store.look.space.parts)
    if question.puddling is Puddling.EACH_COLOUR or count > MOST_SETS:
        return None
    tables: list[np.ndarray] = []
    sets: list[np.ndarray] = []
    try:
        for some, strokes in least_strokes(
            store.look, store.K, store.S, usable=usable, rates=rates, deadline=deadline
        ):
            sets.append(np.pad(some, ((0, 0), (0, 3 - some.shape[1])), mode="edge"))
            tables.append(_whole(question, strokes))
    except LimitError:
        return None
    found = LeastPaint(
        np.concatenate([*sets, np.zeros((0, 3), dtype=np.intp)]),
        np.concatenate([*tables, np.zeros((0, len(question.samples)), dtype=np.int32)]),
        len(question.tubes),
    )
    return found.knowing(_minimal(question))


def _rates(question: "Question", terms: Terms) -> FloatArray:
    """Return what a cm² of full-strength stroke costs at least [hundredths], shape (tubes,).

    Infinite for tubes that are not to be had; 0 for those at home.
    """
    packs = packs_of(terms)
    least = np.full(len(question.tubes), np.inf)
    supplies = [(tube, supply) for tube, some in enumerate(packs) for supply in some]
    for tube, supply in [*supplies, *set_shares(terms, packs)]:
        if supply.amount:
            price = min(supply.price, supply.price_of_more)
            least[tube] = min(least[tube], price / supply.amount * THOUSANDTHS)
        else:
            least[tube] = 0.0
    least[list(question.owned)] = 0.0
    return np.array(
        [rate / covering_power(tube) for rate, tube in zip(least, question.tubes, strict=True)]
    )


def _whole(question: "Question", strokes: FloatArray) -> np.ndarray:
    """Return what all pictures take of each colour, from what a cm² costs, (sets, samples)."""
    picture = question.scenario.picture
    assert picture is not None  # noqa: S101  # settled by the caller
    areas = np.array(painted_areas(question.scenario, question.samples))
    cost = strokes * areas * ((1 + picture.waste) * picture.pictures * UNITS * (1 - ROUNDING))
    cost[:, np.array(question.paper_differences) <= question.scenario.tolerance] = 0.0
    return np.asarray(np.minimum(np.floor(cost), UNREACHED).astype(np.int32))


def _minimal(question: "Question") -> tuple[np.ndarray, np.ndarray]:
    """Return the minimal sets of all samples, the last tube repeated, and the samples."""
    sets = np.concatenate(question.sets).astype(np.intp)
    sample = np.repeat(np.arange(len(question.sets)), [len(rows) for rows in question.sets])
    held = (sets != NO_TUBE).any(axis=1)
    sets, sample = sets[held], sample[held]
    for column in (1, 2):
        gap = sets[:, column] == NO_TUBE
        sets[gap, column] = sets[gap, column - 1]
    return sets, sample
