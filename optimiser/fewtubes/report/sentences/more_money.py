"""What a little more than the budget would buy, in words."""

from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.proof.claims import LEAST_MONEY
from fewtubes.words.shares import percents_apart

__all__ = ["more_money_words"]


def more_money_words(plan: Plan) -> str:
    """Return what a little more money buys, in a sentence; empty if nothing is known to be had."""
    steps = plan.more_money
    if not steps:
        return ""
    before = (plan.coverage, *(step.coverage for step in steps))
    told = [_told(step, less, plan) for step, less in zip(steps, before, strict=False)]
    return f"Beyond the budget, {joined(told)}."


def _told(step: MoreMoney, less: float, plan: Plan) -> str:
    """Return one step; what it covers is told apart from what less money covers."""
    covered = percents_apart(less, step.coverage)[1]
    beyond = money(step.beyond, plan.scenario.currency)
    doubt = LEAST_MONEY.worded(proven=step.proven)
    return f"{beyond} more covers {covered} with {counted(len(step.tubes), 'tube')}{doubt}"
