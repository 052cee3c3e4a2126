"""Amounts of paint are printed no finer than they are known, and on their side of a limit."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.words.amounts import (
    about_money,
    coarse,
    file_amount,
    millilitres,
    pictures_words,
)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0.0, 0.0),
        (0.0832, 0.08),
        (0.096, 0.1),
        (1.2, 1.0),
        (1.26, 1.5),
        (1.74, 1.5),
        (1.76, 2.0),
        (2.4, 2.0),
        (8.7, 9.0),
        (9.6, 10.0),
        (143.0, 150.0),
    ],
)
def test_one_figure_or_a_half_behind_a_one(value: float, shown: float) -> None:
    assert coarse(value) == pytest.approx(shown)


@given(st.floats(1e-6, 1e9))
def test_rounding_is_never_off_by_more_than_a_quarter(value: float) -> None:
    """At worst 1.25 becomes 1 or 1.5, a fifth off, and 2.5 becomes 2 or 3, a fifth; 1.75 less."""
    assert abs(coarse(value) - value) <= 0.2500001 * value
    figures = f"{coarse(value):.6e}".split("e")[0].rstrip("0").rstrip(".").replace(".", "")
    assert len(figures) == 1 or figures == "15"


@pytest.mark.parametrize(
    ("ml", "packs", "text"),
    [
        (0.0, (), "none"),
        (0.0099, (), "less than 0.01 ml"),
        (0.0123, (), "about 0.01 ml"),
        (3.4, (5.0,), "about 3 ml"),
        # 5.2 ml do not fit into a pack of 5 ml, 4.6 ml do: the figure may not say otherwise.
        (5.2, (5.0,), "just over 5 ml"),
        (4.6, (5.0,), "about 5 ml"),
        (9.6, (9.8,), "just under 9.8 ml"),
    ],
)
def test_millilitres(ml: float, packs: tuple[float, ...], text: str) -> None:
    assert millilitres(ml, *packs) == text


@pytest.mark.parametrize(
    ("pictures", "planned", "text"),
    [
        (math.inf, 12, "any number"),
        (43.7, 12, "about 40"),
        (20.4, 20, "about 20"),
        (22.0, 21, "about 21"),  # about 20 would be too few
        (19.6, 20, "not quite 20"),  # about 20 would be enough
        (2600.0, 20, "about 3,000"),
        (1.4, 1, "one or two"),
        (0.4, 1, "not one"),
    ],
)
def test_pictures(pictures: float, planned: int, text: str) -> None:
    assert pictures_words(pictures, planned) == text


@given(pictures=st.floats(2, 1e5), planned=st.integers(1, 10_000))
def test_the_words_never_deny_that_paint_suffices(pictures: float, planned: int) -> None:
    text = pictures_words(pictures, planned).removeprefix("about ")
    if text.startswith("not quite"):
        assert pictures < planned
        return
    said = float(text.replace(",", ""))
    assert (said >= planned) == (pictures >= planned)


def test_money_that_follows_from_paint_is_as_coarse() -> None:
    assert about_money(0, "EUR") == "nothing"
    assert about_money(0.4, "EUR") == "less than EUR 0.01"
    assert about_money(14.2, "EUR") == "about EUR 0.15"
    assert about_money(312.0, "EUR") == "about EUR 3.00"


def test_files_hold_two_figures() -> None:
    assert [file_amount(value) for value in (0.0, 0.02749, 17.3, 1234.0)] == [0, 0.027, 17, 1200]
    assert math.isinf(file_amount(math.inf))
