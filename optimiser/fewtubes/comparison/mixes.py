"""The best mixes for one colour, each over another set of tubes."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.matching import Match, best_matches, match_if_unsteady
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import RecipeSpace

__all__ = ["Mixes", "RatedMatch", "best_mixes"]


@dataclass(frozen=True)
class RatedMatch:
    """A recipe with its match, and the match when the hand is unsteady [ΔE00]."""

    match: Match
    if_unsteady: float


@dataclass(frozen=True, eq=False)
class Mixes:
    """What was asked, and the recipes, best first."""

    wanted: str
    """The colour as the painter named it."""
    lab: tuple[float, float, float]
    tubes: Mapping[str, Tube]
    """The tubes at hand by id."""
    tolerance: float
    """[ΔE00]"""
    rated: tuple[RatedMatch, ...]


def best_mixes(
    wanted: str,
    lab: tuple[float, float, float],
    tubes: Mapping[str, Tube],
    *,
    optics: Optics,
    tolerance: float,
    most: int,
    deadline: Deadline | None = None,
) -> Mixes:
    """Return the best mixes for a colour, CIELAB.

    Parameters
    ----------
    wanted
        The colour as the painter named it.
    tubes
        The tubes at hand by id.
    tolerance
        Match up to which a recipe counts as covering [ΔE00].
    most
        Recipes wanted, each over another set of tubes.
    deadline
        Until when it must be done; by default it may take as long as it takes.

    Raises
    ------
    LimitError
        If there is too little time or memory for so many tubes.
    """
    (matches,) = best_matches(
        tubes,
        np.array([lab]),
        optics=optics,
        space=RecipeSpace(),
        tolerance=tolerance,
        most=most,
        deadline=deadline,
    )
    rated = tuple(
        RatedMatch(match, match_if_unsteady(match.recipe, lab, tubes, optics)) for match in matches
    )
    return Mixes(wanted, lab, tubes, tolerance, rated)
