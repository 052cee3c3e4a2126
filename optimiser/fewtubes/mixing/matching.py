"""The best recipes for given colours from given tubes.

A recipe is ranked by its match, plus a burden for every tube: a painter rather mixes two tubes than
three, and rather leaves the paper bare than lays a wash, when the eye hardly tells the difference.
Only differences of burden count, so that of one tube is taken as none, and that of the bare paper
is less by one. A recipe within tolerance always comes before one that is not; of those that are not
the nearest comes first, whatever it is mixed from.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.masks import BoolArray
from fewtubes.mixing.bare_paper import paper_differences, paper_lab
from fewtubes.mixing.candidates import Ranking, candidate_sets
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import in_time
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import BARE_PAPER, PARTS, Recipe, RecipeSpace, shares
from fewtubes.mixing.room import memory_told

__all__ = ["HAND_ERROR", "TUBE_BURDEN", "Match", "best_matches", "match_if_unsteady", "recipe_lab"]

TUBE_BURDEN = 0.5
"""Match a further tube must better to be worth mixing in [ΔE00]."""

HAND_ERROR = 0.2
"""How far off each part and the strength may be by hand, relative."""


@dataclass(frozen=True)
class Match:
    """A recipe and how near it comes to the colour asked for."""

    recipe: Recipe
    lab: tuple[float, float, float]
    difference: float
    """ΔE00."""


_Rank = tuple[bool, float, float]
"""Whether out of tolerance, match with burden (without if so), match: smaller is better."""

_Ranked = list[tuple[_Rank, Match]]


@dataclass(frozen=True, eq=False)
class _Mixtures:
    """All recipes over one set of tubes."""

    tubes: tuple[str, ...]
    labs: FloatArray
    """Shape (strengths × parts, 3)."""

    def recipe(self, row: int, space: RecipeSpace) -> Recipe:
        """Return the recipe of a row."""
        step, parts = divmod(row, len(PARTS[len(self.tubes)]))
        return Recipe(self.tubes, PARTS[len(self.tubes)][parts], space.strengths[step])


def best_matches(
    tubes: Mapping[str, Tube],
    labs: FloatArray,
    *,
    optics: Optics,
    space: RecipeSpace,
    tolerance: float,
    most: int = 1,
    burden: float = TUBE_BURDEN,
    barred: BoolArray | None = None,
    bare_paper: bool = True,
    deadline: Deadline | None = None,
) -> tuple[tuple[Match, ...], ...]:
    """Return the best recipes for each colour, best first.

    Parameters
    ----------
    tubes
        The tubes at hand by id.
    labs
        Colours asked for, CIELAB, shape (colours, 3).
    tolerance
        Match up to which a recipe counts as covering [ΔE00].
    most
        Recipes wanted per colour, each over another set of tubes.
    burden
        Match a further tube must better [ΔE00]; among recipes within tolerance only.
    barred
        Tubes not to be used for a colour, shape (colours, tubes).
    bare_paper
        Whether the paper left bare counts as a recipe: among those within tolerance, and as the
        nearest miss where it ranks before every mix there is.
    deadline
        Until when it must be done; by default it may take as long as it takes.

    Raises
    ------
    LimitError
        If there is too little time or memory for so many tubes.

    Notes
    -----
    All sets are looked at in single precision, those that may be among the best again in double
    precision (`fewtubes.mixing.candidates`); the result is the same as if all had been. Of tubes
    that hold the very same paint the first stands for all.
    """
    deadline = deadline or Deadline()
    ids = tuple(tubes)
    K = np.array([tube.K for tube in tubes.values()]).reshape(-1, BAND_COUNT)
    S = np.array([tube.S for tube in tubes.values()]).reshape(-1, BAND_COUNT)
    with memory_told(len(tubes)):
        candidates = candidate_sets(
            K,
            S,
            labs,
            optics=optics,
            space=space,
            ranking=Ranking(tolerance=tolerance, burden=burden, most=most),
            barred=barred,
            deadline=deadline,
        )
    kept: list[_Ranked] = [[] for _ in labs]
    for numbers, colours in candidates.items():
        in_time(len(tubes), deadline, space.most_tubes)
        used = list(numbers)
        loads = np.multiply.outer(space.strengths, shares(PARTS[len(used)])).reshape(-1, len(used))
        mixtures = _Mixtures(
            tuple(ids[number] for number in used), mixture_lab(loads, K[used], S[used], optics)
        )
        differences = delta_e_2000(mixtures.labs[:, None], labs[colours])
        nearest = differences.argmin(axis=0)
        load = burden * (len(used) - 1)
        for place, (colour, row) in enumerate(zip(colours, nearest.tolist(), strict=True)):
            difference = float(differences[row, place])
            rank = _rank(difference, tolerance, load)
            best = kept[colour]
            if len(best) < most or rank < best[-1][0]:
                L, a, b = mixtures.labs[row].tolist()
                best.append((rank, Match(mixtures.recipe(row, space), (L, a, b), difference)))
                best.sort(key=lambda item: item[0])
                del best[most:]
    if bare_paper:
        L, a, b = paper_lab(optics).tolist()
        for best, difference in zip(kept, paper_differences(labs, optics).tolist(), strict=True):
            rank = _rank(difference, tolerance, -burden)
            _put_paper(best, rank, Match(BARE_PAPER, (L, a, b), difference))
    return tuple(tuple(match for _, match in best[:most]) for best in kept)


def _rank(difference: float, tolerance: float, load: float) -> _Rank:
    """Return the rank of a match, `load` [ΔE00] being added for its tubes if within tolerance."""
    beyond = difference > tolerance
    return (beyond, difference if beyond else difference + load, difference)


def _put_paper(best: _Ranked, rank: _Rank, paper: Match) -> None:
    """Put the bare paper in its place among the best recipes; of equals it comes first."""
    place = sum(other < rank for other, _ in best)
    beyond = rank[0]
    if not beyond or (best and place == 0):
        best.insert(place, (rank, paper))


def recipe_lab(recipe: Recipe, tubes: Mapping[str, Tube], optics: Optics) -> FloatArray:
    """Return CIELAB of one recipe, shape (3,)."""
    if recipe.is_bare_paper:
        return paper_lab(optics)
    loads = recipe.strength * shares((recipe.parts,))[0]
    K = np.array([tubes[id_].K for id_ in recipe.tubes])
    S = np.array([tubes[id_].S for id_ in recipe.tubes])
    return mixture_lab(loads, K, S, optics)


def match_if_unsteady(
    recipe: Recipe, lab: tuple[float, float, float], tubes: Mapping[str, Tube], optics: Optics
) -> float:
    """Return the largest ΔE00 when each part and the strength are off by ±`HAND_ERROR`.

    Bare paper is what it is, however unsteady the hand.
    """
    if recipe.is_bare_paper:
        return float(paper_differences(np.array(lab), optics)[0])
    errors = (1 - HAND_ERROR, 1.0, 1 + HAND_ERROR)
    parts = np.array(recipe.parts) * np.array(list(product(errors, repeat=len(recipe.parts))))
    mixed = parts / parts.sum(axis=1, keepdims=True)
    loads = np.multiply.outer(recipe.strength * np.array(errors), mixed)
    K = np.array([tubes[id_].K for id_ in recipe.tubes])
    S = np.array([tubes[id_].S for id_ in recipe.tubes])
    labs = mixture_lab(loads, K, S, optics)
    return float(delta_e_2000(labs, np.array(lab)).max())
