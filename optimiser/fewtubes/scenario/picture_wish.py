"""What a picture is like for which paint is reckoned: how many, how large, how much dries unused.

How paint follows from it, `fewtubes.shopping.paint_use` says. All figures taken where nothing is
said are our own choice for small pictures on a table (common practice, no source).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector, settle_numbers
from fewtubes.catalogue.limits import NumberRange

__all__ = ["AREA_CM2", "PICTURE_NUMBERS", "PictureWish", "settle_area"]

AREA_CM2 = NumberRange(0, 100_000, above=True)
"""Painted area of a flower or colour [cm²]; up to ten square metres, a mural."""

PICTURE_NUMBERS: Mapping[str, NumberRange] = MappingProxyType(
    {
        "pictures": NumberRange(1, 10_000),
        "waste": NumberRange(0, 10),
        "least_puddle_cm2": NumberRange(0, 10_000),
        "flower_cm2": AREA_CM2,
        "colour_cm2": AREA_CM2,
    }
)
"""What each figure under ``[picture]`` may be, by its key."""


@dataclass(frozen=True)
class PictureWish:
    """Pictures planned, in each of which all flowers and own colours of a scenario stand once.

    Parameters
    ----------
    pictures
        How many are planned, 1 to 10,000.
    waste
        What is mixed beyond what is painted, as a share of it: 0.5 = half as much again dries on
        the palette or is rinsed out; 0 to 10.
    least_puddle_cm2
        What the smallest puddle would paint in its strongest wash [cm²], 0 to 10,000; nobody
        mixes less, however small the spot.
    flower_cm2
        Painted area of a flower, leaves included, where it has none of its own [cm²].
    colour_cm2
        Painted area of a colour of one's own, likewise [cm²].

    Raises
    ------
    InputError
        With every figure that is out of bounds.

    Examples
    --------
    >>> PictureWish(pictures=12).waste
    0.5
    """

    pictures: int = 1
    waste: float = defaults.WASTE
    least_puddle_cm2: float = defaults.LEAST_PUDDLE_CM2
    flower_cm2: float = defaults.FLOWER_CM2
    colour_cm2: float = defaults.COLOUR_CM2

    def __post_init__(self) -> None:
        settle_numbers(self, PICTURE_NUMBERS, whole=("pictures",))


def settle_area(holder: object, collector: FaultCollector) -> None:
    """Settle the field `area_cm2` of a value, which may be frozen; None is allowed."""
    settle_numbers(holder, {"area_cm2": AREA_CM2}, optional=("area_cm2",), collector=collector)
