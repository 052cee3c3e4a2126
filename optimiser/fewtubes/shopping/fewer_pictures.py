"""For how many pictures the money would do, where so many as are planned cost coverage."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from fewtubes.selection.certificate import Certificate, Status
from fewtubes.selection.instance import Palette
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.selection.solve import solve
from fewtubes.selection.terms import Terms
from fewtubes.shopping.paint_plan import FewerPictures
from fewtubes.shopping.question import Question

__all__ = ["fewer_pictures", "most_within"]

MOST_TRIED = 20
"""Palettes of equal rank that are tried; more are seldom, and one that does is enough."""


def fewer_pictures(
    question: Question, palette: Palette, certificate: Certificate, *, seconds: float
) -> FewerPictures | None:
    """Return what would be covered if any pack did, and for how many pictures that can be had.

    None where no pictures are planned, where they cost no coverage, or where there was no time to
    find out, be it what all of them cost.

    Parameters
    ----------
    question, palette, certificate
        The question, what is bought for all pictures planned, and what is proven of it.
    seconds
        Time for the choice without pictures [s].
    """
    picture = question.scenario.picture
    if picture is None or certificate.value != certificate.bound:
        return None
    # A class would plan its pictures again; what it needs whatever is painted, the question keeps.
    plain = replace(question, scenario=replace(question.scenario, picture=None, group=None))
    choice = solve(plain.instance, seconds=seconds, state=plain.search_state)
    if choice.certificate.status is not Status.PROVEN or not choice.palettes:
        return None
    best = choice.palettes[0]
    if best.value <= palette.value or question.terms is None:
        return None
    terms = question.terms

    most = max(
        most_within(partial(_is_bought, question, terms, one), picture.pictures)
        for one in choice.palettes[:MOST_TRIED]
    )
    return FewerPictures(best.value / sum(question.instance.weights), most)


def most_within(does: Callable[[int], bool], planned: int) -> int:
    """Return the largest number below `planned` that does, 0 if none; fewer always do as well.

    Examples
    --------
    >>> most_within(lambda pictures: pictures <= 7, 20), most_within(lambda pictures: False, 20)
    (7, 0)
    """
    least, beyond = 0, planned
    while beyond - least > 1:
        middle = (least + beyond) // 2
        if does(middle):
            least = middle
        else:
            beyond = middle
    return least


def _is_bought(question: Question, terms: Terms, palette: Palette, pictures: int) -> bool:
    """Return whether the budget buys enough paint of a palette for so many pictures."""
    needs_of = partial(question.paint.needs, pictures=pictures)
    asked = replace(terms, needs_of=needs_of, least_paint=None)
    cost = cheapest_cost(asked, palette.bought)
    return cost is not None and cost <= question.instance.budget
