"""What is painted in one go, and so shares puddles: a flower, or the painter's own colours."""

from collections.abc import Iterable
from dataclasses import dataclass

from fewtubes.shopping.puddles import OWN_COLOURS
from fewtubes.shopping.question import Question

__all__ = ["Subject", "samples_by_subject", "subjects_of"]


@dataclass(frozen=True)
class Subject:
    """What is painted in one go: a flower, or the painter's own colours."""

    name: str
    own: bool
    samples: tuple[int, ...]
    """Its covered ones."""


def samples_by_subject(question: Question, covered: Iterable[int]) -> tuple[tuple[int, ...], ...]:
    """Return the covered samples of every flower, then those of the own colours together."""
    return tuple(subject.samples for subject in subjects_of(question, covered))


def subjects_of(question: Question, covered: Iterable[int]) -> list[Subject]:
    """Return every flower with its covered samples, then the own colours as one."""
    own = {colour.name for colour in question.scenario.own_colours}
    covered = set(covered)
    found: dict[tuple[str, bool], list[int]] = {}
    for t, sample in enumerate(question.samples):
        is_own = sample.flower in own
        key = (OWN_COLOURS if is_own else sample.flower, is_own)
        found.setdefault(key, []).extend([t] if t in covered else [])
    return [Subject(name, is_own, tuple(samples)) for (name, is_own), samples in found.items()]
