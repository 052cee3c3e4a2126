"""Flags left standing say nothing of a product; what is not finite is told."""

import warnings

import numpy as np
import pytest

from fewtubes.errors import DefectError
from fewtubes.selection.finite_product import finite_product


def test_the_product_is_that_of_matrices() -> None:
    """By hand."""
    one = np.array([[1, 2], [3, 4]], dtype=np.float32)
    assert finite_product(one, one).tolist() == [[7, 10], [15, 22]]
    assert finite_product(one[:0], one).shape == (0, 2)


@pytest.mark.parametrize("bad", [np.nan, np.inf, 3e38])
def test_what_is_not_finite_is_told_and_not_warned_of(bad: float) -> None:
    one = np.full((2, 3), bad, dtype=np.float32)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        with pytest.raises(DefectError, match="not finite"):
            finite_product(one, np.full((3, 2), 2, dtype=np.float32))
