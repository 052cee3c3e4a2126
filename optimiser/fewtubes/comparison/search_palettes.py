"""Palettes with value and price, computed quickly from the bit masks of a search."""

import numpy as np

from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search_state import SearchState

__all__ = ["palette_of"]


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
        cost=instance.cost(bought),
        worst_fade=max(fades, default=0),
        fade_sum=sum(fades),
        fading=len(instance.fading.intersection(bought)),
    )
