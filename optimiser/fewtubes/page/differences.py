"""Two answers side by side, in rows."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from fewtubes.page.drawn_answer import Answer
from fewtubes.page.price_lists import list_words
from fewtubes.picture.sheet import MISSED
from fewtubes.report.sentences.asked import wish_words
from fewtubes.report.sentences.painters import bought_words, painters_words, sharing_words
from fewtubes.report.sentences.proof import standing_of
from fewtubes.report.sentences.purchase import tube_price_words
from fewtubes.report.sentences.trade_offs import grade_words
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample, PlannedTube, TradeOff
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.matches import difference, limit_words, match_words
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import standing_label
from fewtubes.words.proof.puddles import count_words
from fewtubes.words.shares import asked_percent, percent
from fewtubes.words.tubes import packs_words

__all__ = ["ComparedRow", "Differences", "differences"]

PREFERRED = {Prefer.LASTING: "what lasts, then the cheapest", Prefer.CHEAPEST: "the cheapest"}
"""What goes before between choices that cover as much with as few tubes."""

NONE = "–"
"""Stands where one of the two has nothing of the kind."""


@dataclass(frozen=True)
class ComparedRow:
    """The same thing in both answers."""

    label: str
    one: str
    other: str
    sign: str
    """How the two differ, in words; empty if they do not."""
    one_markup: str = ""
    other_markup: str = ""

    @property
    def same(self) -> bool:
        """Whether nothing distinguishes the two."""
        return (self.one, self.one_markup) == (self.other, self.other_markup)


@dataclass(frozen=True)
class Differences:
    """All rows, by what they are about."""

    asked: tuple[ComparedRow, ...]
    found: tuple[ComparedRow, ...]
    tubes: tuple[ComparedRow, ...]
    flowers: tuple[ComparedRow, ...]
    colours: tuple[ComparedRow, ...]


def differences(one: Answer, other: Answer, lists: Sequence[Path] = ()) -> Differences:
    """Return two answers as rows; things that only one of them has come last.

    Parameters
    ----------
    one, other
        Of one page.
    lists
        Price lists that the page was started with.
    """
    plans = (one.plan, other.plan)
    return Differences(
        asked=_rows(_asked(plans[0], lists), _asked(plans[1], lists)),
        found=_rows(_found(plans[0]), _found(plans[1])),
        tubes=_tubes(*plans),
        flowers=_rows(dict(_flowers(plans[0])), dict(_flowers(plans[1]))),
        colours=tuple(_colours(one, other)),
    )


def _rows(one: dict[str, str], other: dict[str, str]) -> tuple[ComparedRow, ...]:
    pairs = ((label, one.get(label, NONE), other.get(label, NONE)) for label in {**one, **other})
    return tuple(ComparedRow(label, a, b, _sign(a, b)) for label, a, b in pairs if {a, b} != {NONE})


def _sign(one: str, other: str) -> str:
    """Return how two entries differ."""
    if one == other:
        return ""
    return "in B only" if one == NONE else "in A only" if other == NONE else "differs"


def _asked(plan: Plan, lists: Sequence[Path]) -> dict[str, str]:
    scenario = plan.scenario
    most, group = scenario.most_tubes, scenario.group
    return {
        "Budget": money(scenario.budget_hundredths, scenario.currency),
        "Prices": list_words(Path(scenario.prices), lists) if scenario.prices else NONE,
        "Most tubes": "no limit" if most is None else f"{most:,}",
        "Who paints": NONE if group is None else f"{painters_words(group)}: {sharing_words(group)}",
        "Pictures planned": NONE if scenario.picture is None else f"{scenario.picture.pictures:,}",
        "Tolerance": limit_words(scenario.tolerance),
        "Of equal choices": _of_equals(scenario),
        "Wishes": wish_words(scenario.wishes, plan.names) or NONE,
        "How steady": _trials(plan),
        "Paper and light": f"{printable(scenario.paper)}, {printable(scenario.light)}",
    }


def _of_equals(scenario: Scenario) -> str:
    """Return what decides between choices that cover as much with as few tubes."""
    nearer = "; before the price what comes nearest to what is missed" if scenario.nearer else ""
    return PREFERRED[scenario.prefer] + nearer


def _trials(plan: Plan) -> str:
    """Return what was asked about paint and hand that vary."""
    if plan.steadiness is None:
        return "not tried"
    trials = plan.steadiness.trials
    if not trials.choose:
        return "told"
    near = f"within {asked_percent(trials.within)}" if trials.within else "of equal ones"
    return f"the steadiest {near}"


def _found(plan: Plan) -> dict[str, str]:
    currency = plan.scenario.currency
    covered = sum(planned.covered for planned in plan.samples)
    steadiness, puddles = plan.steadiness, plan.mixed.count
    expected = NONE if steadiness is None else percent(steadiness.spread.expected)
    return {
        "To buy": (
            f"{bought_words(plan)} for {money(plan.cost, currency)}" if plan.bought else "nothing"
        ),
        "Covered": f"{percent(plan.coverage)}, {covered} of {counted(len(plan.samples), 'colour')}",
        "Fewest puddles, each flower by itself": count_words(
            puddles.each_flower, puddles.each_flower_bound
        ),
        "Fewest puddles in one sitting": count_words(
            puddles.one_sitting, puddles.one_sitting_bound
        ),
        "Expected if paint and hand vary": expected,
        "Standing": _standing(plan),
        "Least lightfast": _grade(plan.lightfastness),
        "Most opaque": _grade(plan.opacity),
    }


def _standing(plan: Plan) -> str:
    if plan.steadiness is not None and not plan.steadiness.ranks_best:
        return "taken for steadiness"
    return standing_label(standing_of(plan.certificate), fitted=plan.fitted_paints)


def _grade(trade_off: TradeOff) -> str:
    return NONE if trade_off.worst is None else grade_words(trade_off.worst)


def _tubes(one: Plan, other: Plan) -> tuple[ComparedRow, ...]:
    """Return a row a tube; two of the same name are two."""
    held = [
        {planned.tube.id: _tube(planned, plan.scenario.currency) for planned in plan.tubes}
        for plan in (one, other)
    ]
    names = {planned.tube.id: planned.tube.name for plan in (one, other) for planned in plan.tubes}
    pairs = (
        (printable(name), held[0].get(id_, NONE), held[1].get(id_, NONE))
        for id_, name in names.items()
    )
    return tuple(ComparedRow(label, a, b, _sign(a, b)) for label, a, b in pairs)


def _tube(planned: PlannedTube, currency: str) -> str:
    if planned.owned:
        return "your own"
    packs = packs_words((pack.count, pack.offer.ml) for pack in planned.packs)
    price = tube_price_words(planned, currency)
    return in_a_row([packs, price]) if packs else price


def _flowers(plan: Plan) -> Iterator[tuple[str, str]]:
    for flower in plan.flowers:
        covered = f"{flower.covered} of {flower.total}"
        yield printable(flower.name), f"{percent(flower.coverage)}, {covered}"


def _colours(one: Answer, other: Answer) -> Iterator[ComparedRow]:
    samples = [
        {(item.sample.flower, item.sample.name): item for item in answer.plan.samples}
        for answer in (one, other)
    ]
    for key in {**samples[0], **samples[1]}:
        yield ComparedRow(
            label=f"{printable(key[0])}: {printable(key[1])}",
            one=_verdict(samples[0].get(key), one.plan.scenario.tolerance),
            other=_verdict(samples[1].get(key), other.plan.scenario.tolerance),
            sign=_reached(samples[0].get(key), samples[1].get(key)),
            one_markup=one.pairs.get(key, ""),
            other_markup=other.pairs.get(key, ""),
        )


def _reached(one: PlannedSample | None, other: PlannedSample | None) -> str:
    """Return which of the two covers a colour, if not both or neither."""
    a, b = (planned is not None and planned.covered for planned in (one, other))
    return "" if a == b else "covered by A only" if a else "covered by B only"


def _verdict(planned: PlannedSample | None, tolerance: float) -> str:
    """Return how near the mix of a colour comes, in words and number."""
    if planned is None:
        return NONE
    if not math.isfinite(planned.match):
        return f"{MISSED} out of reach"
    bare = "bare paper; " if planned.is_bare_paper else ""
    near = f"{bare}{match_words(planned.match)}, {difference(planned.match, tolerance)}"
    return near if planned.covered else f"{MISSED} out of reach; {near}"
