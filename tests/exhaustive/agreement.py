"""Whether the program's answer to a drawn question is the one found by trying everything."""

from tests.exhaustive.oracle import Answer, Prices, answer_by_trying_all

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Method, Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import Limits, shop

__all__ = ["disagreements"]

SECONDS = 120.0
"""Far more than any of these questions takes."""


def disagreements(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    method: Method,
    cache: Cache,
    prices: Prices | None = None,
) -> list[str]:
    """Return what the program says that is not so, in words; empty if all is well."""
    true = answer_by_trying_all(catalogue, scenario, prices)
    limits = Limits(seconds=SECONDS, method=method)
    try:
        plan = shop(catalogue, scenario, limits=limits, cache=cache)
    except ClashError as error:
        return [f"refused, though {true.best} would do: {error}"] if true.best else []
    if not true.best:
        return [f"bought {_bought(plan)}, though the demands cannot be met"]
    return [*_faults_of_choice(plan, true), *_faults_of_samples(plan, true, scenario)]


def _bought(plan: Plan) -> frozenset[str]:
    """Return the ids of the tubes bought."""
    return frozenset(planned.tube.id for planned in plan.bought)


def _faults_of_choice(plan: Plan, true: Answer) -> list[str]:
    """Return what is wrong with the tubes bought and what is claimed of them."""
    faults = []
    if plan.certificate.status is not Status.PROVEN:
        faults.append(f"not proven: {plan.certificate}")
    if _bought(plan) not in true.best:
        faults.append(f"bought {set(_bought(plan))}, not one of {[set(b) for b in true.best]}")
    if plan.coverage != float(true.coverage):
        faults.append(f"coverage {plan.coverage}, not {true.coverage} = {float(true.coverage)}")
    if plan.cost != true.cost:
        faults.append(f"cost {plan.cost}, not {true.cost}")
    if plan.purchase.cost != plan.cost:
        faults.append(f"what is bought costs {plan.purchase.cost}, not {plan.cost}")
    if plan.ties_complete and plan.ties != len(true.best):
        faults.append(f"{plan.ties} palettes rank equal, not {len(true.best)}")
    return faults


def _faults_of_samples(plan: Plan, true: Answer, scenario: Scenario) -> list[str]:
    """Return what is wrong with the colours covered, their recipes, and what would bring others."""
    faults: list[str] = []
    held = frozenset(planned.tube.id for planned in plan.tubes)
    covers = true.covered.get(_bought(plan))
    if covers is None:
        return faults
    made = {weak for strong, weak in true.made if strong in held}
    for planned, covered, sets in zip(plan.samples, covers, true.sets, strict=True):
        name = f"{planned.sample.flower} / {planned.sample.name}"
        if planned.covered != covered:
            faults.append(f"{name}: covered {planned.covered}")
        if (planned.match <= scenario.tolerance) != covered:
            faults.append(f"{name}: match {planned.match}")
        told = {remedy.tube.id for remedy in planned.remedies}
        if not covered and told != (would := _single_remedies(sets, held, made)):
            faults.append(f"{name}: {told} are told to bring it, {would} would")
        two = frozenset(remedy.tube.id for remedy in planned.together)
        pairs = set() if covered or told else {r - held for r in sets if len(r - held) == 2}
        doubled = {frozenset(pair) for pair in true.made}
        pairs = {pair for pair in pairs if pair not in doubled and not pair & made}
        if two not in (pairs or {frozenset()}):
            faults.append(f"{name}: {set(two)} are told to bring it together, {pairs} would")
    return faults


def _single_remedies(
    sets: frozenset[frozenset[str]], held: frozenset[str], made: set[str]
) -> set[str]:
    """Return the tubes each of which reaches a colour together with those held.

    None that water makes of those.
    """
    return {next(iter(tubes - held)) for tubes in sets if len(tubes - held) == 1} - made
