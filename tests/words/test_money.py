"""Money is printed exactly."""

import pytest

from fewtubes.words.money import amount, money


@pytest.mark.parametrize(
    ("price", "text"),
    [(0, "0.00"), (5, "0.05"), (1250, "12.50"), (10**15 + 1, "10000000000000.01")],
)
def test_amounts_are_exact(price: int, text: str) -> None:
    assert amount(price) == text
    assert money(price, "EUR") == f"EUR {text}"


def test_a_debt_keeps_its_sign() -> None:
    assert amount(-105) == "-1.05"
