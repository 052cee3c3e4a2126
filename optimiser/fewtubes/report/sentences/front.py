"""What is said of coverage against cost, and of what floors cost."""

from dataclasses import dataclass

from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.floors import CostOfFloor, Floor, FloorFront, cost_of_floor
from fewtubes.comparison.front_steps import Front, FrontStep
from fewtubes.report.sentences.asked import floor_words
from fewtubes.report.sentences.painters import kind_bought
from fewtubes.scenario.preference import Prefer
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_MOST, DOUBT, MOST_AT_ALL, NO_GAIN
from fewtubes.words.proof.comparison import never_words, no_cost_words
from fewtubes.words.shares import percent, percents_apart

__all__ = [
    "FloorGroup",
    "floor_groups",
    "floor_sentence",
    "found_since",
    "milestone_words",
    "milestones",
    "most_words",
]

MILESTONES = (0.25, 0.5, 0.75, 0.9, 0.95, 1.0)
"""Coverages whose price is told in words."""


def milestone_words(comparison: Comparison) -> str:
    """Return the price of round coverages, and how much can be reached at all."""
    currency = comparison.question.scenario.currency
    steps = comparison.floors[0].front.steps
    gaining = [step for step in steps if step.palette.cost > 0 and step.palette.value > 0]
    said = [
        f"{percent(comparison.share(step.palette.value))} for"
        f" {AT_MOST.worded(proven=step.proven)}{money(step.palette.cost, currency)}"
        for step in milestones(comparison) or gaining[-1:]
    ]
    nothing = NO_GAIN.worded(proven=steps[-1].sure_up_to_next)
    words = f"For example: {joined(said)}." if said else nothing
    most = most_words(comparison)
    return f"{words} {most}" if most else words


def found_since(plan: Plan, comparison: Comparison) -> str:
    """Return what was found to be better than a plan whose search was stopped; or ``""``."""
    steadier = plan.steadiness is not None and not plan.steadiness.ranks_best
    if plan.certificate.status is not Status.STOPPED or steadier or not comparison.sizes:
        return ""
    best = min((size.palette for size in comparison.sizes), key=lambda palette: palette.rank)
    fading = 0
    if plan.scenario.prefer is Prefer.LASTING:
        fading = sum(planned.tube.lightfastness.fades for planned in plan.bought)
    ours = (-plan.certificate.value, len(plan.bought), fading, plan.cost)
    figures = 3 if plan.scenario.nearer else 4
    if best.rank[:figures] >= ours[:figures]:
        return ""
    tubes = joined([printable(comparison.question.tubes[n].name) for n in best.bought])
    covers = percents_apart(comparison.share(best.value), plan.coverage)[0]
    price = money(best.cost, plan.scenario.currency)
    return (
        "The search for the plan was stopped by its limit, and comparing has since found a better"
        f" choice: {tubes} cover {covers} for {price}. With more time that, or a still better one,"
        " would be the plan."
    )


def milestones(comparison: Comparison) -> list[FrontStep]:
    """Return the cheapest steps that reach round coverages, those that cost nothing left out."""
    front = comparison.floors[0].front
    reached = [front.reaching(int(-(-share * comparison.total // 1))) for share in MILESTONES]
    return list(dict.fromkeys(step for step in reached if step and step.palette.cost > 0))


def most_words(comparison: Comparison) -> str:
    """Return the most that any money can buy, if that is not everything, in a sentence."""
    last = comparison.floors[0].front.steps[-1]
    if last.palette.value >= comparison.total:
        return ""
    scenario = comparison.question.scenario
    most = scenario.most_tubes
    limit = "" if most is None else f" with at most {counted(most, kind_bought(scenario.group))}"
    known = MOST_AT_ALL.worded(proven=last.sure_up_to_next)
    covered = percent(comparison.share(last.palette.value))
    return f"{known}{covered} is the most that any money can buy{limit}."


@dataclass(frozen=True)
class FloorGroup:
    """What floors cost that cost the same."""

    head: str
    """A sentence for a floor alone; of several what they cost, up to the colon."""
    floors: tuple[str, ...] = ()
    """The floors, where there are several."""


def floor_groups(comparison: Comparison) -> list[FloorGroup]:
    """Return what each floor costs; those that cost the same stand together."""
    subjects: dict[str, list[str]] = {}
    for kept in comparison.floors[1:]:
        floor, _, price = floor_sentence(comparison, kept).partition(": ")
        subjects.setdefault(price, []).append(floor)
    return [
        FloorGroup(f"{floors[0]}: {price}")
        if len(floors) == 1
        else FloorGroup(
            f"{price[0].upper()}{price[1:].removesuffix('.')}:",
            tuple(f"{floor[0].lower()}{floor[1:]}" for floor in floors),
        )
        for price, floors in subjects.items()
    ]


def floor_sentence(comparison: Comparison, kept: FloorFront) -> str:
    """Return what a floor costs within the budget, and what winning the loss back would."""
    head = _floor_words(kept.floor)
    if kept.in_the_way:
        names = joined([printable(tube.name) for tube in kept.in_the_way])
        return f"{head}: cannot be had, because the must-have {names} will not do."
    aside = joined([printable(tube.name) for tube in kept.set_aside])
    if aside:
        head = f"{head} (your {aside} left in the box)"
    free = comparison.floors[0].front
    budget = comparison.question.scenario.budget_hundredths
    price = cost_of_floor(free, kept.front, budget)
    best, best_kept = free.within(budget), kept.front.within(budget)
    if price is None or price.lost is None or best is None or best_kept is None:
        return f"{head}: nothing can be bought within the budget."
    if best.palette.value == 0:
        return f"{head}: nothing is gained within the budget, with or without."
    return f"{head}: {_cost_words(comparison, kept.front, price, best, best_kept)}"


def _cost_words(
    comparison: Comparison, kept: Front, price: CostOfFloor, best: FrontStep, best_kept: FrontStep
) -> str:
    """Return what a floor costs, in words, without its subject."""
    currency = comparison.question.scenario.currency
    whole = comparison.share(best.palette.value)
    covered = percent(whole)
    if price.lost == 0 and price.extra == 0:
        proven = price.lost_proven and price.extra_proven
        return f"{no_cost_words(covered, proven=proven)}."
    lost = "loses nothing within the budget"
    if price.lost:
        still, covered = percents_apart(comparison.share(best_kept.palette.value), whole)
        lost = (
            f"loses {percent(comparison.share(price.lost))} within the budget, covering {still}"
            f" instead of {covered}"
        )
    lost += DOUBT.worded(proven=price.lost_proven)
    if price.extra is None:
        most, covered = percents_apart(comparison.share(kept.steps[-1].palette.value), whole)
        return f"{lost}; {never_words(covered, most, proven=price.extra_proven)}."
    dear = kept.reaching(best.palette.value)
    unproven = DOUBT.worded(proven=price.extra_proven)
    full = "" if dear is None else f", {money(dear.palette.cost, currency)} in all"
    if price.extra <= 0:
        return f"{lost}; {covered} costs no more than without{full}{unproven}."
    return f"{lost}; {covered} costs {money(price.extra, currency)} more{full}{unproven}."


def _floor_words(floor: Floor | None) -> str:
    """Return a floor as the subject of a sentence."""
    if floor is None:
        return "The wishes alone"
    words = floor_words(floor)
    throughout = " throughout" if isinstance(floor, Lightfastness) else ""
    return f"{words[0].upper()}{words[1:]}{throughout}"
