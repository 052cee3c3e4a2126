"""Which one set of tubes serves several scenarios best: on average, and where it serves worst."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.one_set_findings import (
    LeastCoverage,
    OneSet,
    OwnBest,
    ServedScenario,
)
from fewtubes.comparison.one_set_mean import best_by_mean
from fewtubes.comparison.one_set_posed import PosedTogether
from fewtubes.comparison.one_set_terms import shares_of, sum_of
from fewtubes.comparison.one_set_wishes import Asking, asked_together, common_currency
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.fairest import fairest
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.search import search
from fewtubes.shopping.clash import refused_must_have
from fewtubes.shopping.mixed_together import mixed_together
from fewtubes.shopping.question import pose
from fewtubes.shopping.shop import Limits

__all__ = ["one_set", "one_set_of"]

LEAST_SECONDS = 1.0
"""Time that each scenario alone has at least [s]; tenths are usual."""

NOTHING_ASKED = "there is none; name at least one scenario, better two or more."


def one_set(
    catalogue: Catalogue,
    scenarios: Mapping[str, Scenario],
    *,
    budget: Decimal | float | str | None = None,
    weights: Mapping[str, Decimal | float | str] | None = None,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
) -> OneSet:
    """Return the one set of tubes that serves several scenarios best, by two measures.

    One has the greatest mean coverage; the other covers most of the scenario that it covers least
    of, and of those has the greatest mean. Both keep what any scenario demands: what one refuses is
    refused, the strictest floor and the least number of tubes hold, and what must be bought for one
    is bought. What any has at home is at home. Of each scenario they cover what it asks for at
    least, unless no set within the money does, which is told. There is as much of each tube as the
    largest class needs, and paint for all pictures planned of all scenarios.

    Parameters
    ----------
    catalogue, scenarios
        As read; the scenarios, by name, refer to this catalogue.
    budget
        Money for the one set [currency]; by default the largest budget of any scenario.
    weights
        How much scenarios count in the mean, by name, above 0 and at most 100, at most two
        decimals; 1 where nothing is said.
    limits
        Time limit for the proof of each of the two, and in all for what each scenario could have by
        itself; by default 60 s.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere (see `default_cache`).

    Raises
    ------
    InputError
        If the catalogue does not hold what a scenario names, they are in several currencies, or
        budget or weights are not as they must be.
    ClashError
        If the demands cannot all be met.
    LimitError
        If there is too little time or memory for mixing so many tubes.

    Examples
    --------
    >>> from fewtubes import Scenario, default_cache, one_set, read_catalogue
    >>> weeks = {
    ...     name: Scenario(budget=9, currency="EUR", flowers=[name])
    ...     for name in ("primrose", "foxglove")
    ... }
    >>> found = one_set(read_catalogue(), weeks, cache=default_cache())
    >>> found.by_worst.worst >= found.by_mean.worst, found.by_mean.mean >= found.by_worst.mean
    (True, True)
    """
    asking = {name: (catalogue, scenario) for name, scenario in scenarios.items()}
    return one_set_of(
        asking, budget=budget, weights=weights, limits=limits, progress=progress, cache=cache
    )


def one_set_of(
    asking: Asking,
    *,
    budget: Decimal | float | str | None = None,
    weights: Mapping[str, Decimal | float | str] | None = None,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
) -> OneSet:
    """Return the same for scenarios each of which has its own catalogue, of the same tubes."""
    tell, limits, kept = progress or (lambda _stage: None), limits or Limits(), cache_of(cache)
    if not asking:
        raise InputError([Fault("scenarios", NOTHING_ASKED)])
    shares = shares_of(weights or {}, tuple(asking))
    money = sum_of(budget) or max(scenario.budget for _, scenario in asking.values())
    currency = common_currency(asking)
    together = [
        (tables, one)
        for (tables, _), one in zip(
            asking.values(), asked_together(asking, money).values(), strict=True
        )
    ]
    mixed = mixed_together(together, cache=kept, deadline=limits.mixing(), progress=tell)
    caches = {name: held.cache for name, held in zip(asking, mixed, strict=True)}
    for held in mixed:
        if held.error is not None:
            raise held.error
    questions = [
        pose(tables, one, cache=held.cache, progress=_quiet)
        for (tables, one), held in zip(together, mixed, strict=True)
    ]
    least = tuple(one.wishes.least_coverage for _, one in asking.values())
    posed = PosedTogether(tuple(questions), shares, least)
    for question in (*posed.questions, posed.buying):
        refused_must_have(question)
    tell("choosing the one set and proving it")
    joint, exact = posed.joint()
    best = best_by_mean(posed, joint, seconds=limits.seconds, exact=exact)
    by_mean = best.choice
    tell("finding the set that serves worst best")
    above = joint if best.asked is LeastCoverage.KEPT else replace(joint, least=())
    by_worst = fairest(above, seconds=limits.seconds, known=best.equals, most_mean=by_mean.bound)
    own = _own_bests(asking, caches, limits=limits, progress=tell)
    first = posed.questions[0]
    total = sum(joint.base.weights)
    return OneSet(
        scenarios=tuple(
            ServedScenario(
                name=name,
                title=one.title,
                share=share,
                own=own[name],
                least=float(one.wishes.least_coverage),
                painters=None if one.group is None else one.group.painters,
                pictures=0 if one.picture is None else one.picture.pictures,
            )
            for (name, (_, one)), share in zip(asking.items(), shares, strict=True)
        ),
        budget=first.scenario.budget_hundredths,
        currency=currency,
        catalogue_label=first.catalogue.label,
        most_tubes=first.scenario.most_tubes,
        owned=tuple(first.tubes[number] for number in sorted(joint.base.owned)),
        by_mean=posed.told(joint, by_mean),
        by_worst=posed.told(joint, by_worst),
        least_coverage=best.asked if any(least) else LeastCoverage.NOT_ASKED,
        mean_without=None if best.without is None else float(best.without),
        fitted_paints=any(question.fitted_paints for question in posed.questions),
        counted_to=None if exact else total,
    )


def _own_bests(
    asking: Asking,
    caches: Mapping[str, Cache],
    *,
    limits: Limits,
    progress: Callable[[str], None],
) -> dict[str, OwnBest | None]:
    """Return what each scenario could have by itself; None where its demands cannot be met."""
    found: dict[str, OwnBest | None] = {}
    for number, (name, (tables, scenario)) in enumerate(asking.items()):
        progress(f"finding the best of each alone, {number:,} of {len(asking):,} done")
        question = pose(tables, scenario, cache=caches[name], progress=_quiet)
        refused = any(id_ in question.refused for id_ in question.scenario.wishes.must_have)
        seconds = max(limits.seconds / len(asking), LEAST_SECONDS)
        choice = None if refused else search(question.instance, seconds=seconds)
        found[name] = None if choice is None else _own_best(question.instance, choice)
    return found


def _own_best(instance: ChoiceInstance, choice: Choice) -> OwnBest | None:
    """Return the best coverage of one scenario; None if its demands cannot be met."""
    if choice.certificate.status is Status.INFEASIBLE:
        return None
    total, certificate = sum(instance.weights) or 1, choice.certificate
    return OwnBest(
        coverage=certificate.value / total if choice.palettes else None,
        bound=certificate.bound / total,
        proven=certificate.gap == 0,
    )


def _quiet(_stage: str) -> None:
    """Tell nobody."""
