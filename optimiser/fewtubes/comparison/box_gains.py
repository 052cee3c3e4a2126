"""What tubes put into the box add to the flowers: coverage, and the colours newly reached."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.coverage.reach import NO_TUBE
from fewtubes.masks import BoolArray
from fewtubes.shopping.question import Question

__all__ = ["FlowerReached", "Gain", "gain_of"]


@dataclass(frozen=True)
class FlowerReached:
    """How many colours of a flower are reached, steps between swatches included."""

    name: str
    """Of the flower, or of an own colour."""
    before: int
    after: int
    total: int


@dataclass(frozen=True)
class Gain:
    """What a box covers without tubes, and with them."""

    before: float
    """Coverage of the box alone, bare paper included [0–1]."""
    after: float
    """The same with the tubes put into it [0–1]."""
    flowers: tuple[FlowerReached, ...]
    """Those of which further colours are reached, most of them first."""

    @property
    def is_nothing(self) -> bool:
        """Whether no further colour is reached."""
        return not self.flowers


def gain_of(question: Question, held: Iterable[int], added: Iterable[int]) -> Gain:
    """Return what tubes add to those held, whether they are for sale or not.

    Parameters
    ----------
    question
        What is to be painted, with the minimal sets of every colour.
    held, added
        Tubes by number.
    """
    held = frozenset(held)
    before, after = _reached(question, held), _reached(question, held.union(added))
    weights = np.array([sample.weight for sample in question.samples], dtype=object)
    whole = int(weights.sum()) if len(weights) else 0
    names = [sample.flower for sample in question.samples]
    totals, one, other = Counter(names), _counts(names, before), _counts(names, after)
    flowers = (FlowerReached(name, one[name], other[name], total) for name, total in totals.items())
    more = [flower for flower in flowers if flower.after > flower.before]
    return Gain(
        before=_share(int(weights[before].sum()), whole),
        after=_share(int(weights[after].sum()), whole),
        flowers=tuple(sorted(more, key=lambda flower: flower.before - flower.after)),
    )


def _reached(question: Question, held: frozenset[int]) -> BoolArray:
    """Return which samples a set of tubes reaches, shape (samples,)."""
    at_hand = np.zeros(len(question.tubes) + 1, dtype=bool)
    at_hand[[*held, NO_TUBE]] = True  # the place that stands for no tube is the last
    return np.array([bool(at_hand[sets].all(axis=1).any()) for sets in question.sets], dtype=bool)


def _counts(names: Sequence[str], reached: BoolArray) -> Counter[str]:
    """Return how many samples of each flower are reached."""
    return Counter(name for name, is_reached in zip(names, reached, strict=True) if is_reached)


def _share(part: int, whole: int) -> float:
    """Return part ÷ whole, 0 where there is nothing to paint."""
    return part / whole if whole else 0.0
