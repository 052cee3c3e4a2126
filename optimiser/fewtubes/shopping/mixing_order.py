"""In which order puddles are mixed, so that the brush stays clean: light before dark.

What is pale is what is painted, not what is in the puddle: a rose thinned for the lightest petal
goes before the green of a leaf. Common practice, no source: what a pale mix leaves in the brush
does not spoil a dark one, but the other way round it does. A puddle that holds an earlier one and
one tube besides is made from what is left of that.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fewtubes.mixing.reached import Mix
from fewtubes.mixing.recipes import PARTS
from fewtubes.shopping.puddles import Addition

__all__ = ["Placed", "added_to", "in_order"]

MOST_PARTS = max(sum(parts) for table in PARTS.values() for parts in table)
"""Parts of a puddle and a tube together that are worth telling: no recipe has more to measure, and
what would be drowned in five times as much of a tube is sooner mixed anew."""


@dataclass(frozen=True)
class Placed:
    """A mix in its place."""

    mix: Mix
    addition: Addition | None


def in_order(palest: Mapping[Mix, float]) -> tuple[Placed, ...]:
    """Return mixes in the order of mixing, each with what it is made from.

    Parameters
    ----------
    palest
        CIELAB L* of the palest colour that is painted with each mix [0–100].
    """
    mixes = sorted(palest, key=lambda mix: (-palest[mix], len(mix[0]), mix))
    return tuple(Placed(mix, _addition(mix, mixes[:place])) for place, mix in enumerate(mixes))


def _addition(mix: Mix, earlier: Sequence[Mix]) -> Addition | None:
    """Return how a mix is made from one of the earlier ones; the latest that will do."""
    for number in range(len(earlier), 0, -1):
        added = added_to(earlier[number - 1], mix)
        if added is not None:
            puddle_parts, tube, tube_parts = added
            return Addition(number, puddle_parts, tube, tube_parts)
    return None


def added_to(first: Mix, second: Mix) -> tuple[int, str, int] | None:
    """Return parts of the first mix, a tube and its parts that make the second; None if none do.

    None either if they are more than `MOST_PARTS` together.

    A mix of 1 : 1 becomes one of 1 : 1 : 2 by adding 2 parts of the third tube to 2 parts of it,
    and one of 1 : 3 by adding 2 parts of the second tube to 2 parts of it.

    Examples
    --------
    >>> added_to((("gold",), (1,)), (("gold", "rose"), (3, 1)))
    (3, 'rose', 1)
    >>> added_to((("gold", "rose"), (1, 1)), (("gold", "rose"), (1, 3)))
    (1, 'rose', 1)
    """
    before, after = (dict(zip(*mix, strict=True)) for mix in (first, second))
    if not set(before) <= set(after):
        return None
    scale = min(Fraction(after[tube], parts) for tube, parts in before.items())
    rest = {tube: after[tube] - scale * before.get(tube, 0) for tube in after}
    added = {tube: parts for tube, parts in rest.items() if parts}
    if len(added) != 1:
        return None
    ((tube, parts),) = added.items()
    ratio = scale * sum(before.values()) / parts
    if ratio.numerator + ratio.denominator > MOST_PARTS:
        return None
    return ratio.numerator, tube, ratio.denominator
