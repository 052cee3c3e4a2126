"""All palettes that are equal in what is counted before the price.

Equal are those that cover as much with as few tubes, of which as few fade where that is counted
before the price (`ChoiceInstance.fading`). Whoever weighs such palettes by something else than the
price needs every one of them.
"""

from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["MOST_EQUALS", "equals_of"]

MOST_EQUALS = 2000
"""Palettes listed at most; with more the list says that it does not hold all."""


def equals_of(
    instance: ChoiceInstance, best: Palette, *, state: SearchState, most: int = MOST_EQUALS
) -> tuple[tuple[Palette, ...], bool]:
    """Return the palettes equal to a best one in value, tubes and fading tubes, whatever they cost.

    Parameters
    ----------
    instance
        The instance.
    best
        A palette of it that is proven best in these three figures.
    state
        The instance made ready; its deadline says until when.
    most
        Palettes listed at most.

    Returns
    -------
    The palettes by tube numbers, `best` among them, and whether these are all.

    Notes
    -----
    None of them holds a tube that it could do without, must-have ones excepted, or fewer tubes
    would do; so the search, which leaves such palettes out, leaves out none.
    """
    found = {best.bought: best}
    goal = Goal(
        best.value,
        len(best.bought) - len(instance.must_have),
        instance.budget,
        fading=best.fading,
    )
    overflow = False

    def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
        nonlocal overflow
        palette = instance.palette(instance.must_have.union(added))
        if len(found) < most or palette.bought in found:
            found[palette.bought] = palette
        else:
            overflow = True
            goal.slots = -1  # more are not listed

    end = explore(state, goal, visit)
    return tuple(found[bought] for bought in sorted(found)), end.complete and not overflow
