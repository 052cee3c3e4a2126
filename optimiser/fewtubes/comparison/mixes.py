"""The best mixes for one colour, each over another set of tubes."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import SECONDS, NumberRange
from fewtubes.catalogue.records import LASTS, Catalogue, Lightfastness, Tube
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.coverage.optics import usual_optics
from fewtubes.defaults import RECIPES_SHOWN, TOLERANCE
from fewtubes.errors import Fault, InputError, LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import MIXING_SECONDS, mixing_stage
from fewtubes.mixing.matching import Match, best_matches, match_if_unsteady
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import MOST_IN_MIX, Recipe, RecipeSpace
from fewtubes.scenario.called import looked_up
from fewtubes.scenario.checks import checked_lab, each_once, member
from fewtubes.scenario.demands import IN_MIX
from fewtubes.scenario.demands import TOLERANCE as TOLERANCES
from fewtubes.scenario.named_colour import lab_named
from fewtubes.words.decimals import asked_figure
from fewtubes.words.lists import in_a_row

__all__ = ["Mixes", "RatedMatch", "best_mixes", "fades", "mix"]

RECIPES = NumberRange(1, 100)
"""Mixes asked for."""


@dataclass(frozen=True)
class RatedMatch:
    """A recipe with its match, and the match when the hand is unsteady [ΔE00]."""

    match: Match
    """The recipe, its CIELAB and its difference [ΔE00]."""
    if_unsteady: float
    """Largest difference when each part and the wash are off by 20 % [ΔE00]."""


@dataclass(frozen=True, eq=False)
class Mixes:
    """What was asked, and the recipes, best first."""

    wanted: str
    """The colour as the painter named it."""
    lab: tuple[float, float, float]
    """The same as CIELAB."""
    tubes: Mapping[str, Tube]
    """The tubes at hand by id."""
    tolerance: float
    """[ΔE00]"""
    rated: tuple[RatedMatch, ...]
    """Best first, at most as many as were wanted; see `lasting_leads`."""
    most_in_mix: int = MOST_IN_MIX
    """Most tubes in a mix."""
    lasting_leads: bool = False
    """Whether the first stands before better ones because its tubes last: the best fades, and this
    is the best of those within the tolerance that do not."""


def mix(
    catalogue: Catalogue,
    colour: str | tuple[float, float, float],
    *,
    tubes: Sequence[str] = (),
    most: int = RECIPES_SHOWN,
    tolerance: float = TOLERANCE,
    paper: str | None = None,
    light: str | None = None,
    lightfastness: Lightfastness | str | None = None,
    most_in_mix: int = MOST_IN_MIX,
    seconds: float = MIXING_SECONDS,
    cache: Cache | None = None,
    progress: Callable[[str], None] | None = None,
) -> Mixes:
    """Return the best mixes for a colour, each of another set of up to three tubes.

    Where the best of them fades, the best within the tolerance whose tubes last goes before it.

    Parameters
    ----------
    catalogue
        As read.
    colour
        ``"#rrggbb"``, ``"L,a,b"``, ``"flower / swatch"``, or CIELAB as three numbers.
    tubes
        Ids of the tubes at hand; all of the catalogue if none is named.
    most
        Mixes wanted, 1 to 100.
    tolerance
        Match up to which a mix counts as covering [ΔE00], 0.01 to 20.
    paper, light
        Ids of the catalogue; the usual ones if None.
    lightfastness
        Only tubes of this category or better are mixed; the word will do. None for no floor.
    most_in_mix
        Most tubes in a mix, 1 to 3.
    seconds
        Time after which mixing is given up [s].
    cache
        Where weights of lights are kept from run to run; by default nowhere.
    progress
        Called with a few words whenever a stage begins.

    Raises
    ------
    InputError
        With what is out of bounds, or not in the catalogue.
    LimitError
        If there is too little time or memory for so many tubes.

    Examples
    --------
    >>> from fewtubes import default_cache, mix, read_catalogue
    >>> at_hand = ["magenta", "ultramarine"]
    >>> mixes = mix(read_catalogue(), "#8a5fb0", tubes=at_hand, cache=default_cache())
    >>> mixes.rated[0].match.recipe.tubes
    ('magenta', 'ultramarine')
    """
    collector = FaultCollector()
    collector.note_fault("most", RECIPES.fault(most, whole=True))
    collector.note_fault("tolerance", TOLERANCES.fault(tolerance))
    collector.note_fault("most_in_mix", IN_MIX.fault(most_in_mix, whole=True))
    collector.note_fault("seconds", SECONDS.fault(seconds))
    asked = looked_up(
        each_once(tubes, "tubes", str, collector),
        catalogue.tubes,
        "tube",
        where="tubes",
        collector=collector,
    )
    lab = None if isinstance(colour, str) else checked_lab(colour, collector)
    floor = None
    if lightfastness is not None:
        floor = member(lightfastness, "lightfastness", Lightfastness, collector)
    collector.raise_if_any()
    at_hand = {id_: catalogue.tubes[id_] for id_ in asked} or dict(catalogue.tubes)
    if floor is not None:
        at_hand = _lasting(at_hand, floor)
    if lab is None:
        named = str(colour)
        lab = lab_named(named, catalogue)
    else:
        named = in_a_row([*map(asked_figure, lab)])
    tell, deadline = progress or (lambda _stage: None), Deadline(seconds)
    tell("preparing light and paper")
    optics = usual_optics(catalogue, cache_of(cache), paper=paper, light=light)
    tell(mixing_stage(len(at_hand), "for one colour", deadline, most_in_mix))
    return best_mixes(
        named,
        lab,
        at_hand,
        optics=optics,
        tolerance=tolerance,
        most=most,
        most_in_mix=most_in_mix,
        deadline=deadline,
    )


def _lasting(tubes: Mapping[str, Tube], floor: Lightfastness) -> dict[str, Tube]:
    """Return the tubes that last as long as is asked; raise `InputError` if none does."""
    lasting = {id_: tube for id_, tube in tubes.items() if tube.lightfastness <= floor}
    if not lasting:
        best = min(tube.lightfastness for tube in tubes.values()).name
        what = f"is {floor.name}, but no tube at hand is better than {best}; ask for that, or less."
        raise InputError([Fault("lightfastness", what)])
    return lasting


def best_mixes(
    wanted: str,
    lab: tuple[float, float, float],
    tubes: Mapping[str, Tube],
    *,
    optics: Optics,
    tolerance: float,
    most: int,
    most_in_mix: int = MOST_IN_MIX,
    deadline: Deadline | None = None,
) -> Mixes:
    """Return the best mixes for a colour, CIELAB, led by one that lasts if any is within tolerance.

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
    most_in_mix
        Most tubes in a mix, 1 to 3.
    deadline
        Until when it must be done; by default it may take as long as it takes.

    Raises
    ------
    LimitError
        If there is too little time or memory for so many tubes.
    """

    def found(tubes: Mapping[str, Tube], most: int) -> tuple[Match, ...]:
        (matches,) = best_matches(
            tubes,
            np.array([lab]),
            optics=optics,
            space=RecipeSpace(most_tubes=most_in_mix),
            tolerance=tolerance,
            most=most,
            deadline=deadline,
        )
        return matches

    matches = found(tubes, most)
    lead = _lasting_lead(matches, tubes, found, tolerance)
    if lead is not None:
        matches = (lead, *(match for match in matches if match.recipe != lead.recipe))[:most]
    rated = tuple(
        RatedMatch(match, match_if_unsteady(match.recipe, lab, tubes, optics)) for match in matches
    )
    return Mixes(wanted, lab, tubes, tolerance, rated, most_in_mix, lead is not None)


def _lasting_lead(
    matches: Sequence[Match],
    tubes: Mapping[str, Tube],
    found: Callable[[Mapping[str, Tube], int], Sequence[Match]],
    tolerance: float,
) -> Match | None:
    """Return what is to stand before the best that were found; None if nothing is.

    Where the best fades, that is the best of tubes that last, if it is within the tolerance [ΔE00].
    If there is no time to look for it, what was found stands, and it is told of each that it fades.
    """
    if not matches or not fades(matches[0].recipe, tubes):
        return None
    lasting = {id_: tube for id_, tube in tubes.items() if tube.lightfastness <= LASTS}
    try:
        best = found(lasting, 1)
    except LimitError:
        return None
    return next((match for match in best if match.difference <= tolerance), None)


def fades(recipe: Recipe, tubes: Mapping[str, Tube]) -> bool:
    """Return whether a recipe holds a tube that does not last."""
    return any(tubes[id_].lightfastness > LASTS for id_ in recipe.tubes)
