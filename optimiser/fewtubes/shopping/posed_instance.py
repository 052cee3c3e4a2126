"""A question as the choice that is solved: sets, prices and wishes in whole numbers."""

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.scenario.preference import Prefer
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.terms import Terms
from fewtubes.selection.tube_packs import least_prices
from fewtubes.shopping.terms import terms_without
from fewtubes.shopping.usable_sets import sets_without

if TYPE_CHECKING:
    from fewtubes.shopping.question import Question

__all__ = ["instance_of"]


def instance_of(question: "Question", left_out: frozenset[int]) -> ChoiceInstance:
    """Return the choice with further tubes ruled out, owned and must-have ones included.

    Parameters
    ----------
    question
        What is asked; tubes that it refuses are ruled out.
    left_out
        Numbers of the further ones.
    """
    scenario, wishes = question.scenario, question.scenario.wishes
    out = left_out | {question.numbers[id_] for id_ in question.refused}
    count = len(question.tubes)
    owned = question.owned - out
    doubles = tuple(_doubles(question, out))
    terms = None if question.terms is None else terms_without(question.terms, left_out)
    if terms is not None and terms.needs_of is not None and left_out & question.owned:
        terms = replace(terms, needs_of=question.paint.needs_without(left_out & question.owned))
    return ChoiceInstance(
        weights=tuple(sample.weight for sample in question.samples),
        minimal_sets=sets_without(question.sets, out, count),
        prices=_prices(question, terms, owned=owned, out=out),
        fades=tuple(int(tube.lightfastness) for tube in question.tubes),
        owned=owned,
        must_have=frozenset(question.numbers[id_] for id_ in wishes.must_have) - out,
        budget=scenario.budget_hundredths,
        most_tubes=count if scenario.most_tubes is None else scenario.most_tubes,
        least_value=question.least_weight(wishes.least_coverage),
        fading=_fading(question),
        alike=frozenset((min(pair), max(pair)) for pair in doubles),
        spare=frozenset(
            (one, other)
            for one, other in doubles
            if one in owned and _lasts_as_long(question, one, other)
        ),
        terms=terms,
    )


def _prices(
    question: "Question", terms: Terms | None, *, owned: frozenset[int], out: frozenset[int]
) -> tuple[int, ...]:
    """Return the price of each tube, or with terms the least that it may cost."""
    beyond = question.scenario.budget_hundredths + 1
    prices = map(question.cost, question.tubes) if terms is None else least_prices(terms)
    return tuple(
        beyond if number in out else 0 if number in owned else price
        for number, price in enumerate(prices)
    )


def _fading(question: "Question") -> frozenset[int]:
    """Return the tubes that fade; none where the price goes before."""
    if question.scenario.prefer is Prefer.CHEAPEST:
        return frozenset()
    return frozenset(n for n, tube in enumerate(question.tubes) if tube.lightfastness.fades)


def _doubles(question: "Question", out: frozenset[int]) -> Iterator[tuple[int, int]]:
    """Yield pairs of tubes of which water makes the second from the first, or as good as it."""
    for one, other in np.argwhere(question.thinnings > 0).tolist():
        if one != other and one not in out and other not in out:
            yield one, other


def _lasts_as_long(question: "Question", one: int, other: int) -> bool:
    """Whether a tube lasts as long as another, or longer."""
    return question.tubes[one].lightfastness <= question.tubes[other].lightfastness
