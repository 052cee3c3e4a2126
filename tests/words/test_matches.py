"""Matches in words: the wordings are our own, held to their stated cut-offs."""

import math

from fewtubes.words.matches import difference, match_words


def test_match_words_change_at_the_stated_cut_offs() -> None:
    at = [match_words(limit) for limit in (1.0, 2.0, 4.0, 7.0, 12.0)]
    above = [match_words(limit + 0.06) for limit in (1.0, 2.0, 4.0, 7.0, 12.0)]
    assert above[:-1] == at[1:]
    assert len({*at, *above}) == 6
    assert match_words(math.inf) == above[-1]
    assert match_words(2.04) == match_words(2.06)  # printed as 2.04, not as 2.0


def test_a_difference_without_value_says_so() -> None:
    assert difference(6.12) == "ΔE00 6.1"
    assert difference(math.inf) == "ΔE00 unknown"
