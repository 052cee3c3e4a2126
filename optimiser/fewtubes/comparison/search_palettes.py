"""Palettes with value and price, computed quickly from the bit masks of a search."""

import numpy as np

from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search_state import SearchState

__all__ = ["has_surplus", "palette_of"]


def palette_of(instance: ChoiceInstance, state: SearchState, added: tuple[int, ...]) -> Palette:
    """Return what `ChoiceInstance.palette` returns, without walking through all sets.

    Parameters
    ----------
    state
        A search over this instance.
    added
        Tubes bought besides the must-have ones.
    """
    row = np.array([added], dtype=np.int64).reshape(1, -1)
    cover = state.packed.cover(row)
    bought = tuple(sorted(instance.must_have.union(added)))
    fades = [instance.fades[tube] for tube in bought]
    return Palette(
        bought=bought,
        covered=tuple(np.flatnonzero(state.packed.bits(cover)[0]).tolist()),
        value=int(state.packed.value(cover)[0]),
        cost=sum(instance.prices[tube] for tube in bought),
        worst_fade=max(fades, default=0),
        fade_sum=sum(fades),
        fading=len(instance.fading.intersection(bought)),
    )


def has_surplus(state: SearchState, added: tuple[int, ...], value: int) -> bool:
    """Whether one of the tubes added could be left away at no loss of value."""
    if not added:
        return False
    rest = [added[:place] + added[place + 1 :] for place in range(len(added))]
    rows = np.array(rest, dtype=np.int64).reshape(len(added), -1)
    return bool((state.values(rows) == value).any())
