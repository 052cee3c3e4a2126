"""What the palette gives up in lightfastness and transparency, and the best without that."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from fewtubes.catalogue.records import LASTS, Lightfastness
from fewtubes.mixing.opacity import Transparency
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import search
from fewtubes.shopping.plan_parts import PlannedTube, TradeOff
from fewtubes.shopping.question import Question

__all__ = ["TradeOffs", "trade_offs"]

Grades = Mapping[str, Lightfastness] | Mapping[str, Transparency]


@dataclass(frozen=True, eq=False)
class TradeOffs:
    """What a palette gives up, and what was found while that was asked."""

    lightfastness: TradeOff
    """The worst lightfastness, and the best coverage from tubes that last longer."""
    lasting: TradeOff | None
    """The tubes in use that fade, and the best from tubes that last; None if all do."""
    opacity: TradeOff
    """The worst opacity, and the best coverage from more transparent tubes."""
    found: tuple[frozenset[int], ...]
    """Tubes bought in the palettes that these are about, by number; where must-have tubes are
    ruled out they are not among them."""


def trade_offs(
    question: Question,
    tubes: tuple[PlannedTube, ...],
    *,
    value: int,
    seconds: Callable[[], float],
) -> TradeOffs:
    """Return what a palette gives up in lightfastness and transparency.

    Parameters
    ----------
    tubes, value
        The palette and what it covers, as a weight.
    seconds
        Tells the time for each question what sparing the worst tubes would cost, when it is asked.
    """
    lasts = {tube.id: tube.lightfastness for tube in question.tubes}
    lightfastness = _trade_off(question, tubes, lasts, value=value, seconds=seconds())
    lasting = _lasting(question, tubes, lasts, value=value, seconds=seconds())
    clear = question.transparencies
    opacity = _trade_off(question, tubes, clear, value=value, seconds=seconds())
    asked = [lightfastness, lasting, opacity]
    return TradeOffs(
        lightfastness.told,
        lasting.told if lasting else None,
        opacity.told,
        found=tuple(one.bought for one in asked if one and one.bought is not None),
    )


@dataclass(frozen=True, eq=False)
class _Asked:
    """One of them."""

    told: TradeOff
    bought: frozenset[int] | None = None
    """Tubes bought in the palette that it is about, by number; None if there is none."""


def _lasting(
    question: Question,
    tubes: tuple[PlannedTube, ...],
    grades: Mapping[str, Lightfastness],
    *,
    value: int,
    seconds: float,
) -> _Asked | None:
    """Return the tubes in use that fade, and the best from tubes that last; None if all do."""
    fading = [item.tube for item in _in_use(tubes) if item.tube.lightfastness.fades]
    if not fading:
        return None
    asked = _spared(question, grades, LASTS + 1, value=value, seconds=seconds)
    worst = max(tube.lightfastness for tube in fading)
    return replace(asked, told=replace(asked.told, worst=worst, limited_by=tuple(fading)))


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
) -> _Asked:
    """Return the worst grade, the tubes that show it, and the best without any such tube."""
    used = _in_use(tubes)
    worst = max((grades[planned.tube.id] for planned in used), default=None)
    if worst is None or worst == 1:
        spared = value / sum(question.instance.weights)
        return _Asked(TradeOff(worst=worst, limited_by=(), spared=spared, spared_proven=True))
    asked = _spared(question, grades, worst, value=value, seconds=seconds)
    limited_by = tuple(p.tube for p in used if grades[p.tube.id] == worst)
    return replace(asked, told=replace(asked.told, worst=worst, limited_by=limited_by))


def _spared(
    question: Question, grades: Grades, least: int, *, value: int, seconds: float
) -> _Asked:
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
    told = TradeOff(
        worst=None,
        limited_by=(),
        spared=certificate.value / total,
        spared_proven=bool(choice.palettes) and certificate.value == certificate.bound,
        spared_tubes=len(instead.bought) if instead else None,
        spared_cost=instead.cost if instead else None,
        spared_fading=_fading(instead, question) if instead else None,
    )
    return _Asked(told, frozenset(choice.palettes[0].bought) if choice.palettes else None)


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
