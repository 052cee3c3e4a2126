"""Every mix of a palette's tubes that reaches a covered colour, its cost, and the fewest of them.

What a mix costs a colour is how near it comes, and what its tubes count beside: so that of equally
few puddles those come first that match well, with few tubes that last.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from time import perf_counter

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.coverage.samples import lab_table
from fewtubes.mixing.matching import TUBE_BURDEN, Match, match_if_unsteady
from fewtubes.mixing.reached import Mix, mixes_reaching
from fewtubes.mixing.recipes import BARE_PAPER
from fewtubes.scenario.preference import Prefer
from fewtubes.selection.covering import NOT_COVERED, CostArray, Cover, CoverInstance
from fewtubes.selection.covering_program import fewest_cover
from fewtubes.shopping.choose import Chosen, Taken, matches_of
from fewtubes.shopping.puddles import FewestPuddles
from fewtubes.shopping.question import Question
from fewtubes.shopping.reached_matches import ReachedMatches
from fewtubes.shopping.subjects import Subject

__all__ = ["MANY_TUBES", "MixTable"]

COUNTED_TO = 0.01
"""Matches are summed in whole hundredths of ΔE00, which nobody sees; so equal is equal, and what
is more forgiving has a say."""

FADING = 1.0
"""What a tube that fades counts in a mix [tolerances]: of equally few puddles those come first that
do without, as any colour is within one tolerance. Not where the price goes before what lasts."""

MANY_TUBES = 24
"""Tubes of a palette from which mixes take a second to try; then only those are tried that the
nearest mixes hold, and no number is called proven."""


@dataclass(frozen=True, eq=False)
class MixTable:
    """Every mix that reaches a covered sample, and how near it comes."""

    question: Question
    tubes: dict[str, Tube]
    mixes: tuple[Mix, ...]
    matches: ReachedMatches
    """By mix and sample."""
    costs: CostArray
    """Shape (mixes, samples)."""
    free: CostArray
    """Of the bare paper, shape (samples,)."""
    complete: bool
    """Whether all mixes of the palette were tried."""

    @classmethod
    def of(cls, question: Question, chosen: Chosen | Taken) -> "MixTable":
        """Return the mixes of a palette; the nearest match of a covered sample is always there."""
        numbers = sorted(question.owned.union(chosen.palette.bought))
        tubes = {question.tubes[number].id: question.tubes[number] for number in numbers}
        covered = sorted(chosen.palette.covered)
        complete = len(tubes) <= MANY_TUBES
        if complete and question.scenario.picture is not None:
            reached = question.paint.sets.reached(numbers)
            matches = ReachedMatches.of(reached, range(len(question.samples)), question.space)
        else:
            reached = mixes_reaching(
                tubes if complete else _in_use(tubes, _nearest(question, chosen, covered)),
                lab_table([question.samples[t] for t in covered]),
                optics=question.optics,
                space=question.space,
                tolerance=question.scenario.tolerance,
            )
            matches = ReachedMatches.of(reached, covered, question.space)
        free = [
            _cost(apart) if apart <= question.scenario.tolerance else NOT_COVERED
            for apart in question.paper_differences
        ]
        needing = [t for t in covered if free[t] >= NOT_COVERED]
        mixes = _with_nearest(question, chosen, matches, needing)
        costs = np.full((len(mixes), len(question.samples)), NOT_COVERED, dtype=np.int64)
        burdens = [_burden(question, tubes, mix) for mix in mixes]
        for (p, t), difference in matches.differences():
            costs[p, t] = _cost(difference + burdens[p])
        return cls(question, tubes, mixes, matches, costs, np.array(free, dtype=np.int64), complete)

    def cover(self, subject: Subject, deadline: float, *, cheapest: bool) -> Cover:
        """Return the fewest mixes that reach all covered samples of a subject."""
        samples = list(subject.samples)
        instance = CoverInstance(self.costs[:, samples], self.free[samples])
        return fewest_cover(instance, seconds=deadline - perf_counter(), cheapest=cheapest)

    def counted(self, subject: Subject, cover: Cover) -> FewestPuddles:
        """Return how few puddles will do, and how few are proven to be needed."""
        bound = cover.bound if self.complete else min(1, cover.bound)
        return FewestPuddles(subject.name, subject.own, len(cover.sets), bound)

    def taken(
        self,
        nearest: Sequence[Match | None],
        subjects: Iterable[Subject],
        covers: Iterable[Cover],
    ) -> tuple[Match | None, ...]:
        """Return the recipe of each sample from the puddles of its subject; others stay."""
        matches = list(nearest)
        for subject, cover in zip(subjects, covers, strict=True):
            tried = [self._assigned(subject, sets) for sets in cover.equals]
            taken = tried[0]
            if len(tried) > 1:
                taken = min(
                    tried, key=lambda found: sum(map(self._unsteady, found, found.values()))
                )
            for t, match in taken.items():
                matches[t] = match
        return tuple(matches)

    def _assigned(self, subject: Subject, sets: Sequence[int]) -> dict[int, Match]:
        """Return for each sample the recipe from some mixes, or bare paper, that costs least."""
        return {t: self._best(t, sets) for t in subject.samples}

    def _best(self, t: int, sets: Sequence[int]) -> Match:
        """Return the recipe for a sample that costs least; of equal ones the most forgiving."""
        tried = [
            (int(self.costs[p, t]), self.matches[p, t]) for p in sets if (p, t) in self.matches
        ]
        if self.free[t] < NOT_COVERED:
            tried.append((int(self.free[t]), self._paper(t)))
        least = min(cost for cost, _ in tried)
        equal = [match for cost, match in tried if cost == least]
        return equal[0] if len(equal) == 1 else min(equal, key=lambda m: self._unsteady(t, m))

    def _paper(self, t: int) -> Match:
        """Return the bare paper as the recipe for a sample."""
        return Match(BARE_PAPER, self.question.paper_lab, self.question.paper_differences[t])

    def _unsteady(self, t: int, match: Match) -> float:
        """Return the largest match with an unsteady hand [ΔE00]."""
        lab = self.question.samples[t].lab
        return match_if_unsteady(match.recipe, lab, self.tubes, self.question.optics)


def _burden(question: Question, tubes: Mapping[str, Tube], mix: Mix) -> float:
    """Return what the tubes of a mix count beside how near it comes [ΔE00]."""
    fading = 0
    if question.scenario.prefer is Prefer.LASTING:
        fading = sum(tubes[id_].lightfastness.fades for id_ in mix[0])
    return TUBE_BURDEN * len(mix[0]) + FADING * question.scenario.tolerance * fading


def _cost(difference: float) -> int:
    """Return a match, with the burden of its mix, as a whole number."""
    return round(difference / COUNTED_TO)


def _in_use(tubes: dict[str, Tube], matches: Iterable[Match | None]) -> dict[str, Tube]:
    """Return the tubes that most matches hold, as many as are tried, in their order."""
    times = dict.fromkeys(tubes, 0)
    for match in matches:
        for id_ in match.recipe.tubes if match else ():
            times[id_] += 1
    most = sorted(tubes, key=lambda id_: -times[id_])[:MANY_TUBES]
    return {id_: tube for id_, tube in tubes.items() if id_ in most}


def _nearest(
    question: Question, chosen: Chosen | Taken, samples: Sequence[int]
) -> list[Match | None]:
    """Return the nearest recipes of samples, found now if they were not asked for before."""
    matches = chosen.matches
    if any(matches[t] is None for t in samples):
        matches = matches_of(question, chosen.palette, samples)
    return [matches[t] for t in samples]


def _with_nearest(
    question: Question,
    chosen: Chosen | Taken,
    matches: ReachedMatches,
    needing: Sequence[int],
) -> tuple[Mix, ...]:
    """Return the mixes, each sample that needs one with one at least.

    Rounding in the last digit may tell a sample to be covered and no mix to reach it, or not all
    mixes were tried: then its nearest match is added.
    """
    mixes = [*matches.reached.mixes]
    held = {t for _, t in matches.places}
    alone = [t for t in needing if t not in held]
    number = {mix: p for p, mix in enumerate(mixes)} if alone else {}
    for t, match in zip(alone, _nearest(question, chosen, alone), strict=True):
        if match is None:
            continue
        mix = (match.recipe.tubes, match.recipe.parts)
        if mix not in number:
            number[mix] = len(mixes)
            mixes.append(mix)
        matches.added[number[mix], t] = match
    return tuple(mixes)
