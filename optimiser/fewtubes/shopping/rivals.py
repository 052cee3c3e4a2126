"""The palettes among which the steadiest is sought: the equal best, and those close behind."""

from dataclasses import dataclass

from fewtubes.selection.certificate import Status
from fewtubes.selection.explore import explore
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal
from fewtubes.shopping.choose import Chosen
from fewtubes.shopping.question import Question

__all__ = ["MOST_WEIGHED", "Rivals", "rivals_of"]

MOST_WEIGHED = 20
"""Palettes compared at most, those that rank first."""


@dataclass(frozen=True)
class Rivals:
    """Palettes by rank, the chosen one first."""

    palettes: tuple[Palette, ...]
    complete: bool
    """Whether no palette that was sought is missing."""


def rivals_of(question: Question, chosen: Chosen, *, within: float, seconds: float) -> Rivals:
    """Return the chosen palette and those that nearly rank with it.

    Parameters
    ----------
    question, chosen
        The choice, solved.
    within
        Coverage that may be given up [0–1].
    seconds
        Time for the search.

    Notes
    -----
    Sought are the palettes within the budget, with no more tubes to buy than the chosen one, that
    cover at most `within` less; none with a tube that brings nothing. At 0, and where the choice is
    not proven, only the equal best are taken.
    """
    choice = chosen.choice
    if within <= 0 or choice.certificate.status is not Status.PROVEN:
        return _first(chosen, choice.palettes, complete=choice.complete)
    kept = {palette.bought: palette for palette in choice.palettes}
    complete = _search_near(question, chosen, kept, within=within, seconds=seconds)
    return _first(chosen, tuple(kept.values()), complete=complete)


def _first(chosen: Chosen, palettes: tuple[Palette, ...], *, complete: bool) -> Rivals:
    """Return the chosen palette, then the first of the others by rank."""
    others = sorted(
        (palette for palette in palettes if palette.bought != chosen.palette.bought),
        key=lambda palette: (palette.rank, palette.bought),
    )[: MOST_WEIGHED - 1]
    few_enough = len(palettes) <= MOST_WEIGHED
    return Rivals((chosen.palette, *others), complete and few_enough)


def _search_near(
    question: Question,
    chosen: Chosen,
    kept: dict[tuple[int, ...], Palette],
    *,
    within: float,
    seconds: float,
) -> bool:
    """Add the nearest palettes to `kept`, one more than are weighed; return if all were seen."""
    instance, best = question.instance, chosen.palette
    least = best.value - question.weight_within(within)
    goal = Goal(
        value=max(1, instance.least_value, least),
        slots=len(best.bought) - len(instance.must_have),
        money=instance.budget,
    )

    def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
        palette = instance.palette(instance.must_have.union(added))
        kept[palette.bought] = palette
        while len(kept) > MOST_WEIGHED + 1:
            del kept[max(kept.values(), key=lambda known: (known.rank, known.bought)).bought]
        if len(kept) > MOST_WEIGHED:
            last = max(kept.values(), key=lambda known: known.rank)
            goal.value = max(goal.value, last.value)
            if (last.value, len(last.bought)) == (best.value, len(best.bought)):
                goal.fading = last.fading
                if last.fading == best.fading:
                    goal.money = min(goal.money, last.cost)

    return explore(start_search(instance, seconds=seconds), goal, visit).complete
