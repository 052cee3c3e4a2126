"""What is said of a tube of the box at home: how full it is, and when it has to be bought again."""

from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.shopping.running_low import short_of
from fewtubes.words.amounts import millilitres
from fewtubes.words.left import NEARLY_EMPTY, left_words
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable

__all__ = ["at_home_words", "low_words"]


ADVICE = "mark it as a tube that must be bought (must_have) to have it in all three"


def at_home_words(planned: PlannedTube, plan: Plan) -> str:
    """Return how full an owned tube is, e.g. ``half full``; blank if that is not known."""
    if planned.left is None:
        return ""
    filled = left_words(planned.left)
    if not planned.runs_low:
        return filled
    if _lacks(planned, plan):
        taken = plan.paint.planned_ml(planned.tube.id) if plan.paint else 0.0
        filled = f"{filled}, maybe less than the {millilitres(taken)} that the pictures take"
    elif planned.left > NEARLY_EMPTY:
        filled = f"{filled}, maybe less than the {plan.scenario.wishes.millilitres:g} ml wished"
    if planned.again is None:
        return f"{filled}, and not sold in {plan.scenario.currency}"
    price = money(planned.again, plan.scenario.currency)
    return f"{filled}: to be bought again soon, from {price}"


def low_words(plan: Plan) -> str:
    """Return which owned tubes in use run low and what that leaves open; blank if none does."""
    low = [planned for planned in plan.tubes if planned.runs_low]
    if not low:
        return ""
    names = joined([_again(planned, plan.scenario.currency) for planned in low])
    guessed = any(planned.left is not None and planned.left > NEARLY_EMPTY for planned in low)
    size = " A tube at home is taken for the smallest pack sold." if guessed else ""
    sold = any(planned.again is not None for planned in low)
    advice = f"; {ADVICE}" if sold else ""
    return (
        f"Running low at home, to be bought again soon: {names}. {_used(plan)}, and buying"
        f" it again is in neither the total nor the budget nor the proof{advice}.{size}"
    )


def _lacks(planned: PlannedTube, plan: Plan) -> bool:
    """Return whether a tube at home may hold less than the pictures planned take."""
    if plan.paint is None or planned.left is None:
        return False
    taken = plan.paint.planned_ml(planned.tube.id)
    return short_of(planned.tube, planned.left, taken)


def _used(plan: Plan) -> str:
    """Return how a tube that runs low is used, as the beginning of a sentence."""
    if plan.paint is not None:
        return "What runs low is used like a full tube"
    return "How much paint a mix takes is not reckoned, so what runs low is used like a full tube"


def _again(planned: PlannedTube, currency: str) -> str:
    """Return a tube with what it costs anew."""
    price = "" if planned.again is None else f", from {money(planned.again, currency)}"
    return f"{printable(planned.tube.name)}{price or f', not sold in {currency}'}"
