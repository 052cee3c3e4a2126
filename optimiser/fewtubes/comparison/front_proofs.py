"""What is proven of fronts of coverage and cost, and for which others it holds as well."""

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Empty", "levels"]


def levels(barred: Sequence[frozenset[int]]) -> list[list[int]]:
    """Return the sets' numbers, those first of which no other set is a proper part.

    What is proven for a set holds for every larger one.
    """
    depth: dict[int, int] = {}
    for number in sorted(range(len(barred)), key=lambda number: len(barred[number])):
        parts = [depth[other] for other in depth if barred[other] < barred[number]]
        depth[number] = 1 + max(parts, default=-1)
    return [
        [number for number in depth if depth[number] == level]
        for level in range(max(depth.values(), default=-1) + 1)
    ]


@dataclass(frozen=True)
class Empty:
    """Proof that no palette without the barred tubes has this value at this price or less."""

    barred: frozenset[int]
    value: int
    money: int
    box: frozenset[int] | None
    """The owned tubes that are in use, where others would change costs; None where not."""

    def holds_for(
        self, barred: frozenset[int], value: int, money: int, box: frozenset[int]
    ) -> bool:
        """Whether it says as much of other tubes barred, a value, a price and tubes in use."""
        stricter = self.barred <= barred and self.box in (None, box)
        return stricter and self.value <= value and money <= self.money
