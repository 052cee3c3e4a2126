"""How full a tube is, in words; the words and shares are our own."""

import pytest

from fewtubes.words.left import LEFT, NEARLY_EMPTY, left_word, left_words


@pytest.mark.parametrize(
    ("left", "words"),
    [
        (1.0, "full"),
        (0.5, "half full"),
        (0.25, "a quarter full"),
        (0.1, "nearly empty"),
        (0.05, "nearly empty, 5 % left"),
        (0.0, "empty"),
        (0.6, "60 % full"),
        (0.9999, "over 99.9 % full"),
        (1e-9, "nearly empty, under 0.1 % left"),
    ],
)
def test_words(left: float, words: str) -> None:
    assert left_words(left) == words


def test_a_word_of_a_file_and_its_share_are_each_other() -> None:
    assert [left_word(share) for share in LEFT.values()] == list(LEFT)
    assert left_word(0.3) is None
    assert LEFT["nearly empty"] == NEARLY_EMPTY
