"""Money is printed exactly."""

import pytest

from fewtubes.words.money import amount, money, scale_mark


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
    ("price", "text"), [(0, "0"), (500, "5"), (50, "0.50"), (12_345_650, "123456.50")]
)
def test_marks_on_a_scale_are_exact_and_short(price: int, text: str) -> None:
    # 123456.50 was written as 123456 and 12345678.00 as 1.23457e+07.
    assert scale_mark(price) == text
