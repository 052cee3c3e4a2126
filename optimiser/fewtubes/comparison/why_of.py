"""The reasons for a plan that is there already, whichever choice it is of."""

from collections.abc import Callable

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.reasons import Why
from fewtubes.comparison.why import reasons_for
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.errors import Fault, InputError
from fewtubes.selection.instance import Palette
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits

__all__ = ["why_of"]

CHANGED = "holds other tubes, flowers or prices than this answer was found with; ask again."


def why_of(
    catalogue: Catalogue,
    plan: Plan,
    *,
    limits: Limits | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
    puddling: Puddling = Puddling.EACH_FLOWER,
) -> Why:
    """Return the reasons for a plan: the one that ranks first, or one taken for another merit.

    A plan may have been taken for how steadily it mixes, or be what was found when time ran out;
    what would be without a tube may then cover more than the plan.

    Parameters
    ----------
    catalogue, plan
        As read, and what `fewtubes.shopping.shop.shop` answered from it.
    limits
        Time limit; by default 60 s to be shared, and an hour for mixing.
    progress
        Called with a few words whenever a stage begins.
    cache
        Where mixing results are kept from run to run; by default nowhere.
    puddling
        For what puddles of the plan are shared.

    Raises
    ------
    InputError
        If the catalogue does not hold what the plan was made of, or would reach other colours or
        other prices with its tubes.
    LimitError
        If there is too little time or memory for mixing so many tubes.
    """
    limits = limits or Limits()
    mixing = limits.mixing()
    tell = progress or (lambda _stage: None)
    question = pose(
        catalogue,
        plan.scenario,
        cache=cache_of(cache),
        progress=tell,
        deadline=mixing,
        puddling=puddling,
    )
    palette = _palette(question, plan)
    return reasons_for(question, plan, palette, clock=limits.clock(mixing), progress=tell)


def _palette(question: Question, plan: Plan) -> Palette:
    """Return what a plan buys; a fault if it would not be the same answer any more."""
    bought = [question.numbers.get(planned.tube.id) for planned in plan.bought]
    known = [number for number in bought if number is not None]
    changed = InputError([Fault("catalogue", CHANGED)])
    if len(known) < len(bought) or len(plan.samples) != len(question.samples):
        raise changed
    palette = question.instance.palette(known)
    covered = tuple(t for t, planned in enumerate(plan.samples) if planned.covered)
    # Where pictures are planned the price hangs on puddles, whose search has a limit of its own.
    same_price = plan.paint is not None or palette.cost == plan.cost
    if palette.covered != covered or not same_price:
        raise changed
    return palette
