"""What is known about how good the answer is, in the terminal.

The word "best" is only used of an answer whose certificate says that it is proven.
"""

from rich.console import Console

from fewtubes.mixing.recipes import PARTS, RecipeSpace
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.terminal.layout import heading, paragraph
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.matches import limit_words
from fewtubes.words.money import money
from fewtubes.words.shares import percent, percents_apart

__all__ = [
    "bound_share",
    "print_proof",
    "proof_words",
    "space_words",
    "standing_sentence",
    "ties_words",
]


def print_proof(plan: Plan, console: Console) -> None:
    """Print whether the answer is proven, in which space, and how many palettes rank equal."""
    heading(console, "How sure that is")
    for words in (proof_words(plan), space_words(plan), ties_words(plan)):
        paragraph(console, words)


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
    return f"{_standing(plan)} {counting_words(plan.counted_to)}".rstrip()


def _standing(plan: Plan) -> str:
    certificate = plan.certificate
    if certificate.status is Status.PROVEN:
        return (
            f"Proven best: no choice within {_limits(plan)} covers more; none that covers as much"
            " takes fewer tubes, or as few for less money."
        )
    if certificate.status is Status.INFEASIBLE:
        return f"Proven impossible: no choice within {_limits(plan)} meets the demands."
    if certificate.gap == 0:
        return (
            f"Only half proven: no choice within {_limits(plan)} covers more, but the search was"
            " stopped before fewer tubes or less money for as much were ruled out."
        )
    covers, bound = percents_apart(plan.coverage, bound_share(plan))
    return (
        f"Not proven: the search was stopped by a limit of time or effort before all choices were"
        f" ruled out. This one covers {covers}; no choice within {_limits(plan)} covers more than"
        f" {bound} (gap {percent(certificate.gap)})."
    )


def bound_share(plan: Plan) -> float:
    """Return the coverage that no choice can exceed [0–1]."""
    total = plan.total_weight
    return 1.0 if total == 0 else min(1.0, plan.certificate.bound / total)


def space_words(plan: Plan) -> str:
    """Return which recipes were looked at, in whole sentences."""
    strengths = RecipeSpace.no_thinner_than(plan.scenario.wishes.thinnest_wash).strengths
    patterns = [
        ":".join(map(str, parts))
        for size in sorted(PARTS)
        for parts in PARTS[size]
        if size > 1 and list(parts) == sorted(parts, reverse=True)
    ]
    washes = "full strength only"
    if len(strengths) > 1:
        washes = (
            f"{len(strengths)} strengths from full to {float(f'{100 * strengths[-1]:.2g}'):g} %"
        )
    return (
        f"That is said of {counted(plan.recipe_count, 'recipe')}: bare paper, and up to three tubes"
        f" in {joined(patterns)} parts, in any order, at {washes}; a colour counts as covered up to"
        f" {limit_words(plan.scenario.tolerance)}. Paints are computed from profiles, not measured"
        " on your paper: try a mix before you rely on it."
    )


def ties_words(plan: Plan) -> str:
    """Return how many palettes rank equal, in a sentence."""
    equal = "in coverage, number of tubes, price and lightfastness"
    all_known = plan.certificate.status is Status.PROVEN and plan.ties_complete
    if plan.ties > 1:
        return (
            f"{'' if all_known else 'At least '}{plan.ties:,} palettes rank equal {equal}, this one"
            " included; it was preferred for its smaller mean difference."
        )
    return (
        f"No other palette ranks equal {equal}."
        if all_known
        else (f"Whether other palettes rank equal {equal} is not known.")
    )


def _limits(plan: Plan) -> str:
    """Return the limits of the choice, e.g. ``EUR 40.00 and 6 tubes``."""
    scenario = plan.scenario
    budget = money(scenario.budget_hundredths, scenario.currency)
    if scenario.most_tubes is None:
        return budget
    return f"{budget} and {counted(scenario.most_tubes, 'tube')}"
