"""Strengths in words: the wordings are our own, held to order and to the numbers beside them."""

import pytest

from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.words.washes import strength_words


def test_every_strength_has_words_of_its_own() -> None:
    words = [strength_words(strength) for strength in STRENGTHS]
    assert len({text.split(" (")[0] for text in words}) == len(STRENGTHS)


@pytest.mark.parametrize(
    ("strength", "words"),
    [
        (1.0, "full strength (100 %)"),
        (0.5, "half-strength wash (50 %)"),
        (0.25, "quarter-strength wash (25 %)"),
        (2**-5.5, "very pale wash (2.2 %)"),  # 100 / 45.25 = 2.21
    ],
)
def test_strength_is_told_in_words_and_per_cent(strength: float, words: str) -> None:
    assert strength_words(strength) == words
