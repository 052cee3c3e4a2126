"""Importances as whole numbers: exact where they fit, else rounded alike and said to be so."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.exact import exact
from fewtubes.coverage.weights import MOST_TOTAL, whole_weights

small_fractions = st.fractions(min_value=Fraction(1, 40), max_value=9, max_denominator=40)
any_fractions = st.fractions(min_value=Fraction(1, 10**15), max_value=1000)


def test_by_hand() -> None:
    # 1/2, 1/3 and 3/4 over 12: 6, 4 and 9. Then 2/3 and 4/5 over 15: 10 and 12, halved.
    weights = whole_weights([Fraction(1, 2), Fraction(1, 3), Fraction(3, 4)])
    assert weights.counts == (6, 4, 9)
    assert weights.exact
    assert whole_weights([Fraction(2, 3), Fraction(4, 5)]).counts == (5, 6)
    assert whole_weights([]).counts == ()
    assert whole_weights([]).exact


@given(st.lists(small_fractions, max_size=6))
def test_sums_compare_as_the_fractions_do(shares: list[Fraction]) -> None:
    weights = whole_weights(shares)
    assert weights.exact == (sum(weights.counts) <= MOST_TOTAL)
    if not weights.exact:
        return  # six denominators up to 40 may have a common one that is too large
    whole = [Fraction(count, sum(weights.counts)) for count in weights.counts]
    assert whole == [share / sum(shares) for share in shares]


@given(st.lists(any_fractions, min_size=1, max_size=12))
def test_equal_is_equal_and_order_is_kept_however_they_are_counted(shares: list[Fraction]) -> None:
    doubled = [*shares, *shares]
    weights = whole_weights(doubled)
    assert weights.counts[: len(shares)] == weights.counts[len(shares) :]
    assert min(weights.counts) >= 1
    assert sum(weights.counts) <= MOST_TOTAL + len(doubled)
    ranked = sorted(zip(doubled, weights.counts, strict=True))
    assert all(one[1] <= other[1] for one, other in pairwise(ranked))


def test_what_does_not_fit_is_rounded_to_a_unit_that_fits_most() -> None:
    """Two primes near a million and a third have a common multiple of 1e18, far beyond 1e12."""
    odd = [Fraction(1, 1_000_003), Fraction(1, 1_000_033), Fraction(1, 1_000_037)]
    shares = [Fraction(1, 3)] * 4 + [Fraction(2, 7)] * 2 + odd
    weights = whole_weights(shares)
    assert not weights.exact
    total = sum(weights.counts)
    assert MOST_TOTAL * 0.99 < total <= MOST_TOTAL + len(shares)
    # 3 and 7 are met most often, so a third and a seventh are exact to one another.
    assert weights.counts[0] * 6 == weights.counts[4] * 7
    for share, count in zip(shares, weights.counts, strict=True):
        assert abs(count / total - share / sum(shares)) < 2 / total * len(shares)


def test_nothing_weighs_nothing() -> None:
    weights = whole_weights([Fraction(1), Fraction(1, 10**30)])
    assert not weights.exact
    assert weights.counts[1] == 1


@pytest.mark.parametrize(
    ("written", "fraction"),
    [(0.1, Fraction(1, 10)), (3, Fraction(3)), (2.5e-3, Fraction(1, 400)), (1 / 3, None)],
)
def test_a_float_stands_for_its_shortest_decimal(written: float, fraction: Fraction | None) -> None:
    assert exact(written) == (Fraction(str(written)) if fraction is None else fraction)
