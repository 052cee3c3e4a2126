"""The checks of single values, and how messages repeat them."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.limits import (
    PRICE,
    REFLECTANCE,
    NumberRange,
    listed,
    parsed_number,
    shown,
    text_fault,
    word_fault,
)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_plain_number_is_read_as_python_reads_it(value: float) -> None:
    assert parsed_number(repr(value)) == value


@pytest.mark.parametrize(
    "text", ["", " 1", "1 ", "nan", "inf", "-inf", "1_000", "0x10", "1,5", "1e", ".", "٣", "1.2.3"]
)
def test_what_is_no_plain_number_is_refused(text: str) -> None:
    assert parsed_number(text) is None


@pytest.mark.parametrize(
    ("allowed", "value", "admitted"),
    [
        (PRICE, 0.0, False),
        (PRICE, 0.01, True),
        (PRICE, 10_000.0, True),
        (PRICE, 10_000.01, False),
        (REFLECTANCE, 0.0, True),
        (REFLECTANCE, -1e-12, False),
        (REFLECTANCE, float("nan"), False),
        (NumberRange(0, float("inf")), float("inf"), False),
    ],
)
def test_a_range_admits_its_ends_unless_it_says_above(
    allowed: NumberRange, value: float, admitted: bool
) -> None:
    assert allowed.admits(value) is admitted


def test_a_range_says_what_it_allows() -> None:
    assert str(PRICE) == "above 0 and at most 10,000"
    assert str(NumberRange(0.05, 1_000_000)) == "from 0.05 to 1,000,000"


@given(st.text(max_size=300))
def test_a_shown_value_prints_on_one_short_line(text: str) -> None:
    repeated = shown(text)
    assert repeated.isprintable()
    assert repeated[0] == repeated[-1]
    assert repeated[0] in "'\""
    # 40 signs, each at most \x and six hexadecimal digits, with quotes and the cut's sign.
    assert len(repeated) <= 40 * 8 + 3


def test_a_long_list_is_cut_after_a_dozen() -> None:
    words = [f"w{number}" for number in range(15)]
    assert listed(words[:2]) == "w0, w1"
    assert listed(words).endswith("w11 and 3 more")
    assert listed(words, 15).endswith("w13, w14")


def test_names_of_more_than_a_word_are_told_apart_by_quotation_marks() -> None:
    assert listed(["rose, red", "rose", "yellow"]) == "'rose, red'; 'rose'; 'yellow'"
    assert listed(["cornflower", "lady's mantle"]) == "'cornflower', \"lady's mantle\""
    assert listed(["semi-opaque", "least_coverage", "Türkenbund"]) == (
        "semi-opaque, least_coverage, Türkenbund"
    )


@given(st.lists(st.text(st.sampled_from("ab, '-"), min_size=1, max_size=5), max_size=5))
def test_a_list_can_be_taken_apart_again(words: list[str]) -> None:
    assert re.findall(r"'[^']*'|\"[^\"]*\"|[\w-]+", listed(words)) == (
        words if all(re.fullmatch(r"[\w-]+", word) for word in words) else [*map(shown, words)]
    )


@pytest.mark.parametrize("text", ["rose", "a b", "Rosé", "non\u00a0breaking", "x" * 200])
def test_ordinary_text_has_no_fault(text: str) -> None:
    assert text_fault(text) is None


@pytest.mark.parametrize("sign", ["\x00", "\x7f", "\u200b", "\u2028", "\u202e", "\n", "\t"])
def test_unprintable_signs_are_faults(sign: str) -> None:
    assert text_fault(f"a{sign}") == (
        f"holds the unprintable character U+{ord(sign):04X} at place 2; remove it"
    )


def test_a_wrong_word_brings_the_list_and_the_nearest() -> None:
    assert word_fault("pettal", ["petal", "leaf"]) == (
        "is 'pettal'; allowed: petal, leaf. Did you mean 'petal'?"
    )
    assert word_fault("leaf", ["petal", "leaf"]) is None


@pytest.mark.parametrize(
    ("value", "told"),
    [
        (20.000000000000004, "is 20.000000000000004; it must be from 0 to 20"),
        (-5e-324, "is -5e-324; it must be from 0 to 20"),
        (-1.0, "is -1; it must be from 0 to 20"),
        (20.5, "is 20.5; it must be from 0 to 20"),
        (1e30, "is 1e+30; it must be from 0 to 20"),
    ],
)
def test_a_number_is_not_rounded_into_the_range_it_misses(value: float, told: str) -> None:
    assert NumberRange(0, 20).fault(value) == told
