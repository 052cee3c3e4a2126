"""What is left of the budget, and what a little more than it would buy, in words."""

from fewtubes.report.sentences.painters import kind_bought
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import LEAST_MONEY
from fewtubes.words.shares import percents_apart

__all__ = ["left_words", "more_money_words"]

MOST_NAMED = 2
"""Tubes named where none are bought yet; of more, their number is told."""


def left_words(plan: Plan) -> str:
    """Return what is left of the budget, as a clause, e.g. ``EUR 1.00 of the budget is left``."""
    left = plan.scenario.budget_hundredths - plan.cost
    if not left:
        return "nothing of the budget is left"
    return f"{money(left, plan.scenario.currency)} of the budget is left"


def more_money_words(plan: Plan) -> str:
    """Return what a little more money buys, in a sentence; empty if nothing is known to be had."""
    steps = plan.more_money
    if not steps:
        return ""
    before = (plan.coverage, *(step.coverage for step in steps))
    told = [_told(step, less, plan) for step, less in zip(steps, before, strict=False)]
    return f"{'; '.join(told)}."


def _told(step: MoreMoney, less: float, plan: Plan) -> str:
    """Return one step; what it covers is told apart from what less money covers.

    What it is a head is rounded up, so that the class has it together.
    """
    covered = percents_apart(less, step.coverage)[1]
    beyond = money(step.beyond, plan.scenario.currency)
    doubt = LEAST_MONEY.worded(proven=step.proven)
    group = plan.scenario.group
    if group is not None:
        a_head = money(-(-step.beyond // group.painters), plan.scenario.currency)
        return f"{beyond} more ({a_head} a head) covers {covered}, {_with_words(step, plan)}{doubt}"
    return f"{beyond} more covers {covered}, {_with_words(step, plan)}{doubt}"


def _with_words(step: MoreMoney, plan: Plan) -> str:
    """Return the tubes of a step as they stand to those of the plan: it may hold others."""
    bought = {planned.tube.id for planned in plan.bought}
    others = [tube for tube in step.tubes if tube.id not in bought]
    count = counted(len(step.tubes), kind_bought(plan.scenario.group))
    if not bought:
        names = [printable(tube.name) for tube in others]
        return f"with {count}: {joined(names)}" if len(names) <= MOST_NAMED else f"with {count}"
    kept = len(step.tubes) - len(others)
    if kept == len(bought):
        return f"with these and {joined([printable(tube.name) for tube in others])}"
    if len(step.tubes) == 1:
        return f"with {count}, none of these"
    if len(others) == 1:
        return f"with {count}, one of them another"
    return f"with {count}, {len(others) if kept else 'all'} of them others than these"
