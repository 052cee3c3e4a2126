"""Which one set of tubes serves several scenarios best: on average, and where it serves worst."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.one_set_findings import (
    OneSet,
    OwnBest,
    ServedScenario,
    SetForAll,
)
from fewtubes.comparison.one_set_terms import shares_of, sum_of
from fewtubes.comparison.one_set_wishes import Asking, asked_together, common_currency
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.coverage.weights import whole_weights
from fewtubes.errors import ClashError, Fault, InputError
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.fairest import fairest
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.joint import JointChoice, JointInstance, joined_samples
from fewtubes.selection.search import search
from fewtubes.shopping.clash import clash_message, refused_must_have
from fewtubes.shopping.mixed_together import mixed_together
from fewtubes.shopping.question import Question, pose
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
    is bought. What any has at home is at home. The coverage that a scenario asks for at least is
    not asked of them.

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
    posed = _Posed(tuple(questions), shares)
    for question in posed.questions:
        refused_must_have(question)
    tell("choosing the one set and proving it")
    joint, exact = posed.joint()
    by_mean, ties = _by_mean(posed, joint, seconds=limits.seconds)
    tell("finding the set that serves worst best")
    by_worst = fairest(joint, seconds=limits.seconds, known=ties, most_mean=by_mean.bound)
    own = _own_bests(asking, caches, limits=limits, progress=tell)
    first = posed.questions[0]
    total = sum(joint.base.weights)
    return OneSet(
        scenarios=tuple(
            ServedScenario(name, one.title, share, own[name], float(one.wishes.least_coverage))
            for (name, (_, one)), share in zip(asking.items(), shares, strict=True)
        ),
        budget=first.scenario.budget_hundredths,
        currency=currency,
        catalogue_label=first.catalogue.label,
        most_tubes=first.scenario.most_tubes,
        owned=tuple(first.tubes[number] for number in sorted(joint.base.owned)),
        by_mean=posed.told(joint, by_mean),
        by_worst=posed.told(joint, by_worst),
        for_one_painter=any(
            one.group is not None or one.picture is not None for _, one in asking.values()
        ),
        fitted_paints=any(question.fitted_paints for question in posed.questions),
        counted_to=None if exact else total,
    )


@dataclass(frozen=True, eq=False)
class _Posed:
    """The scenarios, each with what all of them wish, and how much each counts."""

    questions: tuple[Question, ...]
    shares: tuple[Fraction, ...]

    def joint(self) -> tuple[JointInstance, bool]:
        """Return the one choice for all, and whether its mean is counted exactly.

        What is refused for any scenario is refused, and two tubes are one paint if they are so on
        the paper and in the light of every scenario.
        """
        out = frozenset(
            question.numbers[id_] for question in self.questions for id_ in question.refused
        )
        alone = [question.instance_without(out) for question in self.questions]
        sets, weights = joined_samples(
            [tuple(zip(one.weights, one.minimal_sets, strict=True)) for one in alone]
        )
        parts = [Fraction(0)] * len(sets)
        for share, row in zip(self.shares, weights, strict=True):
            total = sum(row)
            parts = [part + share * w / total for part, w in zip(parts, row, strict=True)]
        counted = whole_weights(parts)
        base = replace(
            alone[0],
            minimal_sets=sets,
            weights=counted.counts,
            least_value=0,
            alike=frozenset.intersection(*(one.alike for one in alone)),
            spare=frozenset.intersection(*(one.spare for one in alone)),
        )
        exact = counted.exact and all(question.counted_exactly for question in self.questions)
        return JointInstance(base, weights, self.shares), exact

    def told(self, joint: JointInstance, choice: JointChoice) -> SetForAll:
        """Return a choice with its tubes."""
        palette, first = choice.palette, self.questions[0]
        if palette is None:
            raise ValueError("there is no palette to tell")
        # What any scenario refuses is not bought to reach a sum either.
        refused = {id_: why for one in self.questions for id_, why in one.refused.items()}
        first = replace(first, refused=refused)
        return SetForAll(
            tubes=tuple(first.tubes[number] for number in palette.bought),
            purchase=first.purchase(palette.bought),
            cost=palette.cost,
            coverages=choice.coverages,
            mean=joint.mean(choice.coverages),
            bound=float(choice.bound),
            proven=choice.proven,
            settled=choice.proven or choice.bound <= choice.aim,
            seconds=choice.seconds,
        )


def _by_mean(
    posed: _Posed, joint: JointInstance, *, seconds: float
) -> tuple[JointChoice, tuple[Palette, ...]]:
    """Return the palette of the greatest mean, of equals that of the best worst; and all equals.

    Raises
    ------
    ClashError
        If the demands cannot all be met.
    """
    choice = search(joint.base, seconds=seconds)
    if not choice.palettes:
        raise ClashError(clash_message(posed.questions[0], choice, seconds=seconds))
    covered = [joint.of(palette) for palette in choice.palettes]
    place = max(range(len(covered)), key=lambda number: (min(covered[number]), -number))
    certificate = choice.certificate
    mean = joint.mean(covered[place])
    settled = certificate.gap == 0
    bound = Fraction(certificate.bound, sum(joint.base.weights) or 1)
    return (
        JointChoice(
            palette=choice.palettes[place],
            coverages=covered[place],
            bound=mean if settled else max(mean, bound),
            proven=certificate.status is Status.PROVEN,
            infeasible=False,
            nodes=certificate.nodes,
            seconds=certificate.seconds,
            aim=mean,
        ),
        choice.palettes,
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
    if not choice.palettes:
        return None
    total, certificate = sum(instance.weights) or 1, choice.certificate
    return OwnBest(
        coverage=certificate.value / total,
        bound=certificate.bound / total,
        proven=certificate.gap == 0,
    )


def _quiet(_stage: str) -> None:
    """Tell nobody."""
