"""What is assumed about the painting of swatches."""

from dataclasses import dataclass

from fewtubes import defaults
from fewtubes.catalogue.collector import settle_numbers
from fewtubes.catalogue.limits import SEEDS, NumberRange

__all__ = ["FitSettings"]

HAND = NumberRange(0, 1, above=True)
"""Standard deviation of ln(true ÷ meant strength)."""


@dataclass(frozen=True)
class FitSettings:
    """What is assumed about the painting of swatches.

    Parameters
    ----------
    hand
        Standard deviation of ln(true ÷ meant strength) of a swatch, above 0 and at most 1.
    seed
        Of the draws of likely paints, 0 to 1,000,000,000.

    Raises
    ------
    InputError
        If a number is out of bounds.
    """

    hand: float = defaults.SWATCH_HAND
    seed: int = defaults.SEED

    def __post_init__(self) -> None:
        settle_numbers(self, {"hand": HAND, "seed": SEEDS}, whole=("seed",))
