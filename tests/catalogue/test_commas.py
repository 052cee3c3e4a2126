"""A number with a decimal comma or grouped thousands is told as it has to be written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.commas import comma_hint, decimal_sign, with_point


@pytest.mark.parametrize(
    ("text", "expected"),  # by hand
    [
        ("12.50", "12.50"),
        ("12,50", "12.50"),
        (" 12,50 ", "12.50"),
        ("-0,5", "-0.5"),
        ("1.234,50", "1234.50"),
        ("1,234.50", "1234.50"),
        ("1'234.50", "1234.50"),
        ("1 234,5", "1234.5"),
        ("12.345.678,90", "12345678.90"),
        ("1.234", "1.234"),  # a decimal point for all anybody can tell
        ("1.234.567", None),  # no decimals, so that nothing tells thousands from a slip
        ("1.23,50", None),
        ("1.234.50", None),
        ("rose", None),
        ("", None),
        ("1" * 41, None),
    ],
)
def test_as_it_has_to_be_written(text: str, expected: str | None) -> None:
    assert with_point(text) == expected


@given(st.integers(0, 10**9), st.integers(0, 99), st.sampled_from([(",", "."), (".", ",")]))
def test_grouped_thousands_come_back(whole: int, cents: int, signs: tuple[str, str]) -> None:
    """Python's own grouping of thousands is the outside source."""
    group, point = signs
    typed = f"{whole:,}".replace(",", group) + f"{point}{cents:02}"
    assert with_point(typed) == f"{whole}.{cents:02}"


@pytest.mark.parametrize(
    ("text", "sign"),  # by hand
    [
        ("12.50", "."),
        (" 12,50 ", ","),
        ("1.234,50", ","),
        ("1,234.50", "."),
        ("1 234,5", ","),
        ("12", None),
        ("rose", None),
        ("a,b", None),
        ("1.23,50", None),
    ],
)
def test_the_sign_before_decimals(text: str, sign: str | None) -> None:
    assert decimal_sign(text) == sign


def test_only_a_decimal_comma_is_hinted_at() -> None:
    assert comma_hint("12.50") == ""
    assert comma_hint("1,234.50") == ""
    assert comma_hint("1.234,50") == "; decimals take a point: write 1234.50"
