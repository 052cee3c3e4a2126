"""Strengths in words: the wordings are our own, held to order and to the numbers beside them."""

from math import log, prod

import pytest

from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.words.washes import strength_name, strength_words, thinnings, water_words


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


def thinned(strength: float) -> float:
    """Return the share of paint in a wash made as its brushfuls say: paint ÷ all, each time."""
    return prod(paint / (paint + water) for paint, water in thinnings(strength))


@pytest.mark.parametrize("strength", STRENGTHS)
def test_brushfuls_of_water_make_the_strength_that_is_told_elsewhere(strength: float) -> None:
    """Rounded to whole brushfuls each stays the nearest to its own strength, within 6 %."""
    made = thinned(strength)
    assert made == pytest.approx(strength, rel=0.06)
    assert min(STRENGTHS, key=lambda other: abs(log(made / other))) == strength


def test_nobody_counts_more_than_ten_brushfuls() -> None:
    for strength in STRENGTHS:
        assert all(water <= 10 for _, water in thinnings(strength))
        assert all(paint <= 2 for paint, _ in thinnings(strength))


@pytest.mark.parametrize(
    ("strength", "name", "water"),
    [
        (1.0, "full strength", "no water"),
        (2**-0.5, "strong wash", "2 + 1 water"),  # 2 ÷ 3 = 67 %, for 71 %
        (2**-3.5, "lighter wash", "1 + 10 water"),  # 1 ÷ 11 = 9.1 %, for 8.8 %
        (2**-4, "thin wash", "1 + 3 water, twice"),  # 1 ÷ 4 ÷ 4 = 6.25 %
        (2**-5.5, "very pale wash", "1 + 5 water, then 1 + 7"),  # 1 ÷ 6 ÷ 8 = 2.1 %, for 2.2 %
    ],
)
def test_water_is_told_in_whole_brushfuls(strength: float, name: str, water: str) -> None:
    assert (strength_name(strength), water_words(strength)) == (name, water)
