"""The best of each size, none behind what was found elsewhere where it is not proven."""

from collections.abc import Iterable
from dataclasses import replace

from fewtubes.comparison.by_size import BestOfSize, BySize
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.model import meets_demands

__all__ = ["caught_up"]


def caught_up(instance: ChoiceInstance, by_size: BySize, found: Iterable[frozenset[int]]) -> BySize:
    """Return the best of each size, those that are not proven no worse than what was found.

    Parameters
    ----------
    instance
        The choice; its least value is disregarded.
    by_size
        What is known of each size.
    found
        Tubes bought in palettes found elsewhere, by number: under stricter rules, or for less
        money. Those that do not meet the demands are passed over.
    """
    free = replace(instance, least_value=0)
    open_ = [best for best in by_size.each if not best.proven]
    tried = sorted({tubes | free.must_have for tubes in found}, key=sorted)
    hopeful = [tubes for tubes in tried if any(_may_lead(free, tubes, best) for best in open_)]
    allowed = [palette for palette in map(free.palette, hopeful) if meets_demands(free, palette)]
    each = tuple(_no_worse(best, allowed) for best in by_size.each)
    return replace(by_size, each=each)


def _may_lead(instance: ChoiceInstance, tubes: frozenset[int], best: BestOfSize) -> bool:
    """Whether tubes may rank before the best of a size; what they cost takes longer to tell."""
    if len(tubes) > best.size:
        return False
    first = best.palettes[0]
    figures = (-instance.value(tubes), len(tubes), len(instance.fading & tubes))
    return figures <= first.rank[: len(figures)]


def _no_worse(best: BestOfSize, palettes: Iterable[Palette]) -> BestOfSize:
    """Return the best of a size, or of as few tubes whatever ranks before it."""
    small = [palette for palette in palettes if len(palette.bought) <= best.size]
    leader = min([best.palettes[0], *small], key=lambda palette: palette.rank)
    if best.proven or leader == best.palettes[0]:
        return best
    bound = max(best.bound, leader.value)
    return replace(best, palettes=(leader,), complete=False, bound=bound)
