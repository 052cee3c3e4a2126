"""What an unsteady hand does, in words of our own, held to the tolerance."""

import math

from fewtubes.words.unsteady import steadiness_words


def test_forgiving_means_that_an_unsteady_hand_stays_within_tolerance() -> None:
    assert steadiness_words(4.0, 4.0) == "forgiving"
    assert steadiness_words(4.1, 4.0) == "measure with care"
    assert steadiness_words(6.1, 4.0) == "touchy"
    assert steadiness_words(math.inf, 4.0) == "touchy"
