"""What stands beside a plan may be better than it, where the search for it was stopped in time.

While a plan is weighed other searches run, under further rules: without the tubes that fade, or
without opaque ones. What they find can be bought all the same, so where the choice is not proven
the best of it takes the plan's place. So does the plan with a tube that would bring a colour out of
reach, if the money is enough for it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.instance import Palette
from fewtubes.selection.model import meets_demands
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.question import Question

__all__ = ["overtaking", "ranks_before", "with_what_would_bring"]

NEARER_FIGURES = 3
"""Figures of the rank that go before how near a palette comes to what it misses, where that is
wished for: value, number, fading ones."""


def ranks_before(question: Question, one: Palette, other: Palette) -> bool:
    """Whether one palette is the better answer, as far as their ranks tell."""
    figures = NEARER_FIGURES if question.scenario.nearer else None
    return one.rank[:figures] < other.rank[:figures]


def overtaking(
    question: Question, choice: Choice, found: Iterable[frozenset[int]]
) -> Choice | None:
    """Return the choice of a palette found elsewhere that is better than a stopped search's.

    Parameters
    ----------
    question, choice
        The question and what answers it so far.
    found
        Tubes bought in palettes found elsewhere, by number.

    Returns
    -------
    None if the choice is proven, or none of them is better. The bound stays what was proven.
    """
    if choice.certificate.status is not Status.STOPPED or not choice.palettes:
        return None
    instance, before = question.instance, choice.palettes[0]
    palettes = (instance.palette(tubes | instance.must_have) for tubes in found)
    better = [
        palette
        for palette in palettes
        if ranks_before(question, palette, before) and meets_demands(instance, palette)
    ]
    if not better:
        return None
    best = min(better, key=lambda palette: (palette.rank, palette.bought))
    bound = max(choice.certificate.bound, best.value)
    certificate = replace(choice.certificate, value=best.value, bound=bound)
    return Choice((best,), complete=False, certificate=certificate)


def with_what_would_bring(
    question: Question, samples: Iterable[PlannedSample], palette: Palette
) -> Iterator[frozenset[int]]:
    """Yield the tubes bought with what would bring a colour that is out of reach, each once.

    Parameters
    ----------
    question
        What is asked.
    samples
        Those of the plan.
    palette
        What is bought.
    """
    bought, owned = frozenset(palette.bought), question.scenario.wishes.all_owned
    told: set[frozenset[int]] = set()
    for sample in samples:
        for remedies in (*((one,) for one in sample.remedies), sample.together):
            more = {
                question.numbers[it.tube.id] for it in remedies or () if it.tube.id not in owned
            }
            if more and all(it.allowed for it in remedies or ()) and bought | more not in told:
                told.add(bought | more)
                yield bought | more
