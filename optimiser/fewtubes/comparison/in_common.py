"""What palettes have in common, and which tube can stand in another's place."""

from collections.abc import Sequence
from dataclasses import dataclass

from fewtubes.selection.instance import Palette

__all__ = ["Exchange", "exchanges", "one_of_each", "shared_tubes"]

MOST_IN_GROUP = 6
"""Tubes in a group of which one is always bought; more are no choice a painter can survey."""


@dataclass(frozen=True)
class Exchange:
    """One tube of a palette given up for another, all other tubes kept.

    Parameters
    ----------
    given_up, taken
        Tube numbers.
    palette
        What comes of it; one of the palettes listed.
    """

    given_up: int
    taken: int
    palette: Palette


def shared_tubes(palettes: Sequence[Palette]) -> frozenset[int]:
    """Return the tubes bought in every palette; none if there is no palette."""
    if not palettes:
        return frozenset()
    return frozenset.intersection(*(frozenset(palette.bought) for palette in palettes))


def exchanges(own: Palette, palettes: Sequence[Palette]) -> tuple[Exchange, ...]:
    """Return the palettes that differ from one's own in one tube alone, in their order."""
    found = []
    for palette in palettes:
        given_up = set(own.bought) - set(palette.bought)
        taken = set(palette.bought) - set(own.bought)
        if len(given_up) == len(taken) == 1:
            found.append(Exchange(given_up.pop(), taken.pop(), palette))
    return tuple(found)


def one_of_each(palettes: Sequence[Palette]) -> tuple[frozenset[int], ...]:
    """Return groups of two to six tubes of which every palette holds exactly one.

    The groups have no tube in common; where a tube might stand in several, the group with the
    fewest tubes comes first, then the one with the lowest tube numbers.
    """
    holders = {
        tube: frozenset(row for row, palette in enumerate(palettes) if tube in palette.bought)
        for tube in sorted({tube for palette in palettes for tube in palette.bought})
    }
    everywhere = frozenset(range(len(palettes)))
    open_to_choice = {tube: rows for tube, rows in holders.items() if rows != everywhere}
    groups = sorted(
        _exact_covers(open_to_choice, everywhere, MOST_IN_GROUP),
        key=lambda group: (len(group), sorted(group)),
    )
    chosen: list[frozenset[int]] = []
    for group in groups:
        if all(group.isdisjoint(other) for other in chosen):
            chosen.append(group)
    return tuple(chosen)


def _exact_covers(
    holders: dict[int, frozenset[int]], left: frozenset[int], most: int
) -> list[frozenset[int]]:
    """Return the sets of at most `most` tubes of which each palette left holds exactly one."""
    if not left:
        return [frozenset()]
    if not most:
        return []
    first = min(left)
    found = []
    for tube, rows in holders.items():
        if first in rows and rows <= left:
            found += [rest | {tube} for rest in _exact_covers(holders, left - rows, most - 1)]
    return found
