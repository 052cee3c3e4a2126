"""What mixes of many palettes reach, each set of tubes mixed once.

Palettes share tubes, and so sets of up to three of them: of the palettes that a search asks about
most sets have been mixed before. What is found of a palette is what `mixes_reaching` finds of it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.colour_lookup import IndexArray
from fewtubes.mixing.copies import same_paint
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.reached import CHUNK, Films, Look, Mix, Pairs, Reached
from fewtubes.mixing.recipes import RecipeSpace
from fewtubes.threads import one_thread_per_product

__all__ = ["ReachedSets"]

Numbers = tuple[int, ...]


@dataclass(frozen=True, eq=False)
class ReachedSets:
    """Mixes of sets of tubes, found when they are first asked for.

    Parameters
    ----------
    tubes
        All tubes by number.
    K, S
        Their absorption and scattering, shapes (tubes, bands).
    look
        Colours that are sought, and how near a mix must come.
    """

    tubes: tuple[Tube, ...]
    K: FloatArray
    S: FloatArray
    look: Look
    _known: dict[Numbers, Reached] = field(default_factory=dict)

    @classmethod
    def of(
        cls,
        tubes: Sequence[Tube],
        labs: FloatArray,
        *,
        optics: Optics,
        space: RecipeSpace,
        tolerance: float,
    ) -> "ReachedSets":
        """Return an empty store; parameters as of `mixes_reaching`."""
        return cls(
            tubes=tuple(tubes),
            K=np.array([tube.K for tube in tubes]),
            S=np.array([tube.S for tube in tubes]),
            look=Look.at(labs, tolerance=tolerance, optics=optics, space=space),
        )

    def reached(self, numbers: Sequence[int]) -> Reached:
        """Return all mixes of some tubes, ascending numbers, that reach any of the colours."""
        asked = self._sets_of(numbers)
        self._find([one for one in asked if one not in self._known])
        mixes: list[Mix] = []
        found = [Pairs.none()]
        for one in asked:
            known = self._known[one]
            if known.mixes:
                found.append(replace(known.pairs, mix=known.pairs.mix + len(mixes)))
                mixes += known.mixes
        return Reached(tuple(mixes), Pairs.joined(found))

    def prepare(self, palettes: Iterable[Sequence[int]]) -> None:
        """Mix what several palettes hold, so that they are reached sooner than one by one."""
        asked = {one: None for numbers in palettes for one in self._sets_of(numbers)}
        self._find([one for one in asked if one not in self._known])

    def _sets_of(self, numbers: Sequence[int]) -> list[Numbers]:
        """Return the sets of some tubes that differ in their paint."""
        places = list(numbers)
        usable = [places[i] for i in np.unique(same_paint(self.K[places], self.S[places])).tolist()]
        return [one for size in self.look.space.parts for one in combinations(usable, size)]

    def _find(self, sets: Sequence[Numbers]) -> None:
        """Mix sets of tubes that were not asked for before."""
        for some, parts in _groups(sets, self.look.space):
            table = np.array(parts, dtype=np.float64)
            numbers = np.repeat(np.array(some, dtype=np.intp), len(parts), axis=0)
            weights = np.tile(table / table.sum(axis=1, keepdims=True), (len(some), 1))
            films = Films(
                *(np.einsum("mt,mtb->mb", weights, paint[numbers]) for paint in (self.K, self.S))
            )
            with one_thread_per_product():
                pairs = self.look.pairs(films)
            begins = np.searchsorted(pairs.mix, len(parts) * np.arange(len(some) + 1)).tolist()
            for turn, one in enumerate(some):
                self._known[one] = self._of_set(
                    one, parts, pairs.between(begins[turn], begins[turn + 1]), turn * len(parts)
                )

    def _of_set(
        self, one: Numbers, parts: Sequence[tuple[int, ...]], pairs: Pairs, first: int
    ) -> Reached:
        """Return what one set reaches; `first` is the number of its first mix among the pairs."""
        rows, places = np.unique(pairs.mix - first, return_inverse=True)
        ids = tuple(self.tubes[number].id for number in one)
        mixes: tuple[Mix, ...] = tuple((ids, tuple(parts[row])) for row in rows.tolist())
        whole: IndexArray = places.astype(np.intp)
        return Reached(mixes, replace(pairs, mix=whole))


def _groups(
    sets: Sequence[Numbers], space: RecipeSpace
) -> Iterator[tuple[list[Numbers], Sequence[tuple[int, ...]]]]:
    """Yield sets of one size, few at a time, with the parts that they are mixed in."""
    for size, parts in space.parts.items():
        same = [one for one in sets if len(one) == size]
        several = max(1, CHUNK // len(parts))
        for first in range(0, len(same), several):
            yield same[first : first + several], parts
