"""Numbers keep their units beside them; nothing else of a text changes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.words.amounts import millilitres
from fewtubes.words.money import money
from fewtubes.words.shares import percent, points
from fewtubes.words.unparted import FIXED_BLANK, unparted
from fewtubes.words.washes import strength_words


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("covers 95.2 % now", "covers 95.2_% now"),
        ("for EUR 0.10 more", "for EUR_0.10 more"),
        ("12 × 5 ml", "12_×_5_ml"),
        ("off by ΔE00 4.0, seen", "off by ΔE00_4.0, seen"),
        ("0.4 points", "0.4_points"),
        ("no wider than 70 cm² a picture", "no wider than 70_cm² a picture"),
        ("12 tubes and 5 millilitres", "12 tubes and 5 millilitres"),
        ("ΔE00 of all", "ΔE00 of all"),
        ("the EURO 5 and an OLD 7", "the EURO 5 and an OLD_7"),
    ],
)
def test_a_number_is_kept_with_what_it_is_a_number_of(text: str, kept: str) -> None:
    assert unparted(text, "_") == kept


def test_whatever_the_program_says_of_amounts_is_kept_together() -> None:
    """The words of shares, money, paint and washes have no blank left but between words."""
    for text in (percent(0.952), money(1089, "EUR"), millilitres(2.5, 5.0), points(0.004)):
        assert " " not in unparted(text).removeprefix("about ")
    assert unparted(strength_words(0.5)) == f"half-strength wash (50{FIXED_BLANK}%)"


@given(st.text())
def test_nothing_but_blanks_is_changed(text: str) -> None:
    assert unparted(text, " ") == text
    assert len(unparted(text)) == len(text)
