"""How few puddles palettes take, so that those that cover as much can be told apart.

As `fewtubes.shopping.puddling` counts them for a plan, and by the same integer program; no recipe
is chosen, so costs play no part. The mixes of several palettes are tried once for all of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from fewtubes.coverage.samples import lab_table
from fewtubes.errors import LimitError
from fewtubes.masks import BoolArray
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.reached import mixes_reaching
from fewtubes.selection.covering import NOT_COVERED, Cover, CoverInstance
from fewtubes.selection.covering_program import fewest_cover
from fewtubes.selection.instance import Palette
from fewtubes.shopping.mix_table import MANY_TUBES
from fewtubes.shopping.puddles import PuddleCount
from fewtubes.shopping.question import Question
from fewtubes.shopping.subjects import samples_by_subject

__all__ = ["puddle_counts"]


def puddle_counts(
    question: Question, palettes: Sequence[Palette], *, seconds: float
) -> tuple[PuddleCount | None, ...]:
    """Return how few puddles each palette takes; None for those that there was no time for.

    Nor is anything told of a palette of more tubes, owned ones included, than are mixed at once.

    Parameters
    ----------
    question
        The question.
    palettes
        Its palettes, in the order in which they are looked at; equal ones are counted once.
    seconds
        Time for all of them [s].
    """
    deadline = Deadline(seconds)
    found: dict[tuple[int, ...], PuddleCount | None] = {}
    for group in _groups(question, palettes):
        try:
            reach = _Reach.of(question, group, deadline)
        except LimitError:
            break
        for palette in group:
            if deadline.left <= 0:
                break
            found[palette.bought] = reach.counted(palette, deadline)
    return tuple(found.get(palette.bought) for palette in palettes)


def _groups(question: Question, palettes: Sequence[Palette]) -> list[list[Palette]]:
    """Return palettes in groups that hold no more tubes together than are mixed at once."""
    groups: list[list[Palette]] = []
    held: set[int] = set()
    for palette in {palette.bought: palette for palette in palettes}.values():
        tubes = question.owned.union(palette.bought)
        if len(tubes) > MANY_TUBES:
            continue
        if not groups or len(held | tubes) > MANY_TUBES:
            groups.append([])
            held = set()
        groups[-1].append(palette)
        held |= tubes
    return groups


@dataclass(frozen=True, eq=False)
class _Reach:
    """Which mixes of some tubes reach which samples.

    Parameters
    ----------
    mixed
        Whether a mix holds a tube, shape (mixes, tubes).
    reached
        Whether it reaches a sample at some wash, shape (mixes, samples).
    bare
        Whether the paper does, shape (samples,).
    """

    question: Question
    mixed: BoolArray
    reached: BoolArray
    bare: BoolArray
    known: dict[tuple[object, ...], Cover] = field(default_factory=dict)
    """What was found before, by what was asked: palettes often differ in one flower alone."""

    @classmethod
    def of(cls, question: Question, palettes: Sequence[Palette], deadline: Deadline) -> "_Reach":
        """Return the mixes of all tubes of some palettes; raises LimitError."""
        numbers = sorted(question.owned.union(*(palette.bought for palette in palettes)))
        found = mixes_reaching(
            {question.tubes[number].id: question.tubes[number] for number in numbers},
            lab_table(question.samples),
            optics=question.optics,
            space=question.space,
            tolerance=question.scenario.tolerance,
            deadline=deadline,
        )
        mixed = np.zeros((len(found.mixes), len(question.tubes)), dtype=np.bool_)
        for row, (tubes, _parts) in enumerate(found.mixes):
            mixed[row, [question.numbers[id_] for id_ in tubes]] = True
        reached = np.zeros((len(found.mixes), len(question.samples)), dtype=np.bool_)
        reached[found.pairs.mix, found.pairs.colour] = True
        bare = np.array(question.paper_differences) <= question.scenario.tolerance
        return cls(question, mixed, reached, bare)

    def counted(self, palette: Palette, deadline: Deadline) -> PuddleCount:
        """Return how few puddles a palette takes."""
        held = np.zeros(self.mixed.shape[1], dtype=np.bool_)
        held[sorted(self.question.owned.union(palette.bought))] = True
        rows = self.reached[~(self.mixed & ~held).any(axis=1)]
        subjects = samples_by_subject(self.question, palette.covered)
        each = [self._fewest(rows, samples, deadline) for samples in subjects]
        whole = [t for samples in subjects for t in samples]
        sitting = each[0] if len(each) == 1 else self._fewest(rows, whole, deadline)
        return PuddleCount(
            each_flower=sum(len(cover.sets) for cover in each),
            each_flower_bound=sum(cover.bound for cover in each),
            one_sitting=len(sitting.sets),
            one_sitting_bound=sitting.bound,
        )

    def _fewest(self, rows: BoolArray, samples: Sequence[int], deadline: Deadline) -> Cover:
        """Return the fewest of some mixes, shape (mixes, samples), that reach certain samples.

        Rounding in the last digit may tell a sample to be covered and no mix to reach it: it then
        has a mix of its own.
        """
        bare = self.bare[list(samples)]
        held = np.unique(rows[:, list(samples)] & ~bare, axis=0)
        asked = (held.shape, held.tobytes(), bare.tobytes())
        if asked in self.known:
            return self.known[asked]
        alone = np.eye(len(samples), dtype=np.bool_)[~(held.any(axis=0) | bare)]
        held = np.concatenate([held, alone])
        instance = CoverInstance(
            np.where(held, 0, NOT_COVERED).astype(np.int64),
            np.where(bare, 0, NOT_COVERED).astype(np.int64),
        )
        cover = fewest_cover(instance, seconds=deadline.left, cheapest=False)
        self.known[asked] = cover
        return cover
