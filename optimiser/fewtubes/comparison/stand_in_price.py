"""A single tube in the place of another: what it costs, what all costs then, and at whom it is."""

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.reasons import StandIn
from fewtubes.shopping.question import Question
from fewtubes.shopping.sources import source_beside

__all__ = ["stand_in_of"]


def stand_in_of(question: Question, tube: Tube, kept: frozenset[int], coverage: float) -> StandIn:
    """Return a tube in the place of another, with its price beside the tubes kept, by number.

    Parameters
    ----------
    question
        What is asked.
    tube
        The one that stands in.
    kept
        Numbers of the tubes bought without the one that is replaced.
    coverage
        Of the palette after the exchange [0–1].
    """
    return StandIn(
        tube,
        question.cost_beside(tube, kept),
        coverage,
        total=question.instance.cost({*kept, question.numbers[tube.id]}),
        source=source_beside(question, tube, kept),
    )
