"""What is said of a palette"s tubes, and of a palette that buys none."""

from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.proof.claims import NOTHING_TO_BUY
from fewtubes.words.shares import percent

__all__ = ["nothing_words", "use_words"]


def nothing_words(plan: Plan) -> str:
    """Return why nothing is bought, as the end of a sentence."""
    if all(planned.covered for planned in plan.samples):
        bare = ["bare paper"] if any(planned.is_bare_paper for planned in plan.samples) else []
        own = ["your own tubes"] if any(tube.recipes for tube in plan.tubes) else []
        if bare or own:
            return f"{joined([*bare, *own])} {'do' if own else 'does'} for all of it."
    return NOTHING_TO_BUY.worded(proven=plan.certificate.status is Status.PROVEN)


def use_words(tube: PlannedTube) -> str:
    """Return what a tube is good for in the plan, e.g. ``in 3 mixes, alone brings 12 %``."""
    if not tube.recipes:
        return "in no mix of this plan"
    return f"in {counted(tube.recipes, 'mix/mixes')}; {percent(tube.only_it_brings)} hangs on it"
