"""Digests of values: the same for the same value in any run, and other for any other."""

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.value_digest import digest_of
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish

SCENARIO = Scenario(budget=12, currency="EUR", flowers=["foxglove", ("fern frond", 2)])

PROGRAM = """
import sys
from fewtubes.coverage.value_digest import digest_of
from fewtubes.catalogue.reading import read_catalogue
print(digest_of((read_catalogue(), frozenset({"one", "two", "three"}))))
"""


def test_it_is_the_same_in_every_run() -> None:
    # With another seed of hashes the order of the set, and its pickle, is another.
    told = {
        subprocess.run(  # noqa: S603  # this very interpreter
            [sys.executable, "-c", PROGRAM],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for seed in ("1", "2")
    }
    assert told == {digest_of((read_catalogue(), frozenset({"three", "two", "one"})))}


@pytest.mark.parametrize(
    "other",
    [
        replace(SCENARIO, budget=Decimal("12.01")),
        replace(SCENARIO, tolerance=4.5),
        replace(SCENARIO, flowers=(FlowerWish("foxglove"), FlowerWish("fern frond", 3))),
        replace(SCENARIO, flowers=(FlowerWish("fern frond", 2), FlowerWish("foxglove"))),
        replace(SCENARIO, wishes=Wishes(never=("magenta",))),
        replace(SCENARIO, title="other"),
    ],
)
def test_scenarios_that_differ_are_told_apart(other: Scenario) -> None:
    assert digest_of(other) != digest_of(SCENARIO)
    assert digest_of(replace(other)) == digest_of(other)


def test_values_of_another_kind_are_told_apart() -> None:
    values = [1, 1.0, True, "1", None, Decimal(1), Fraction(1), (1,), {"1": 1}, Path("1")]
    values += [np.array([1]), np.array([1.0]), np.array([[1]]), frozenset({1}), (), ((),), ("", "")]
    assert len({digest_of(value) for value in values}) == len(values)
    assert digest_of(("ab", "c")) != digest_of(("a", "bc"))


def test_what_has_no_digest_is_refused() -> None:
    function: Callable[[], None] = lambda: None  # noqa: E731
    with pytest.raises(TypeError, match="function has no digest"):
        digest_of((1, function))
