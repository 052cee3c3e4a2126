"""Words and printed figures agree, however near a figure comes to the limit that decided."""

import re
from decimal import Decimal

from hypothesis import example, given
from hypothesis import strategies as st

from fewtubes.mixing.opacity import CUT_OFFS, transparency
from fewtubes.words.decimals import asked_figure, file_number, file_share, keeping_side, rounded
from fewtubes.words.hiding import hiding
from fewtubes.words.matches import MATCH_WORDS, difference, limit_words, match_words
from fewtubes.words.shares import asked_percent, percent, percents_apart
from fewtubes.words.unsteady import steadiness_words, unsteady_figure

TOLERANCES = st.one_of(
    st.sampled_from([1.0, 2.0, 3.0, 4.0, 7.5]),
    st.floats(0.05, 18.0),
    st.integers(5, 1800).map(lambda hundredths: hundredths / 100),
)

HAIRS = st.one_of(
    st.sampled_from([0.0, 1e-15, 1e-12, 1e-9, 1e-6, 4e-4, 5e-4, 0.004, 0.03, 0.05]),
    st.floats(0, 0.06),
)
"""How near a figure comes to a limit."""


def figure_of(text: str) -> float:
    """Return the number in a text such as ``ΔE00 4.03``."""
    return float(text.removeprefix("ΔE00 "))


@given(limit=TOLERANCES, hair=HAIRS, above=st.booleans())
@example(limit=4.0, hair=0.03, above=True)  # 4.03 was printed as 4.0, "near", and out of reach
@example(limit=2.0, hair=0.04, above=True)  # as 2.0 under "the eye tells them apart"
def test_a_match_is_printed_on_its_side_of_the_tolerance(
    *, limit: float, hair: float, above: bool
) -> None:
    match = max(0.0, limit + hair if above else limit - hair)
    shown = figure_of(difference(match, limit))
    assert (shown <= limit) == (match <= limit)
    assert abs(shown - match) <= 0.05 + 1e-9
    # The words of the printed figure are those of the match itself, by the stated cut-offs.
    assert match_words(shown) == match_words(match)
    assert (file_number(match, limit) <= limit) == (match <= limit)
    assert abs(file_number(match, limit) - match) <= 1e-4


@given(cut=st.sampled_from([limit for limit, _ in MATCH_WORDS[:-1]]), hair=HAIRS)
def test_words_of_a_match_go_with_the_figure_beside_them(cut: float, hair: float) -> None:
    for match in (cut + hair, cut - hair):
        assert match_words(figure_of(difference(match))) == match_words(match)


@given(tolerance=TOLERANCES, hair=HAIRS, beyond=st.sampled_from([0.0, 2.0]))
@example(tolerance=4.0, hair=0.03, beyond=0.0)  # "measure with care (unsteady 4.0)"
def test_words_of_steadiness_go_with_the_figure_beside_them(
    tolerance: float, hair: float, beyond: float
) -> None:
    for match in (tolerance + beyond + hair, tolerance + beyond - hair):
        shown = float(unsteady_figure(match, tolerance))
        assert steadiness_words(shown, tolerance) == steadiness_words(match, tolerance)


@given(
    start=st.sampled_from([start for start, _ in CUT_OFFS[1:]]),
    hair=st.just(0.0) | st.floats(1e-12, 2e-3),  # per cent of nearer ones are the same number
)
def test_classes_of_transparency_go_with_the_figure_beside_them(start: float, hair: float) -> None:
    for ratio in (start + hair, start - hair):
        shown = float(Decimal(hiding(ratio).removesuffix(" %")) / 100)
        assert transparency(shown) == transparency(ratio)


@given(value=st.floats(0, 100), limits=st.lists(st.floats(0, 100), max_size=4))
def test_a_figure_is_on_its_side_of_every_limit(value: float, limits: list[float]) -> None:
    shown, _ = keeping_side(value, limits, decimals=1)
    assert [shown <= limit for limit in limits] == [value <= limit for limit in limits]
    printed = float(rounded(value, *limits))
    assert [printed <= limit for limit in limits] == [value <= limit for limit in limits]


@given(value=st.floats(0, 30))
def test_far_from_any_limit_one_decimal_is_all(value: float) -> None:
    assert rounded(value) == f"{value:.1f}"


@given(one=st.floats(0, 1), other=st.floats(0, 1))
@example(one=0.90461, other=0.90458)  # "covers 90.5 % instead of 90.5 %"
@example(one=0.9997, other=0.9998)
def test_shares_that_differ_are_told_apart(one: float, other: float) -> None:
    # Shares here are counts ÷ at most some hundred millions, so they differ by more than 1e-9.
    if abs(one - other) > 1e-9 or one == other:
        texts = percents_apart(one, other)
        assert (texts[0] == texts[1]) == (one == other)
        assert abs(one - other) < 0.001 or texts == (percent(one), percent(other))


@given(share=st.floats(0, 1))
def test_none_and_all_are_none_and_all_only_in_files_too(share: float) -> None:
    shown = file_share(share)
    assert (shown == 0) == (share == 0)
    assert (shown == 1) == (share == 1)
    assert abs(shown - share) <= 1e-4


def test_what_was_asked_is_printed_as_it_was_asked() -> None:
    assert limit_words(4.0) == "ΔE00 4.0"
    assert limit_words(3.96) == "ΔE00 3.96"  # not 4.0: 3.97 is beyond it
    assert asked_figure(0.125) == "0.125"
    assert asked_percent(0.9) == "90 %"
    assert asked_percent(0.99999) == "99.999 %"
    assert asked_percent(1.0) == "100 %"


@given(share=st.floats(1e-6, 1))
def test_a_share_that_was_asked_keeps_all_its_digits(share: float) -> None:
    text = asked_percent(share)
    assert re.fullmatch(r"\d+(\.\d+)? %", text)
    assert float(Decimal(text.removesuffix(" %")) / 100) == share
