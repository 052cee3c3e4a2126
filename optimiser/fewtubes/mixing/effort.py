"""How long mixing takes by the number of tubes, and the refusal if that is more than is allowed.

The number of recipes grows with the cube of the number of tubes and decides nearly alone.
"""

import math

from fewtubes.errors import LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.recipes import MOST_IN_MIX, SIZE_WORDS
from fewtubes.mixing.sets import set_count

__all__ = [
    "MIXING_SECONDS",
    "LongStage",
    "about",
    "expected_seconds",
    "in_time",
    "mixing_stage",
    "refuse_too_many",
    "tubes_within",
]

SETS_PER_SECOND = 30_000
"""Sets of up to three tubes mixed in a second, the slowest that two cores of 2020 were seen at."""

MIXING_SECONDS = 3600.0
"""Time for mixing if nobody says how long [s]: more patience than a question about paint has."""

HOPELESS = 4.0
"""How many times more than is allowed it must be expected to take to be refused at once."""

LONG_SECONDS = 15.0
"""From this on the time expected is told wherever the command runs [s]."""

ADVICE = "Mix fewer tubes, or allow more time (seconds)."

UNITS = ((86_400.0, "day"), (3600.0, "hour"), (60.0, "minute"), (1.0, "second"))


class LongStage(str):
    """The words of a stage that takes long, told even where stages are not shown."""

    __slots__ = ()


def expected_seconds(tube_count: int, most_in_mix: int = MOST_IN_MIX) -> float:
    """Return roughly how long mixing a number of tubes, so many at a time, takes [s]."""
    return _sets(tube_count, most_in_mix) / SETS_PER_SECOND


def tubes_within(seconds: float, most_in_mix: int = MOST_IN_MIX) -> int:
    """Return how many tubes can be mixed in a time [s], roughly, so many at a time."""
    sets = SETS_PER_SECOND * seconds
    root = float((math.factorial(most_in_mix) * sets) ** (1 / most_in_mix))
    count = math.ceil(root) + 1
    while count > 1 and expected_seconds(count, most_in_mix) > seconds:
        count -= 1
    return count


def _sets(tube_count: int, most_in_mix: int) -> int:
    """Return how many sets of up to so many tubes there are."""
    return sum(set_count(tube_count, size) for size in range(1, most_in_mix + 1))


def about(seconds: float) -> str:
    """Return a time [s] in words."""
    for length, word in UNITS:
        if seconds >= length:
            number = round(seconds / length)
            return f"about {number:,} {word}{'' if number == 1 else 's'}"
    return "about 1 second"


def mixing_stage(
    tube_count: int, purpose: str, deadline: Deadline, most_in_mix: int = MOST_IN_MIX
) -> str:
    """Return what is told when mixing begins, with the time that it is expected to take.

    Parameters
    ----------
    purpose
        What is mixed for, such as ``"for 63 colours"``.
    most_in_mix
        Most tubes in a mix.

    Raises
    ------
    LimitError
        If that is hopelessly more than there is.
    """
    refuse_too_many(tube_count, deadline, most_in_mix)
    seconds = expected_seconds(tube_count, most_in_mix)
    words = f"mixing {tube_count:,} tubes {purpose}, {about(seconds)}"
    return LongStage(words) if seconds >= LONG_SECONDS else words


def refuse_too_many(tube_count: int, deadline: Deadline, most_in_mix: int = MOST_IN_MIX) -> None:
    """Raise `LimitError` if the time left is hopelessly short for the number of tubes."""
    seconds = expected_seconds(tube_count, most_in_mix)
    if seconds <= HOPELESS * deadline.left:
        return
    sets = _sets(tube_count, most_in_mix)
    raise LimitError(
        f"{tube_count:,} tubes make {sets:,} sets of up to {SIZE_WORDS[most_in_mix]}."
        f" Mixing them would take {about(seconds)}, but only {deadline.seconds:,.6g} s are allowed."
        f" In that time about {tubes_within(deadline.seconds, most_in_mix):,} tubes can be mixed."
        f" {ADVICE}"
    )


def in_time(tube_count: int, deadline: Deadline, most_in_mix: int = MOST_IN_MIX) -> None:
    """Raise `LimitError` if the time is up."""
    if deadline.left:
        return
    seconds = expected_seconds(tube_count, most_in_mix)
    expected = f"; it is expected to take {about(seconds)}" if seconds > deadline.seconds else ""
    raise LimitError(
        f"Mixing {tube_count:,} tubes was not over within the {deadline.seconds:,.6g} s"
        f" allowed{expected}. {ADVICE}"
    )
