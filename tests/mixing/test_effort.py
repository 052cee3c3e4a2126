"""What is said about time before and when it runs out."""

import math
import time

import pytest

from fewtubes.errors import LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import (
    LongStage,
    about,
    expected_seconds,
    in_time,
    mixing_stage,
    refuse_too_many,
    tubes_within,
)


def test_a_deadline_counts_down_to_nothing() -> None:
    assert Deadline().left == math.inf
    assert 9 < Deadline(10).left <= 10
    assert Deadline(1, began=time.monotonic() - 2).left == 0


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (0.2, "about 1 second"),
        (14.6, "about 15 seconds"),
        (60, "about 1 minute"),
        (700, "about 12 minutes"),
        (7300, "about 2 hours"),
        (700_000, "about 8 days"),
    ],
)
def test_times_in_words(seconds: float, words: str) -> None:
    assert about(seconds) == words


def test_time_grows_with_the_cube_of_the_tubes() -> None:
    assert expected_seconds(480) / expected_seconds(240) == pytest.approx(8, rel=0.03)


@pytest.mark.parametrize("seconds", [0.01, 1.0, 60.0, 3600.0, 86_400.0])
def test_so_many_tubes_and_no_more_fit_into_a_time(seconds: float) -> None:
    count = tubes_within(seconds)
    assert expected_seconds(count) <= seconds < expected_seconds(count + 1)


def test_a_stage_that_takes_long_is_marked() -> None:
    assert not isinstance(mixing_stage(72, "for 8 colours", Deadline()), LongStage)
    stage = mixing_stage(240, "for 63 colours", Deadline())
    assert isinstance(stage, LongStage)
    assert stage == "mixing 240 tubes for 63 colours, about 1 minute"


def test_hopelessly_many_are_refused_before_anything_is_mixed() -> None:
    """C(5000, 3) + C(5000, 2) + 5000 = 20,820,835,000 + 12,497,500 + 5,000 sets."""
    with pytest.raises(LimitError) as told:
        refuse_too_many(5000, Deadline(3600))
    message = str(told.value)
    assert "5,000 tubes make 20,833,337,500 sets" in message
    assert "only 3,600 s are allowed" in message
    assert f"about {tubes_within(3600):,} tubes can be mixed" in message
    refuse_too_many(5000, Deadline())
    refuse_too_many(240, Deadline(60))


@pytest.mark.parametrize("most", [1, 2, 3])
def test_mixes_of_fewer_tubes_take_less_time(most: int) -> None:
    """Sets of 240 tubes: 240, with C(240, 2) = 28,680, with C(240, 3) = 2,275,280; 30,000 a s."""
    sets = {1: 240, 2: 28_920, 3: 2_304_200}[most]
    assert expected_seconds(240, most) == pytest.approx(sets / 30_000)
    count = tubes_within(2.0, most)
    assert expected_seconds(count, most) <= 2.0 < expected_seconds(count + 1, most)


def test_of_what_size_sets_are_is_told() -> None:
    with pytest.raises(LimitError, match="12,502,500 sets of up to two"):
        refuse_too_many(5000, Deadline(1), 2)
    refuse_too_many(5000, Deadline(3600), 2)


def test_time_that_is_up_is_told() -> None:
    in_time(240, Deadline(10))
    with pytest.raises(LimitError, match=r"240 tubes was not over within the 10 s allowed; it is"):
        in_time(240, Deadline(10, began=time.monotonic() - 11))
    with pytest.raises(LimitError, match=r"within the 100 s allowed\. Mix fewer tubes"):
        in_time(240, Deadline(100, began=time.monotonic() - 101))
