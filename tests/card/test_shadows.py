"""Shadows and paint on the bare paper are told apart."""

import numpy as np
import pytest

from fewtubes.card.evening import light_field
from fewtubes.card.layout import Box, Rectangle
from fewtubes.card.shadows import CardLight

LEFT, RIGHT = Rectangle(0, 0, 5, 10), Rectangle(30, 0, 5, 10)
BOX = Box(1.0, over_black=False, rectangle=Rectangle(10, 0, 15, 10), white=(LEFT, RIGHT))

NOTHING = (0.0, 0.0, 0.0)
SHADOW = (-0.40, -0.38, -0.35)
"""A third less light, and a little bluer."""
PAINT = (-0.05, -0.2, -0.4)


def light(left: tuple[float, ...], right: tuple[float, ...]) -> CardLight:
    field = light_field(np.array([[0.0, 0.0]]), np.array([[0.5, 0.5, 0.5]]))
    return CardLight(field, {LEFT: np.array(left), RIGHT: np.array(right)})


@pytest.mark.parametrize(
    ("left", "right", "factor", "doubt"),
    [
        (NOTHING, NOTHING, NOTHING, 0.0),
        (SHADOW, SHADOW, SHADOW, 0.0),
        (PAINT, NOTHING, NOTHING, 0.0),
        (PAINT, SHADOW, SHADOW, 0.0),
        (PAINT, PAINT, NOTHING, 0.0),
        # Means of −0.377 and 0: (0.377 − 0.05) / 2 = 0.163.
        (SHADOW, NOTHING, NOTHING, 0.163),
        ((-0.04,) * 3, NOTHING, (-0.02,) * 3, 0.0),
    ],
    ids=["even", "in shadow", "paint", "both", "all painted", "edge", "falling off"],
)
def test_what_both_sides_say(
    left: tuple[float, ...], right: tuple[float, ...], factor: tuple[float, ...], doubt: float
) -> None:
    beside = light(left, right).beside(BOX)
    assert np.log(beside.factor) == pytest.approx(np.array(factor))
    assert beside.doubt == pytest.approx(doubt, abs=0.001)


def test_what_is_not_known_says_nothing() -> None:
    alone = Box(1.0, over_black=False, rectangle=BOX.rectangle)
    beside = light(SHADOW, SHADOW).beside(alone)
    assert (beside.factor == 1).all()
    assert beside.doubt == 0


def test_painted_paper_is_counted() -> None:
    assert light(PAINT, SHADOW).painted == pytest.approx(0.5)
    assert light(NOTHING, SHADOW).painted == 0
