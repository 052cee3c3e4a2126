"""The surface against tabled values and Fresnel's equations.

Sources: J. L. Saunderson, JOSA 32(12), 1942, 727–736 (formula from memory); Fresnel's equations
for unpolarised light, integrated here.
"""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from scipy.integrate import quad

from fewtubes.mixing.surface import (
    INNER_REFLECTION,
    OUTER_REFLECTION,
    beneath_surface,
    with_surface,
)

ROWS = pd.read_csv(
    Path(__file__).parents[1] / "published" / "surface_reflectances.csv", comment="#"
).to_dict("records")

INDEX = 1.5


@pytest.mark.parametrize("row", ROWS)
def test_tabled_values(row: dict[str, float]) -> None:
    inside, outside = np.array(row["inside"]), np.array(row["outside"])
    assert with_surface(inside, k1=0.04, k2=0.6) == pytest.approx(row["outside"], abs=5.1e-7)
    # The inverse is steepest near white, 1 ÷ ((1 − k1)(1 − k2)) = 2.6 times at black.
    assert beneath_surface(outside, k1=0.04, k2=0.6) == pytest.approx(row["inside"], abs=2e-6)


def fresnel(angle: float, index: float) -> float:
    """Return the share of unpolarised light reflected at an angle of incidence [radians].

    `index` is that beyond the surface ÷ that before it; beyond the critical angle all comes back.
    """
    sine = np.sin(angle) / index
    if sine >= 1:
        return 1.0
    before, beyond = np.cos(angle), np.sqrt(1 - sine**2)
    across = ((before - index * beyond) / (before + index * beyond)) ** 2
    along = ((index * before - beyond) / (index * before + beyond)) ** 2
    return float((across + along) / 2)


def diffuse(index: float) -> float:
    """Return the share of perfectly diffuse light reflected, ∫ R(θ) sin 2θ dθ from 0 to π/2."""
    critical = np.arcsin(min(1.0, index))
    below, _ = quad(lambda angle: fresnel(angle, index) * np.sin(2 * angle), 0, critical)
    return float(below + np.cos(critical) ** 2)  # ∫ sin 2θ from the critical angle on


def test_the_outer_coefficient_is_fresnels_along_the_normal() -> None:
    # ((1.5 − 1) ÷ (1.5 + 1))² = 0.04.
    assert fresnel(0.0, INDEX) == pytest.approx(0.04)
    assert pytest.approx(fresnel(0.0, INDEX), abs=5e-4) == OUTER_REFLECTION


def test_the_inner_coefficient_is_fresnels_for_diffuse_light() -> None:
    inner = diffuse(1 / INDEX)
    assert inner == pytest.approx(0.5963, abs=5e-5)
    assert pytest.approx(inner, abs=5e-4) == INNER_REFLECTION
    # What goes in and what comes out are tied: 1 − (1 − r_out) ÷ n² = r_in.
    assert 1 - (1 - diffuse(INDEX)) / INDEX**2 == pytest.approx(inner, abs=1e-7)
