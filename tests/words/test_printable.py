"""Text from outside is safe to print."""

from hypothesis import given
from hypothesis import strategies as st

from fewtubes.words.printable import printable


@given(st.text())
def test_whatever_comes_out_prints_on_one_line_and_encodes(text: str) -> None:
    shown = printable(text)
    assert shown.isprintable()
    shown.encode("utf-8")


def test_plain_text_is_left_alone() -> None:
    assert printable("sweet pea, “pink” ΔE é 粉") == "sweet pea, “pink” ΔE é 粉"


def test_control_characters_are_told_by_number() -> None:
    assert printable("a\x1b[31mb") == "a\\x1b[31mb"
    assert printable("\udc80") == "\\xdc80"
    assert printable("a\r\nb\tc") == "a  b c"


def test_long_text_is_cut_to_measure() -> None:
    assert printable("x" * 10_000) == "x" * 199 + "…"
    assert printable("x" * 200) == "x" * 200
