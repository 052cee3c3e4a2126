"""What the palette gives up in lightfastness and transparency, and the best without that."""

from collections.abc import Mapping
from dataclasses import replace

from fewtubes.catalogue.records import LASTS, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import search
from fewtubes.shopping.plan_parts import PlannedTube, TradeOff
from fewtubes.shopping.question import Question

__all__ = ["lasting_trade_off", "lightfastness_trade_off", "opacity_trade_off"]

Grades = Mapping[str, Lightfastness] | Mapping[str, Transparency]


def lightfastness_trade_off(
    question: Question, tubes: tuple[PlannedTube, ...], *, value: int, seconds: float
) -> TradeOff:
    """Return the worst lightfastness, and the best coverage from tubes that last longer.

    Parameters
    ----------
    tubes, value
        The palette and what it covers, as a weight.
    seconds
        Time for the question what sparing the worst tubes would cost.
    """
    grades = {tube.id: tube.lightfastness for tube in question.tubes}
    return _trade_off(question, tubes, grades, value=value, seconds=seconds)


def lasting_trade_off(
    question: Question, tubes: tuple[PlannedTube, ...], *, value: int, seconds: float
) -> TradeOff | None:
    """Return the tubes in use that fade, and the best from tubes that last; None if all do."""
    fading = [item.tube for item in _in_use(tubes) if item.tube.lightfastness.fades]
    if not fading:
        return None
    grades = {tube.id: tube.lightfastness for tube in question.tubes}
    trade_off = _spared(question, grades, LASTS + 1, value=value, seconds=seconds)
    worst = max(tube.lightfastness for tube in fading)
    return replace(trade_off, worst=worst, limited_by=tuple(fading))


def opacity_trade_off(
    question: Question, tubes: tuple[PlannedTube, ...], *, value: int, seconds: float
) -> TradeOff:
    """Return the worst opacity, and the best coverage from more transparent tubes; see above."""
    grades = question.transparencies
    return _trade_off(question, tubes, grades, value=value, seconds=seconds)


def _in_use(tubes: tuple[PlannedTube, ...]) -> list[PlannedTube]:
    """Return the tubes bought, and the owned ones that some mix of the plan holds."""
    return [planned for planned in tubes if planned.recipes or not planned.owned]


def _trade_off(
    question: Question,
    tubes: tuple[PlannedTube, ...],
    grades: Grades,
    *,
    value: int,
    seconds: float,
) -> TradeOff:
    """Return the worst grade, the tubes that show it, and the best without any such tube."""
    used = _in_use(tubes)
    worst = max((grades[planned.tube.id] for planned in used), default=None)
    if worst is None or worst == 1:
        spared = value / sum(question.instance.weights)
        return TradeOff(worst=worst, limited_by=(), spared=spared, spared_proven=True)
    trade_off = _spared(question, grades, worst, value=value, seconds=seconds)
    limited_by = tuple(p.tube for p in used if grades[p.tube.id] == worst)
    return replace(trade_off, worst=worst, limited_by=limited_by)


def _spared(
    question: Question, grades: Grades, least: int, *, value: int, seconds: float
) -> TradeOff:
    """Return the best without any tube of a grade or worse; whose grade it is remains open."""
    ruled_out = frozenset(
        number for number, tube in enumerate(question.tubes) if grades[tube.id] >= least
    )
    total = sum(question.instance.weights)
    choice = _best_without(question, ruled_out, least_ranked=value, seconds=seconds)
    certificate, instead = choice.certificate, None
    # What a search that was stopped has found may cover less, or be dearer than need be.
    if certificate.status is Status.PROVEN and certificate.value >= value:
        instead = choice.palettes[0]
    return TradeOff(
        worst=None,
        limited_by=(),
        spared=certificate.value / total,
        spared_proven=bool(choice.palettes) and certificate.value == certificate.bound,
        spared_tubes=len(instead.bought) if instead else None,
        spared_cost=instead.cost if instead else None,
        spared_fading=_fading(instead, question) if instead else None,
    )


def _fading(palette: Palette, question: Question) -> int:
    """Return how many of the tubes to buy fade."""
    return sum(question.tubes[number].lightfastness.fades for number in palette.bought)


def _best_without(
    question: Question, ruled_out: frozenset[int], *, least_ranked: int, seconds: float
) -> Choice:
    """Return the best choice without some tubes, ranked if it covers a weight; see `search`.

    Where only tubes that could be bought are ruled out, earlier searches' learning is used.
    """
    if ruled_out & (question.instance.owned | question.instance.must_have):
        fewer = replace(question.instance_without(ruled_out), least_value=0)
        return search(fewer, seconds=seconds, least_ranked=least_ranked)
    state, instance = question.search_state, replace(question.instance, least_value=0)
    before = state.barred.copy()
    state.barred[list(ruled_out)] = True
    try:
        return search(instance, seconds=seconds, least_ranked=least_ranked, state=state)
    finally:
        state.barred[:] = before
