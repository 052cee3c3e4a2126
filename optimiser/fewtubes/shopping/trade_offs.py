"""What the palette gives up in lightfastness and transparency, and the best without that."""

from collections.abc import Mapping
from dataclasses import replace

from fewtubes.catalogue.records import Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.selection.certificate import Status
from fewtubes.selection.search import best_value, search
from fewtubes.shopping.plan_parts import PlannedTube, TradeOff
from fewtubes.shopping.question import Question

__all__ = ["LASTS", "lasting_trade_off", "lightfastness_trade_off", "opacity_trade_off"]

LASTS = Lightfastness.II
"""Category up to which a paint is taken to last; ASTM D4302 asks for I or II, from memory."""

Grades = Mapping[str, Lightfastness] | Mapping[str, Transparency]


def lightfastness_trade_off(
    question: Question, tubes: tuple[PlannedTube, ...], *, coverage: float, seconds: float
) -> TradeOff:
    """Return the worst lightfastness, and the best coverage from tubes that last longer.

    Parameters
    ----------
    tubes, coverage
        The palette and its coverage [0–1].
    seconds
        Time for the question what sparing the worst tubes would cost.
    """
    grades = {tube.id: tube.lightfastness for tube in question.tubes}
    return _trade_off(question, tubes, grades, coverage=coverage, seconds=seconds)


def lasting_trade_off(
    question: Question, tubes: tuple[PlannedTube, ...], *, coverage: float, seconds: float
) -> TradeOff | None:
    """Return the tubes in use that fade, and the best from tubes that last; None if all do."""
    fading = [item.tube for item in _in_use(tubes) if item.tube.lightfastness > LASTS]
    if not fading:
        return None
    grades = {tube.id: tube.lightfastness for tube in question.tubes}
    trade_off = _spared(question, grades, LASTS + 1, coverage=coverage, seconds=seconds)
    worst = max(tube.lightfastness for tube in fading)
    return replace(trade_off, worst=worst, limited_by=tuple(fading))


def opacity_trade_off(
    question: Question, tubes: tuple[PlannedTube, ...], *, coverage: float, seconds: float
) -> TradeOff:
    """Return the worst opacity, and the best coverage from more transparent tubes; see above."""
    grades = question.transparencies
    return _trade_off(question, tubes, grades, coverage=coverage, seconds=seconds)


def _in_use(tubes: tuple[PlannedTube, ...]) -> list[PlannedTube]:
    """Return the tubes bought, and the owned ones that some mix of the plan holds."""
    return [planned for planned in tubes if planned.recipes or not planned.owned]


def _trade_off(
    question: Question,
    tubes: tuple[PlannedTube, ...],
    grades: Grades,
    *,
    coverage: float,
    seconds: float,
) -> TradeOff:
    """Return the worst grade, the tubes that show it, and the best without any such tube."""
    used = _in_use(tubes)
    worst = max((grades[planned.tube.id] for planned in used), default=None)
    if worst is None or worst == 1:
        return TradeOff(worst=worst, limited_by=(), spared=coverage, spared_proven=True)
    trade_off = _spared(question, grades, worst, coverage=coverage, seconds=seconds)
    limited_by = tuple(p.tube for p in used if grades[p.tube.id] == worst)
    return replace(trade_off, worst=worst, limited_by=limited_by)


def _spared(
    question: Question, grades: Grades, least: int, *, coverage: float, seconds: float
) -> TradeOff:
    """Return the best without any tube of a grade or worse; whose grade it is remains open."""
    ruled_out = frozenset(
        number for number, tube in enumerate(question.tubes) if grades[tube.id] >= least
    )
    instance = replace(question.instance_without(ruled_out), least_value=0)
    certificate = best_value(instance, seconds=seconds)
    spared = certificate.value / sum(instance.weights)
    instead = None
    if spared >= coverage:
        choice = search(instance, seconds=seconds)
        # What a search that was stopped has found may cover less, or be dearer than need be.
        if choice.certificate.status is Status.PROVEN:
            instead = choice.palettes[0]
    return TradeOff(
        worst=None,
        limited_by=(),
        spared=spared,
        spared_proven=certificate.status is Status.PROVEN,
        spared_tubes=len(instead.bought) if instead else None,
        spared_cost=instead.cost if instead else None,
    )
