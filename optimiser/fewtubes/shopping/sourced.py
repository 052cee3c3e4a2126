"""The tubes that would bring a colour, each with the seller that it is bought of then."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from fewtubes.shopping.plan_parts import PlannedSample, Remedy
from fewtubes.shopping.question import Question
from fewtubes.shopping.sources import source_beside

__all__ = ["MOST_SOURCED", "with_sources"]

MOST_SOURCED = 3
"""Single tubes that are told with their sellers; no sentence names more."""


def with_sources(
    question: Question, planned: PlannedSample, palette: Collection[int]
) -> PlannedSample:
    """Return a colour whose remedies, those that are named, are told with their sellers.

    Parameters
    ----------
    question
        What is asked.
    planned
        A colour with all that would bring it.
    palette
        Numbers of the tubes bought and owned.
    """
    if planned.covered or not question.catalogue.sellers:
        return planned
    nearer, together = planned.nearer, planned.together
    added = {question.numbers[remedy.tube.id] for remedy in together}
    named, rest = planned.remedies[:MOST_SOURCED], planned.remedies[MOST_SOURCED:]
    if nearer is not None:
        nearer = replace(nearer, source=source_beside(question, nearer.tube, palette))
    return replace(
        planned,
        remedies=(*_sourced(question, named, palette), *rest),
        nearer=nearer,
        together=_sourced(question, together, {*palette, *added}),
    )


def _sourced(
    question: Question, remedies: Sequence[Remedy], beside: Collection[int]
) -> tuple[Remedy, ...]:
    return tuple(
        replace(remedy, source=source_beside(question, remedy.tube, beside)) for remedy in remedies
    )
