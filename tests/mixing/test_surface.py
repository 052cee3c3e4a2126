"""What holds of every surface."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.mixing.surface import OUTER_REFLECTION, beneath_surface, with_surface


@given(st.floats(0, 1))
def test_there_and_back(inner: float) -> None:
    assert beneath_surface(with_surface(np.array(inner))) == pytest.approx(inner, abs=1e-12)


@given(st.floats(OUTER_REFLECTION, 1))
def test_back_and_there(outer: float) -> None:
    assert with_surface(beneath_surface(np.array(outer))) == pytest.approx(outer, abs=1e-12)


def test_ends() -> None:
    # Black shows what the surface itself sends back; a perfect white stays one, for no light is
    # lost anywhere.
    assert with_surface(np.array(0.0)) == OUTER_REFLECTION
    assert with_surface(np.array(1.0)) == pytest.approx(1.0)


@pytest.mark.parametrize("outer", [0.0, 0.01, OUTER_REFLECTION])
def test_nothing_is_darker_than_the_surface(outer: float) -> None:
    assert beneath_surface(np.array(outer)) == 0


def test_a_lighter_inside_is_lighter_outside() -> None:
    assert (np.diff(with_surface(np.linspace(0, 1, 1001))) > 0).all()
