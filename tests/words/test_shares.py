"""Shares in per cent."""

import pytest

from fewtubes.words.shares import percent


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
