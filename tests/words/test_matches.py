"""Matches in words: the wordings are our own, held to their stated cut-offs."""

import math

from fewtubes.words.matches import bare_figure, difference, match_words


def test_match_words_change_at_the_stated_cut_offs() -> None:
    at = [match_words(limit) for limit in (1.0, 2.0, 4.0, 7.0, 12.0)]
    above = [match_words(limit + 0.06) for limit in (1.0, 2.0, 4.0, 7.0, 12.0)]
    assert above[:-1] == at[1:]
    assert len({*at, *above}) == 6
    assert match_words(math.inf) == above[-1]
    assert match_words(2.04) == match_words(2.06)  # printed as 2.04, not as 2.0


def test_a_figure_without_a_word_minds_the_tolerance_alone() -> None:
    assert bare_figure(2.04, 4.0) == "2.0"
    assert bare_figure(4.04, 4.0) == "4.04"
    assert bare_figure(3.96, 4.0) == "4.0"


def test_a_difference_without_value_says_so() -> None:
    assert difference(6.12) == "ΔE00 6.1"
    assert difference(math.inf) == "ΔE00 unknown"
