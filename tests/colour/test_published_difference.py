"""CIEDE2000 against the paper's table and a second implementation."""

from pathlib import Path

import colour
import numpy as np
import pandas as pd
import pytest

from fewtubes.colour.difference import delta_e_2000

PAIRS = pd.read_csv(Path(__file__).parents[1] / "published" / "ciede2000_pairs.csv", comment="#")
"""Sharma, Wu, Dalal, Color Res. Appl. 30(1), 2005, 21–30, table 1."""


@pytest.mark.parametrize("row", PAIRS.to_dict("records"), ids=lambda row: int(row["pair"]))
def test_the_papers_pairs(row: dict[str, float]) -> None:
    one = np.array([row["L1"], row["a1"], row["b1"]])
    other = np.array([row["L2"], row["a2"], row["b2"]])
    # The table gives four decimals.
    assert delta_e_2000(one, other) == pytest.approx(row["delta_e_2000"], abs=5.1e-5)
    assert delta_e_2000(other, one) == pytest.approx(row["delta_e_2000"], abs=5.1e-5)


def test_it_agrees_with_a_second_implementation() -> None:
    # colour-science (BSD-3), on pairs near and far, pale and vivid.
    rng = np.random.default_rng(4)
    one = rng.uniform([0, -120, -120], [100, 120, 120], (20_000, 3))
    one[:5000, 1:] *= 0.05
    other = rng.uniform([0, -120, -120], [100, 120, 120], (20_000, 3))
    other[::2] = one[::2] + rng.normal(0, 4, (10_000, 3))
    expected = colour.delta_E(one, other, method="CIE 2000")
    np.testing.assert_allclose(delta_e_2000(one, other), expected, atol=1e-8)
