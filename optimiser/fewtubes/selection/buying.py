"""What a search over an instance with terms knows of buying."""

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Buying"]


@dataclass(frozen=True)
class Buying:
    """The true cost of palettes."""

    cost: Callable[[tuple[int, ...]], int]
    """Of held tubes and those added [hundredths of the currency]."""
    must_serve: bool
    """Whether palettes with a tube that could stay away at no loss are not looked at."""
