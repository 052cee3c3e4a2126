"""How messages repeat what a painter wrote: nothing in it hidden, and clear where it ends."""

import re
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.quoting import escaped, is_invisible, quoted

SHOWS_NOTHING = re.compile(
    "HANGUL.* FILLER|VARIATION SELECTOR|^INVISIBLE |ZERO WIDTH|WORD JOINER|GRAPHEME JOINER"
    "|BRAILLE PATTERN BLANK|^SOFT HYPHEN|NULL NOTEHEAD|VOWEL INHERENT|^LANGUAGE TAG"
)
"""Names in the Unicode Character Database, as Python holds it, that say so."""

PLANES = (range(0x30000), range(0xE0000, 0xE1000))
"""Where characters with such names are."""


def test_signs_whose_name_says_that_they_show_nothing_are_invisible() -> None:
    found = [
        number
        for plane in PLANES
        for number in plane
        if SHOWS_NOTHING.search(unicodedata.name(chr(number), ""))
    ]
    assert len(found) > 270  # 256 variation selectors and the Mongolian ones among them
    assert [f"{number:04X}" for number in found if not is_invisible(chr(number))] == []


@pytest.mark.parametrize("sign", ["a", "é", "花", "'", "\u0301", "😀", " ", "\u00a0"])
def test_signs_that_show_and_spaces_are_not(sign: str) -> None:
    assert not is_invisible(sign)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("rose, red", "'rose, red'"),
        ("lady's mantle", '"lady\'s mantle"'),
        ('the "old" rose', "'the \"old\" rose'"),
        ('lady\'s "old" rose', "'lady\\'s \"old\" rose'"),
        ("rose\u3164", "'rose\\x3164'"),
        ("ro\u00adse\u2800", "'ro\\xadse\\x2800'"),
    ],
)
def test_a_text_is_quoted(text: str, told: str) -> None:
    assert quoted(text) == told


@given(st.text(max_size=50))
def test_nothing_in_a_quoted_text_is_hidden(text: str) -> None:
    told = quoted(text)
    assert told.isprintable()
    assert not any(map(is_invisible, told))
    assert told[0] == told[-1]
    assert told[0] not in told[1:-1].replace("\\'", "")


@given(st.text())
def test_what_is_escaped_prints_and_encodes(text: str) -> None:
    for shown in (escaped(text), escaped(text, invisible=True)):
        assert shown.isprintable()
        shown.encode("utf-8")
    assert not any(is_invisible(sign) for sign in escaped(text, invisible=True))


def test_signs_are_escaped_by_their_number() -> None:
    assert escaped("a\x1b[31m\udc80\u115f") == "a\\x1b[31m\\xdc80\u115f"
    assert escaped("a\u115f", invisible=True) == "a\\x115f"  # a Hangul filler prints as nothing
