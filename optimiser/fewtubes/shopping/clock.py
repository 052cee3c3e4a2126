"""How the time for an answer is shared among the questions that make it up."""

from dataclasses import dataclass

from fewtubes.mixing.deadline import Deadline

__all__ = ["Clock"]

LEAST = 0.05
"""Time that every question gets, however late it is [s]: enough to say something sensible."""


@dataclass(frozen=True)
class Clock:
    """A time that may hold for the whole answer, started when it is made.

    Parameters
    ----------
    seconds
        Time to be shared [s].
    whole
        Until when all of it must be over, mixing included; None if mixing comes on top and the
        questions need not wait for each other's time.
    """

    seconds: float
    whole: Deadline | None

    def share(self, share: float, *, of_left: float) -> float:
        """Return the time for a question [s].

        Parameters
        ----------
        share
            Of the time for all [0–1].
        of_left
            Share of the time still left that it may take at most [0–1], if it is for the whole.
        """
        asked = share * self.seconds
        if self.whole is None:
            return asked
        return max(LEAST, min(asked, of_left * self.whole.left))
