"""Why a colour stays out of reach, and which single further tube would bring it."""

from collections.abc import Sequence

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.coverage.reach import NO_TUBE, SetArray
from fewtubes.shopping.plan_parts import Obstacle, Remedy
from fewtubes.shopping.question import Question
from fewtubes.shopping.refusals import Refusal

__all__ = ["obstacle", "remedies", "remedy_of"]


def obstacle(question: Question, sample: int) -> Obstacle:
    """Return what keeps a sample, by number, out of reach of every palette that can be bought."""
    instance = question.instance
    reaching = instance.minimal_sets[sample]
    if any(not instance.doubles_in(set(tubes) - instance.owned) for tubes in reaching):
        return Obstacle.BUDGET
    if reaching:
        return Obstacle.ONE_PAINT
    sets = question.sets[sample]
    if not len(sets):
        return _larger_mix(question, sample)
    return _tubes_missing(question, sets)


def _larger_mix(question: Question, sample: int) -> Obstacle:
    """Return the obstacle of what no mix as small as is wished reaches."""
    sets = question.larger_mixes.get(sample)
    if sets is None:
        return Obstacle.CATALOGUE
    refused = [question.catalogue.tubes[id_] for id_ in question.refused]
    if _any_without(sets, refused, question):
        return Obstacle.SMALL_MIXES
    return _tubes_missing(question, sets)


def _tubes_missing(question: Question, sets: SetArray) -> Obstacle:
    """Return why none of the sets that reach a sample can be had, shape (sets, 3)."""
    owned = question.scenario.wishes.all_owned
    others = [tube for tube in question.tubes if tube.id not in owned]
    unsold = [tube for tube in others if not question.is_sold(tube)]
    if _any_without(sets, unsold, question):
        return Obstacle.WISHES
    scarce = [tube for tube in unsold if question.refused.get(tube.id) is Refusal.TOO_LITTLE]
    rest = [tube for tube in unsold if tube not in scarce]
    if scarce and _any_without(sets, rest, question):
        return Obstacle.STOCK
    if _any_without(sets, [tube for tube in others if not tube.offers], question):
        return Obstacle.CURRENCY
    return Obstacle.NOT_FOR_SALE


def _any_without(sets: SetArray, tubes: Sequence[Tube], question: Question) -> bool:
    """Return whether any set holds none of the tubes."""
    numbers = [question.numbers[tube.id] for tube in tubes]
    return bool((~np.isin(sets, numbers).any(axis=1)).any())


def remedies(question: Question, sample: int, palette: frozenset[int]) -> tuple[Remedy, ...]:
    """Return the single tubes that would bring a sample within reach, allowed and cheap first.

    None that water makes of a tube of the palette: what it alone brings comes of the parts listed.

    Parameters
    ----------
    palette
        Numbers of the tubes bought and owned.
    """
    made = question.made_by_water(palette)
    owned = question.scenario.wishes.all_owned  # those set aside included: they cost nothing
    additions = [
        question.tubes[number]
        for number in _single_additions(question.sets[sample], palette)
        if number not in made
    ]
    sold = [tube for tube in additions if tube.id in owned or question.is_sold(tube)]
    if question.scenario.picture is not None:  # all at once takes less time than one by one
        further = [question.numbers[tube.id] for tube in sold if tube.id not in owned]
        question.paint.sets.prepare(sorted({*palette, number}) for number in further)
    found = [remedy_of(question, tube, palette) for tube in sold]
    return tuple(sorted(found, key=lambda r: (not r.allowed, r.cost, r.tube.id)))


def remedy_of(question: Question, tube: Tube, beside: frozenset[int]) -> Remedy:
    """Return a tube to add to others, by number; one that is owned costs nothing."""
    owned = tube.id in question.scenario.wishes.all_owned
    cost = 0 if owned else question.cost_beside(tube, beside)
    return Remedy(tube, cost, tube.id not in question.refused, in_set=not owned and not cost)


def _single_additions(sets: SetArray, palette: frozenset[int]) -> list[int]:
    """Return the tubes that complete a set together with tubes of the palette."""
    missing = (sets != NO_TUBE) & ~np.isin(sets, list(palette))
    one = missing.sum(axis=1) == 1
    return sorted(set(sets[one][missing[one]].tolist()))
