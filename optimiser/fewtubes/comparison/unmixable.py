"""Which tubes must be bought because no mix of all others comes near them.

Tubes that are nearly one another are one family (`fewtubes.comparison.families`): of them one must
be bought or none. Each tube is followed from masstone to thin wash. At every wash strength the
nearest recipe of up to three tubes of other families is sought; the figure of a tube is the largest
difference that is left, that of a family the least of its tubes': nothing else comes nearer to any
of them. That tubes of a family are left out can be switched off.

Beside that every tube is held against mixes of other hues alone (`fewtubes.comparison.hues`).

What hardly shows on white paper, a white, is bought for what it hides: it is looked at over black.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import SECONDS
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.comparison.families import families
from fewtubes.comparison.hues import hue_word, one_hue
from fewtubes.comparison.kept_matches import NO_TUBE, sensible
from fewtubes.comparison.tube_ranking import MixedTube, MixedTubes, families_of
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.coverage.optics import usual_optics
from fewtubes.masks import BoolArray
from fewtubes.mixing.bare_paper import paper_differences
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import MIXING_SECONDS, mixing_stage, refuse_too_many
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, wash_labs
from fewtubes.mixing.matching import Match, best_matches
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS, STRENGTHS, Recipe, RecipeSpace
from fewtubes.scenario.called import looked_up
from fewtubes.scenario.checks import each_once

__all__ = ["mixed_tubes", "unmixable"]

KIND = "unmixable"

Arrays = dict[str, npt.NDArray[Any]]


def unmixable(
    catalogue: Catalogue,
    *,
    without: Sequence[str] = (),
    count_twins: bool = False,
    paper: str | None = None,
    light: str | None = None,
    seconds: float = MIXING_SECONDS,
    cache: Cache | None = None,
    progress: Callable[[str], None] | None = None,
) -> MixedTubes:
    """Return the tubes of a catalogue by family, those farthest from any mix of others first.

    Parameters
    ----------
    catalogue
        As read.
    without
        Ids of tubes to leave out.
    count_twins
        Whether a tube may be mixed from the others of its family as well, such as the same paint at
        another strength; each is then a family of its own.
    paper, light
        Ids of the catalogue; the usual ones if None.
    seconds
        Time after which mixing is given up [s].
    cache
        Where recipes are kept from run to run; by default nowhere.
    progress
        Called with a few words whenever a stage begins.

    Raises
    ------
    InputError
        If the catalogue does not hold what is named.
    LimitError
        If there is too little time or memory for so many tubes.

    Examples
    --------
    >>> from fewtubes import default_cache, read_catalogue, unmixable
    >>> catalogue = read_catalogue()
    >>> others = [id_ for id_ in catalogue.tubes if id_ not in ("lemon", "magenta", "ultramarine")]
    >>> ranked = unmixable(catalogue, without=others, cache=default_cache())
    >>> [len(family.members) for family in ranked.families]
    [1, 1, 1]
    """
    collector = FaultCollector()
    collector.note_fault("seconds", SECONDS.fault(seconds))
    left_out = looked_up(
        each_once(without, "without", str, collector),
        catalogue.tubes,
        "tube",
        where="without",
        collector=collector,
    )
    collector.raise_if_any()
    tell, deadline = progress or (lambda _stage: None), Deadline(seconds)
    tell("preparing light and paper")
    cache = cache_of(cache)
    return mixed_tubes(
        {id_: tube for id_, tube in catalogue.tubes.items() if id_ not in left_out},
        usual_optics(catalogue, cache, paper=paper, light=light),
        cache=cache,
        count_twins=count_twins,
        deadline=deadline,
        progress=tell,
    )


def mixed_tubes(
    tubes: Mapping[str, Tube],
    optics: Optics,
    *,
    cache: Cache,
    count_twins: bool = False,
    deadline: Deadline | None = None,
    progress: Callable[[str], None] = lambda _stage: None,
) -> MixedTubes:
    """Return all tubes by family, those farthest from any mix of others first.

    Parameters
    ----------
    tubes
        The tubes by id.
    optics
        Paper and light.
    cache
        Where the recipes are kept from run to run.
    count_twins
        Whether a tube may be mixed from the others of its family as well.
    deadline
        Until when it must be done; by default it may take as long as it takes.
    progress
        Called with a few words, and how long it is expected to take, if there is anything to mix.

    Raises
    ------
    LimitError
        If there is too little time or memory for so many tubes.
    """
    sold, deadline = list(tubes.values()), deadline or Deadline()
    refuse_too_many(len(sold), deadline)
    barred = np.eye(len(sold), dtype=np.bool_) if count_twins else families(tubes, optics)
    labs = wash_labs(sold, optics)
    hues = [hue_word(washes) for washes in labs]
    rows = np.repeat(np.concatenate([barred, one_hue(hues)]), len(STRENGTHS), axis=0)
    source = _Source(tubes, cache, deadline, progress)
    matches = source.nearest(np.concatenate([labs, labs]).reshape(-1, 3), rows, optics)
    from_paper = paper_differences(labs.reshape(-1, 3), optics).reshape(labs.shape[:2])
    pale = np.flatnonzero((from_paper <= HARDLY_DIFFERENT).all(axis=1)).tolist()
    over_black = dict(zip(pale, _over_black(source, sold, pale, barred, optics), strict=True))
    mixed = [
        MixedTube(
            tube=tube,
            labs=tuple((L, a, b) for L, a, b in labs[number].tolist()),
            matches=tuple(
                match
                for match in matches[number * len(STRENGTHS) : (number + 1) * len(STRENGTHS)]
                if match is not None
            ),
            family=tuple(sold[n] for n in np.flatnonzero(barred[number]) if n != number),
            from_paper=float(from_paper[number].max()),
            over_black=over_black.get(number),
            hue=hues[number],
            other_hues=_largest(matches[len(STRENGTHS) * (len(sold) + number) :][: len(STRENGTHS)]),
        )
        for number, tube in enumerate(sold)
    ]
    return MixedTubes(member for family in families_of(mixed) for member in family.members)


def _largest(matches: Sequence[Match | None]) -> float:
    """Return the largest difference; infinite where there is nothing to mix from."""
    return max(math.inf if match is None else match.difference for match in matches)


def _over_black(
    source: "_Source", sold: Sequence[Tube], pale: Sequence[int], barred: BoolArray, optics: Optics
) -> list[Match | None]:
    """Return the recipes that come nearest over black to some tubes at full strength, by number."""
    if not pale:
        return []
    black = replace(optics, ground=np.zeros_like(optics.ground))
    labs = wash_labs([sold[number] for number in pale], black, (1.0,))[:, 0]
    return source.nearest(labs, barred[list(pale)], black)


@dataclass(frozen=True)
class _Source:
    """The tubes that recipes are mixed from, and where these are kept."""

    tubes: Mapping[str, Tube]
    cache: Cache
    deadline: Deadline
    progress: Callable[[str], None]

    def nearest(self, labs: FloatArray, barred: BoolArray, optics: Optics) -> list[Match | None]:
        """Return the nearest recipe for each colour, from the cache if it is there.

        Parameters
        ----------
        labs
            CIELAB, shape (colours, 3).
        barred
            Tubes not to be used for a colour, shape (colours, tubes).
        optics
            What is painted on, and under which light.
        """
        basis: Arrays = {
            "K": np.array([tube.K for tube in self.tubes.values()]),
            "S": np.array([tube.S for tube in self.tubes.values()]),
            "ground": optics.ground,
            "weights": optics.weights,
            "labs": labs,
            "strengths": np.array(STRENGTHS),
            "parts": np.array(
                [number for parts in PARTS.values() for row in parts for number in row]
            ),
            "barred": barred,
        }
        ids = list(self.tubes)
        stored = self.cache.load(KIND, basis)
        if stored is None or not sensible(stored, colours=len(labs), tubes=len(ids)):
            self.progress(mixing_stage(len(ids), "to match each of them", self.deadline))
            found = best_matches(
                self.tubes,
                labs,
                optics=optics,
                space=RecipeSpace(),
                tolerance=math.inf,
                burden=0.0,
                barred=barred,
                bare_paper=False,
                deadline=self.deadline,
            )
            stored = _packed([best[0] if best else None for best in found], ids)
            self.cache.store(KIND, basis, stored)
        return _unpacked(stored, ids)


def _packed(matches: list[Match | None], ids: list[str]) -> Arrays:
    """Return recipes as arrays; tubes by number, no tube as −1."""
    numbers = {id_: number for number, id_ in enumerate(ids)}
    tubes = np.full((len(matches), len(PARTS)), NO_TUBE, dtype="<i8")
    parts = np.zeros_like(tubes)
    for row, match in enumerate(matches):
        if match is not None:
            size = len(match.recipe.tubes)
            tubes[row, :size] = [numbers[id_] for id_ in match.recipe.tubes]
            parts[row, :size] = match.recipe.parts
    return {
        "tubes": tubes,
        "parts": parts,
        "strengths": np.array([m.recipe.strength if m else math.nan for m in matches]),
        "labs": np.array([m.lab if m else (math.nan,) * 3 for m in matches]).reshape(-1, 3),
        "differences": np.array([m.difference if m else math.inf for m in matches]),
    }


def _unpacked(stored: Arrays, ids: list[str]) -> list[Match | None]:
    """Return the inverse of `_packed`."""
    matches: list[Match | None] = []
    columns = ("tubes", "parts", "strengths", "labs", "differences")
    for tubes, parts, strength, (L, a, b), difference in zip(
        *(stored[column].tolist() for column in columns), strict=True
    ):
        used = tuple(ids[number] for number in tubes if number != NO_TUBE)
        recipe = Recipe(used, tuple(parts[: len(used)]), strength)
        matches.append(Match(recipe, (L, a, b), difference) if used else None)
    return matches
