"""Sums and weights: what is allowed, what is taken where nothing is said, what is told."""

from decimal import Decimal
from typing import Any

import pytest

from fewtubes.comparison.instalment_terms import MOST_SUMS, terms_of
from fewtubes.errors import InputError


def faults(sums: Any, weights: Any = None) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as raised:
        terms_of(sums, weights)
    return [(fault.where, fault.what) for fault in raised.value.faults]


def test_sums_are_kept_exactly_and_added_up() -> None:
    terms = terms_of([Decimal("8.10"), 5, "0", 4.35], None)
    assert terms.sums == (810, 500, 0, 435)
    assert terms.money == (810, 1310, 1310, 1745)


def test_without_weights_now_counts_most() -> None:
    assert terms_of([8, 5, 5], None).weights == tuple(map(Decimal, (3, 2, 1)))
    assert terms_of([8, 5, 5], []).importances == (3, 2, 1)
    assert terms_of([8], None).weights == (Decimal(1),)


def test_weights_become_whole_numbers_in_the_same_proportions() -> None:
    # 1.5 : 0.75 : 3 = 150 : 75 : 300 = 2 : 1 : 4
    assert terms_of([1, 1, 1], ["1.5", 0.75, Decimal(3)]).importances == (2, 1, 4)


@pytest.mark.parametrize(
    ("sums", "weights", "told"),
    [
        ([], None, [("sums", "there is no sum to spend; give one for each time that something can"
                     " be bought, the first for now.")]),
        ([-5], None, [("sums", "number 1 is '-5'; it must be from 0 to 1,000,000.")]),
        ([5, "1.234"], None,
         [("sums", "number 2 is '1.234'; it may have at most two decimals, so round it.")]),
        ([5, "x"], None,
         [("sums", "number 2 is 'x', which is not a plain number, such as 8.00.")]),
        (["5,50"], None, [("sums", "number 1 is '5,50', which is not a plain number; decimals take"
                           " a point: write 5.50.")]),
        ([0, 0], None, [("sums", "all sums are 0, which buys nothing; give one above 0.")]),
        ([1_000_000, 1], None, [("sums", "all of them together is '1000001'; it must be above 0 and"
                                 " at most 1,000,000.")]),
        ([5] * (MOST_SUMS + 1), None, [("sums", "there are 13 sums; at most 12 are allowed.")]),
        ([5, 5], [1], [("weights", "there is 1 weight for 2 sums; give one for each sum, or none at"
                        " all.")]),
        ([5], [0], [("weights", "number 1 is '0'; it must be above 0 and at most 100.")]),
        ([5], [1, 101], [("weights", "number 2 is '101'; it must be above 0 and at most 100."),
                         ("weights", "there are 2 weights for 1 sum; give one for each sum, or none"
                          " at all.")]),
        (8, None, [("sums", "is 8; give a row of numbers, such as [8, 5, 5].")]),
        ([8], "21", [("weights", "is '21'; give a row of numbers, such as [3, 2, 1].")]),
    ],
)  # fmt: skip
def test_every_fault_is_told(sums: Any, weights: Any, told: list[tuple[str, str]]) -> None:
    assert faults(sums, weights) == told
