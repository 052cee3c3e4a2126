"""Time that is for the whole answer is shared; time for the proof alone is not."""

import time

import pytest

from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import MIXING_SECONDS
from fewtubes.shopping.clock import LEAST, Clock
from fewtubes.shopping.shop import Limits


def test_without_a_whole_every_question_has_its_share() -> None:
    assert Clock(60.0, None).share(0.1, of_left=0.01) == pytest.approx(6.0)


def test_of_a_whole_a_question_takes_no_more_than_is_left() -> None:
    half_gone = Clock(60.0, Deadline(60.0, began=time.monotonic() - 30))
    assert half_gone.share(1.0, of_left=0.5) == pytest.approx(15, abs=0.5)
    assert half_gone.share(0.1, of_left=0.5) == pytest.approx(6.0)
    assert Clock(60.0, Deadline(60.0, began=time.monotonic() - 90)).share(1.0, of_left=1) == LEAST


def test_limits_count_mixing_only_if_they_are_for_the_whole() -> None:
    apart = Limits(seconds=10)
    assert apart.mixing().seconds == MIXING_SECONDS
    assert apart.clock(apart.mixing()).whole is None
    whole = Limits(seconds=10, whole=True, kept=0.4)
    mixing = whole.mixing()
    assert mixing.seconds == 10
    left = whole.clock(mixing).whole
    assert left is not None
    assert left.seconds == pytest.approx(6, abs=0.5)
