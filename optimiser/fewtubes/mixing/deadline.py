"""A deadline, until which work may go on."""

import math
import time
from dataclasses import dataclass, field

__all__ = ["Deadline"]


@dataclass(frozen=True)
class Deadline:
    """So many seconds from when it is made; endless if nothing is said."""

    seconds: float = math.inf
    """Allowed in all [s]."""
    began: float = field(default_factory=time.monotonic)
    """Reading of the monotonic clock [s]."""

    @property
    def left(self) -> float:
        """Time left [s], never below 0."""
        return max(0.0, self.seconds - (time.monotonic() - self.began))
