"""Recipes that were kept are looked at before they are believed."""

from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from fewtubes.comparison.kept_matches import sensible

Arrays = dict[str, npt.NDArray[Any]]

KEPT: Arrays = {
    "tubes": np.array([[0, 2, -1], [1, -1, -1], [-1, -1, -1]]),
    "parts": np.array([[2, 1, 0], [1, 0, 0], [0, 0, 0]]),
    "strengths": np.array([0.5, 1.0, np.nan]),
    "labs": np.array([[50.0, 1, 2], [60, 3, 4], [np.nan, np.nan, np.nan]]),
    "differences": np.array([0.0, 3.5, np.inf]),
}
"""A mix of two of three tubes, a tube alone, and a colour that nothing may be mixed for."""


def put(name: str, place: Any, value: float) -> Callable[[Arrays], Arrays]:
    """Return what puts one value somewhere."""

    def change(kept: Arrays) -> Arrays:
        array = kept[name].copy()
        array[place] = value
        return kept | {name: array}

    return change


NONSENSE: dict[str, Callable[[Arrays], Arrays]] = {
    "nothing": lambda _: {},
    "less": lambda kept: {name: kept[name] for name in list(kept)[:-1]},
    "more": lambda kept: kept | {"more": np.zeros(3)},
    "fewer rows": lambda kept: {name: array[1:] for name, array in kept.items()},
    "another shape": lambda kept: kept | {"labs": kept["labs"].ravel()},
    "no axis": lambda kept: kept | {"strengths": np.array(1.0)},
    "another type": lambda kept: kept | {"tubes": kept["tubes"].astype(float)},
    "unknown tube": put("tubes", (0, 1), 3),
    "below no tube": put("tubes", (0, 2), -2),
    "a tube after none": put("tubes", (1, 2), 0),
    "no parts": put("parts", (0, 1), 0),
    "parts of none": put("parts", (1, 1), 1),
    "no strength": put("strengths", 0, 0.0),
    "too strong": put("strengths", 0, 1.5),
    "strength not a number": put("strengths", 0, np.nan),
    "no colour": put("labs", (1, 2), np.nan),
    "no difference": put("differences", 1, np.inf),
    "difference below 0": put("differences", 1, -1.0),
}


def test_recipes_are_taken() -> None:
    assert sensible(KEPT, colours=3, tubes=3)


@pytest.mark.parametrize("change", NONSENSE.values(), ids=NONSENSE)
def test_nonsense_is_not(change: Callable[[Arrays], Arrays]) -> None:
    assert not sensible(change(KEPT), colours=3, tubes=3)


def test_fewer_tubes_than_then_are_noticed() -> None:
    assert not sensible(KEPT, colours=3, tubes=2)
