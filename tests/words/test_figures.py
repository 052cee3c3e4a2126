"""Numbers in words.

The wordings are our own; the tests hold them to order and to the numbers they come with.
"""

import math

import pytest

from fewtubes.mixing.recipes import STRENGTHS, Recipe
from fewtubes.words.figures import (
    amount,
    counted,
    difference,
    in_a_row,
    joined,
    match_words,
    money,
    percent,
    recipe_words,
    steadiness_words,
    strength_words,
)


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


def test_match_words_change_at_the_stated_cut_offs() -> None:
    at = [match_words(limit) for limit in (1.0, 2.0, 4.0, 7.0, 12.0)]
    above = [match_words(limit + 0.06) for limit in (1.0, 2.0, 4.0, 7.0, 12.0)]
    assert above[:-1] == at[1:]
    assert len({*at, *above}) == 6
    assert match_words(math.inf) == above[-1]
    assert match_words(2.04) == match_words(2.06)  # printed as 2.04, not as 2.0


def test_forgiving_means_that_an_unsteady_hand_stays_within_tolerance() -> None:
    assert steadiness_words(4.0, 4.0) == "forgiving"
    assert steadiness_words(4.1, 4.0) == "measure with care"
    assert steadiness_words(6.1, 4.0) == "touchy"
    assert steadiness_words(math.inf, 4.0) == "touchy"


@pytest.mark.parametrize(
    ("price", "text"),
    [(0, "0.00"), (5, "0.05"), (1250, "12.50"), (10**15 + 1, "10000000000000.01")],
)
def test_amounts_are_exact(price: int, text: str) -> None:
    assert amount(price) == text
    assert money(price, "EUR") == f"EUR {text}"


def test_a_debt_keeps_its_sign() -> None:
    assert amount(-105) == "-1.05"


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (0.0, "0 %"),
        (1.0, "100 %"),
        (0.875, "87.5 %"),
        (1e-6, "under 0.1 %"),
        (1 - 1e-6, "over 99.9 %"),
    ],
)
def test_none_and_all_are_said_of_none_and_all_only(share: float, text: str) -> None:
    assert percent(share) == text


def test_singular_and_plural() -> None:
    assert counted(1, "tube") == "1 tube"
    assert counted(0, "mix/mixes") == "0 mixes"
    assert counted(1, "mix/mixes") == "1 mix"
    assert counted(1200, "tube") == "1,200 tubes"


def test_lists_in_a_sentence() -> None:
    assert joined([]) == ""
    assert joined(["a"]) == "a"
    assert joined(["a", "b", "c"], "or") == "a, b or c"
    assert joined(["pink, pale", "blue"]) == "pink, pale; and blue"


def test_bare_lists() -> None:
    assert in_a_row([]) == ""
    assert in_a_row(["a", "b", "c"]) == "a, b, c"
    assert in_a_row(["pink, pale", "blue"]) == "pink, pale; blue"


def test_recipes_name_parts_tubes_and_wash() -> None:
    names = {"m": "magenta", "g": "gold"}
    mixed = recipe_words(Recipe(("m", "g"), (2, 1), 0.5), names)
    assert mixed == "2 parts magenta : 1 part gold; half-strength wash (50 %)"
    alone = recipe_words(Recipe(("m",), (1,), 1.0), names)
    assert alone == "magenta alone; full strength (100 %)"


def test_a_difference_without_value_says_so() -> None:
    assert difference(6.12) == "ΔE00 6.1"
    assert difference(math.inf) == "ΔE00 unknown"
