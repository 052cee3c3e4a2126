"""The tubes one owns: which are doubles, which idle, and what to buy next."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import combinations

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.comparison.box_findings import Addition, Box, Double, Intended
from fewtubes.comparison.box_gains import Gain, gain_of
from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, Likeness, likeness, twins
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import contrast_ratio
from fewtubes.scenario.called import id_is_a_name, looked_up
from fewtubes.scenario.checks import each_once
from fewtubes.scenario.names import named_tubes
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Status
from fewtubes.shopping.choose import choose
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.refusals import BY_WISHES
from fewtubes.shopping.shop import Limits
from fewtubes.shopping.sources import source_beside

__all__ = ["box", "doubles"]

AS_CLEAR = 0.01
"""Contrast ratios nearer than this count as equal [0–1]; our own choice."""


def box(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    about_to_buy: Sequence[str] = (),
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
) -> Box:
    """Look through the tubes that a scenario names as owned.

    Parameters
    ----------
    about_to_buy
        Ids of tubes; if there are none, those that the best plan buys.
    catalogue, scenario
        As read; the scenario refers to this catalogue.
    limits
        Time limit and method of proof; by default 60 s for the proof, and an hour for mixing.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere (see `default_cache`).

    Raises
    ------
    InputError
        If the catalogue does not hold what is named.
    ClashError
        If the demands cannot all be met (only where a plan is needed).
    LimitError
        If there is too little time or memory for mixing so many tubes.

    Examples
    --------
    >>> from fewtubes import Scenario, Wishes, box, default_cache, read_catalogue
    >>> wishes = Wishes(owned=["lemon", "magenta"])
    >>> scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"], wishes=wishes)
    >>> found = box(read_catalogue(), scenario, about_to_buy=["lemon"], cache=default_cache())
    >>> found.intended[0].is_double  # it is in the box already
    True
    """
    collector = FaultCollector()
    about_to_buy = looked_up(
        each_once(about_to_buy, "about_to_buy", str, collector),
        catalogue.tubes,
        "tube",
        where="about_to_buy",
        collector=collector,
    )
    collector.raise_if_any()
    tell = progress or (lambda _stage: None)
    limits = limits or Limits()
    mixing = limits.mixing()
    question = pose(catalogue, scenario, cache=cache_of(cache), progress=tell, deadline=mixing)
    scenario = question.scenario  # with ids in the place of names
    owned = tuple(catalogue.tubes[id_] for id_ in scenario.wishes.all_owned)
    in_use = tuple(tube for tube in owned if tube.id not in question.refused)
    intended, proven = [catalogue.tubes[id_] for id_ in about_to_buy], True
    if not about_to_buy:
        tell("choosing the tubes and proving the choice")
        chosen = choose(question, seconds=limits.clock(mixing).share(1.0, of_left=1.0))
        intended = [question.tubes[number] for number in chosen.palette.bought]
        certificate = chosen.choice.certificate
        proven = certificate.status is Status.PROVEN
    tell("comparing washes")
    values = CoveredWeight(question.instance)
    alone = values.value(question.owned)
    idle = _idle(values, question.owned)
    about = tuple(_intended(question, tube, in_use) for tube in intended)
    return Box(
        scenario=scenario,
        owned=owned,
        set_aside=tuple(tube for tube in owned if tube.id in question.refused),
        coverage=values.share(alone),
        doubles=doubles(question.optics, in_use),
        idle=tuple(question.tubes[number] for number in idle),
        lost_without_idle=values.share(alone - values.value(question.owned.difference(idle))),
        additions=_additions(question, values, in_use),
        intended=about,
        intended_from_plan=not about_to_buy,
        plan_proven=proven,
        fitted_paints=question.fitted_paints,
        counted_to=question.counted_to,
        names=named_tubes(scenario, catalogue),
        id_is_a_name=id_is_a_name(
            dict.fromkeys(tube.id for tube in (*owned, *intended)), catalogue.tubes
        ),
        gain_together=_gain_together(question, about),
    )


def _idle(values: CoveredWeight, owned: frozenset[int]) -> list[int]:
    """Return the owned tubes each of which could be missing without loss."""
    whole = values.value(owned)
    return [number for number in sorted(owned) if values.value(owned - {number}) == whole]


def doubles(optics: Optics, tubes: Sequence[Tube]) -> tuple[Double, ...]:
    """Return the pairs of tubes that hardly differ on a paper in a light, most alike first."""
    found = [
        _double(optics, first, second, alike)
        for first, second in combinations(tubes, 2)
        if (alike := likeness(first, second, optics)).difference <= HARDLY_DIFFERENT
    ]
    return tuple(sorted(found, key=lambda double: double.likeness.difference))


def _double(optics: Optics, first: Tube, second: Tube, alike: Likeness) -> Double:
    """Return which of two tubes is better in what."""
    strong, weak = (first, second) if alike.first_is_stronger else (second, first)
    luminous = optics.weights[:, 1]
    thinned = contrast_ratio(alike.thinning * strong.K, alike.thinning * strong.S, luminous)
    plain = contrast_ratio(weak.K, weak.S, luminous)
    hides = float(thinned - plain)
    clearer = None if abs(hides) < AS_CLEAR else weak if hides > 0 else strong
    fades = strong.lightfastness - weak.lightfastness
    return Double(
        first=first,
        second=second,
        likeness=alike,
        stronger=strong if alike.thinning < 1 else None,
        longer_lasting=None if fades == 0 else weak if fades > 0 else strong,
        clearer=clearer,
    )


def _additions(
    question: Question, values: CoveredWeight, in_use: Sequence[Tube]
) -> tuple[Addition, ...]:
    """Return the single purchases that add something, most for the money first.

    A weaker edition of a tube in use adds nothing that water would not.
    """
    wishes = question.scenario.wishes
    sold = [
        number
        for number, tube in enumerate(question.tubes)
        if tube.id not in question.refused and tube.id not in wishes.all_owned
    ]
    worth = values.with_each(question.owned, np.array(sold, dtype=np.int64))
    gains = (worth - values.value(question.owned)).tolist()
    found = [
        (gain, question.cost_beside(question.tubes[number], ()), question.tubes[number])
        for gain, number in zip(gains, sold, strict=True)
        if gain > 0
    ]
    spare = _spare(question.optics, [tube for _, _, tube in found], in_use)
    # A tube that costs nothing comes before all that cost something.
    found.sort(key=lambda it: (it[1] > 0, -Fraction(it[0], max(1, it[1])), it[1], it[2].id))
    return tuple(
        Addition(
            tube,
            cost,
            values.share(gain),
            affordable=cost <= question.scenario.budget_hundredths,
            source=source_beside(question, tube, ()),
        )
        for gain, cost, tube in found
        if tube.id not in spare
    )


def _spare(optics: Optics, sold: Sequence[Tube], in_use: Sequence[Tube]) -> set[str]:
    """Return the ids of the tubes sold that water makes from one in use."""
    every = {tube.id: tube for tube in (*in_use, *sold)}
    alike, numbers = twins(every, optics), {id_: number for number, id_ in enumerate(every)}
    pairs = [
        (tube, other) for tube in sold for other in in_use
        if tube.id != other.id and alike[numbers[tube.id], numbers[other.id]]
    ]  # fmt: skip
    return {
        tube.id
        for tube, other in pairs
        if _double(optics, other, tube, likeness(other, tube, optics)).spare is tube
    }


def _intended(question: Question, tube: Tube, in_use: Sequence[Tube]) -> Intended:
    """Return the owned tube in use that is most like one about to be bought."""
    is_owned = tube.id in question.scenario.wishes.all_owned
    reason = question.refused.get(tube.id)
    kept_out = str(reason) if reason in BY_WISHES and not is_owned else ""
    others = [other for other in in_use if other.id != tube.id]
    alike = [(likeness(other, tube, question.optics), other) for other in others]
    nearest = min(alike, key=lambda item: item[0].difference, default=None)
    return Intended(
        tube=tube,
        nearest=nearest[1] if nearest else None,
        likeness=nearest[0] if nearest else None,
        is_owned=is_owned,
        set_aside=is_owned and tube.id in question.refused,
        kept_out=kept_out,
        gain=None
        if is_owned or kept_out
        else gain_of(question, question.owned, [question.numbers[tube.id]]),
        thinned=nearest is not None and tube.id in _spare(question.optics, [tube], [nearest[1]]),
    )


def _gain_together(question: Question, intended: Sequence[Intended]) -> Gain | None:
    """Return what several tubes about to be bought add, those left out that stay out of use."""
    added = [question.numbers[item.tube.id] for item in intended if item.gain is not None]
    return gain_of(question, question.owned, added) if len(added) > 1 else None
