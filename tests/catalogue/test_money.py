"""Amounts of money keep every hundredth."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.limits import PRICE
from fewtubes.catalogue.money import amount_fault, exact_amount, hundredths


@given(st.integers(min_value=1, max_value=1_000_000))
def test_every_price_survives_being_written_and_read(price: int) -> None:
    amount = exact_amount(f"{price // 100}.{price % 100:02d}")
    assert amount is not None
    assert amount_fault(amount, PRICE) is None
    assert hundredths(amount) == price


@pytest.mark.parametrize(
    ("text", "expected"), [("4", 400), ("4.5", 450), ("4.500", 450), ("1e1", 1000), ("0.01", 1)]
)
def test_trailing_zeros_do_not_matter(text: str, expected: int) -> None:
    amount = exact_amount(text)
    assert amount is not None
    assert hundredths(amount) == expected


@pytest.mark.parametrize("text", ["4.505", "0.001", f"1.00{'0' * 40}1"])
def test_a_third_decimal_is_a_fault(text: str) -> None:
    fault = amount_fault(Decimal(text), PRICE)
    assert fault is not None
    assert "at most two decimals" in fault


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-1", "0", "1e999999"])
def test_what_is_outside_the_range_is_a_fault(text: str) -> None:
    fault = amount_fault(Decimal(text), PRICE)
    assert fault is not None
    assert fault.endswith("it must be above 0 and at most 10,000")


@pytest.mark.parametrize("text", ["", "four", "4,50", "NaN", "1e99999999999999999999"])
def test_what_is_no_number_is_no_amount(text: str) -> None:
    assert exact_amount(text) is None
