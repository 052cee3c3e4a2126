"""Shares in per cent."""

import pytest

from fewtubes.words.shares import about_percent, percent, percent_below, points


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (0.0, "0 %"),
        (1.0, "100 %"),
        (0.875, "87.5 %"),
        (1e-6, "under 0.1 %"),
        (1 - 1e-6, "over 99.9 %"),
    ],
)
def test_none_and_all_are_said_of_none_and_all_only(share: float, text: str) -> None:
    assert percent(share) == text


def test_about_so_much_is_told_in_whole_per_cent() -> None:
    assert about_percent(0.4951) == "50 %"


def test_what_is_to_be_asked_for_is_rounded_down() -> None:
    assert percent_below(2, 3) == "66.6 %"  # 2 ÷ 3 = 0.6666…, which 66.7 % would be above
    assert percent_below(3, 3) == "100 %"


def test_differences_of_shares_are_points() -> None:
    assert points(0.004) == "0.4 points"
    assert points(0.0004) == "under 0.1 points"
    assert points(0.0) == "0.0 points"
