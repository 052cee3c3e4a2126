"""What is known about how good a plan is, in whole sentences.

What may be said of a proof is worded in `fewtubes.words.proof`; here a plan is read for it.
"""

from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.painters import class_limits_words, kind_bought
from fewtubes.scenario.preference import Prefer
from fewtubes.selection.certificate import Certificate, Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.steadiness import Steadiness
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.matches import limit_words
from fewtubes.words.money import money
from fewtubes.words.proof.choice import (
    Standing,
    one_of_each_words,
    purse_words,
    standing_note,
    standing_proof,
    steady_note,
    steady_proof,
)
from fewtubes.words.proof.choice import ties_words as equals_words
from fewtubes.words.recipes import in_mix_words
from fewtubes.words.shares import percent
from fewtubes.words.tubes import FITTED
from fewtubes.words.washes import strength_percent

__all__ = [
    "bound_share",
    "note_words",
    "plan_standing",
    "proof_words",
    "space_words",
    "standing_of",
    "standing_sentence",
    "steady_proof_words",
    "ties_words",
]


def standing_of(certificate: Certificate) -> Standing:
    """Return how far a choice is proven to be the best."""
    if certificate.status is Status.PROVEN:
        return Standing.BEST
    if certificate.status is Status.INFEASIBLE:
        return Standing.IMPOSSIBLE
    return Standing.MOST_COVERED if certificate.gap == 0 else Standing.OPEN


def note_words(plan: Plan) -> str:
    """Return how good the plan is, in a sentence without full stop, for the top of an answer."""
    if plan.steadiness is not None and not plan.steadiness.ranks_best:
        return steady_note(plan.steadiness.given_up, fitted=plan.fitted_paints)
    return standing_note(
        standing_of(plan.certificate), fitted=plan.fitted_paints, nearer=_nearer(plan)
    )


def proof_words(plan: Plan) -> str:
    """Return what the certificate says and what it took, in whole sentences."""
    certificate = plan.certificate
    seconds = max(certificate.seconds, 0.1)
    upper = "" if certificate.seconds >= 0.1 else "less than "
    return (
        f"{standing_sentence(plan)} By {certificate.method} in {upper}{seconds:.1f} s, looking at"
        f" {counted(certificate.nodes, 'branch/branches')}."
    )


def standing_sentence(plan: Plan) -> str:
    """Return what the certificate says, and to what accuracy if importances are not exact."""
    said = standing_proof(
        standing_of(plan.certificate),
        limits=_limits(plan),
        buys=bool(plan.bought),
        coverage=plan.coverage,
        bound=bound_share(plan),
        gap=plan.certificate.gap,
        fading=_fading(plan),
        fitted=plan.fitted_paints,
        nearer=_nearer(plan),
    )
    purse = f" {purse_words()}" if plan.purchase.by_seller and plan.bought else ""
    return f"{said}{purse} {counting_words(plan.counted_to)}".rstrip()


def plan_standing(plan: Plan) -> str:
    """Return what is proven of a plan, in whole sentences; only the best is called so."""
    steadiness = plan.steadiness
    if steadiness is None or steadiness.ranks_best:
        return standing_sentence(plan)
    return steady_proof_words(plan, steadiness)


def steady_proof_words(plan: Plan, steadiness: Steadiness) -> str:
    """Return what the certificate says where the plan is not the best, in whole sentences."""
    compared = f"{_covers_words(steadiness)} and {_costs_words(plan, steadiness)}"
    said = steady_proof(
        bound_share(plan),
        compared=compared,
        fading_first=_fading(plan) is not None,
        fitted=plan.fitted_paints,
        nearer=_nearer(plan),
    )
    return f"{said} {counting_words(plan.counted_to)}".rstrip()


def bound_share(plan: Plan) -> float:
    """Return the coverage that no choice can exceed [0–1]."""
    total = plan.total_weight
    return 1.0 if total == 0 else min(1.0, plan.certificate.bound / total)


def space_words(plan: Plan) -> str:
    """Return which recipes were looked at, in whole sentences."""
    space = plan.scenario.wishes.space
    strengths = space.strengths
    patterns = [
        ":".join(map(str, parts))
        for size, table in space.parts.items()
        for parts in table
        if size > 1 and list(parts) == sorted(parts, reverse=True)
    ]
    washes = "full strength only"
    if len(strengths) > 1:
        washes = f"{len(strengths)} strengths from full to {strength_percent(strengths[-1])}"
    doubles = f" {one_of_each_words()}" if plan.one_of_each_paint else ""
    return (
        f"This holds among {counted(plan.recipe_count, 'recipe')}: bare paper, and"
        f" {in_mix_words(space.most_tubes)}"
        f"{f' in {joined(patterns)} parts, in any order,' if patterns else ''}"
        f" at {washes}; a colour counts as covered"
        f" up to {limit_words(plan.scenario.tolerance)}."
        f"{doubles} {_origin_words(plan)}: try a mix before you rely on it."
    )


def _origin_words(plan: Plan) -> str:
    """Return where the colours of the palette's paints are from."""
    fitted, all_tubes = len(plan.fitted), len(plan.tubes)
    if not fitted:
        return "Paints are computed from profiles, not measured on your paper"
    if fitted == all_tubes:
        return f"Paints are computed from profiles {FITTED}, which are estimates"
    return (
        f"Paints are computed from profiles, {fitted} of {all_tubes} {FITTED}, which are estimates,"
        " the others not measured on your paper"
    )


def ties_words(plan: Plan) -> str:
    """Return how many palettes rank equal, in a sentence."""
    steady = plan.steadiness is not None and plan.steadiness.taken
    return equals_words(
        plan.ties,
        all_known=plan.certificate.status is Status.PROVEN and plan.ties_complete,
        fading_first=_fading(plan) is not None,
        preferred="as the steadier one (see below)"
        if steady
        else "since the nearest mixes of its tubes are off by less on average",
        nearer=_nearer(plan),
    )


def _nearer(plan: Plan) -> bool:
    """Whether how near a choice comes to what is out of reach goes before its price."""
    return plan.scenario.nearer and not all(planned.covered for planned in plan.samples)


def _fading(plan: Plan) -> int | None:
    """Return how many tubes to buy fade; None where the price goes before."""
    if plan.scenario.prefer is Prefer.CHEAPEST:
        return None
    return sum(planned.tube.lightfastness.fades for planned in plan.bought)


def _covers_words(steadiness: Steadiness) -> str:
    """Return what is given up in coverage, e.g. ``covers as much as``."""
    if steadiness.given_up > 0:
        return f"covers {percent(steadiness.given_up)} less than"
    return "covers as much as"


def _costs_words(plan: Plan, steadiness: Steadiness) -> str:
    """Return what is given up in price, e.g. ``costs EUR 1.20 more than``."""
    if steadiness.extra_cost == 0:
        return "costs the same as"
    more = "more" if steadiness.extra_cost > 0 else "less"
    return f"costs {money(abs(steadiness.extra_cost), plan.scenario.currency)} {more} than"


def _limits(plan: Plan) -> str:
    """Return the limits of the choice, e.g. ``EUR 40.00 and 6 tubes``."""
    scenario = plan.scenario
    budget = money(scenario.budget_hundredths, scenario.currency)
    whom = class_limits_words(scenario.group)
    if scenario.most_tubes is None:
        return f"{budget}{whom}"
    kind = kind_bought(scenario.group)
    return f"{budget} and {counted(scenario.most_tubes, kind)}{whom}"
