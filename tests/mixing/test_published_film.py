"""The film against Kubelka's limits, tabled values and an integration of the differential equation.

Sources: P. Kubelka, JOSA 38(5), 1948, 448–457; layers: P. Kubelka, JOSA 44(4), 1954, 330–335.
"""

from itertools import product
from math import exp
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from scipy.integrate import solve_ivp

from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.film import film_reflectance, thick_film_reflectance

DATA = Path(__file__).parents[1] / "published"
FILMS = pd.read_csv(DATA / "film_reflectances.csv", comment="#").to_dict("records")
THICK = pd.read_csv(DATA / "thick_films.csv", comment="#").to_dict("records")

PAINTS = tuple(product((0.0, 0.05, 0.7, 3.0), (0.0, 0.02, 0.5, 4.0)))
"""K and S from none to much, every way."""

GROUNDS = (0.0, 0.3, 0.9, 1.0)


def film(K: float, S: float, ground: float) -> float:
    """Return the reflectance of a film in one band."""
    return float(film_reflectance(np.array([K]), np.array([S]), ground)[0])


@pytest.mark.parametrize("row", FILMS)
def test_tabled_values(row: dict[str, float]) -> None:
    found = film(row["K"] * row["X"], row["S"] * row["X"], row["ground"])
    assert found == pytest.approx(row["reflectance"], abs=5.1e-7)  # six decimals


@pytest.mark.parametrize("row", FILMS)
def test_the_differential_equation_integrated(row: dict[str, float]) -> None:
    """Kubelka's dR/dx = S − 2(K + S)R + S R² from the ground up, by scipy, apart from any form."""
    K, S = row["K"], row["S"]

    def rise(_: float, R: FloatArray) -> FloatArray:
        return S - 2 * (K + S) * R + S * R**2

    solved = solve_ivp(rise, (0.0, row["X"]), [row["ground"]], rtol=1e-11, atol=1e-13)
    assert film(K * row["X"], S * row["X"], row["ground"]) == pytest.approx(
        float(solved.y[0, -1]), abs=1e-9
    )


@pytest.mark.parametrize("row", THICK)
def test_a_film_that_hides_all(row: dict[str, float]) -> None:
    # Kubelka and Munk, 1931: K/S = (1 − R∞)² ÷ 2R∞.
    paint = np.array([row["K_over_S"]]), np.array([1.0])
    # The last K/S is rounded to seven decimals, which is 4e-7 in reflectance.
    assert thick_film_reflectance(*paint)[0] == pytest.approx(row["reflectance"], abs=5e-7)
    for ground in GROUNDS:  # load → ∞ gives R∞ whatever the paper
        assert film(1e4 * row["K_over_S"], 1e4, ground) == pytest.approx(
            row["reflectance"], abs=5e-7
        )


@pytest.mark.parametrize("K", [0.1, 1.0, 7.0])
@pytest.mark.parametrize("load", [0.01, 0.5, 3.0])
def test_a_ground_of_the_films_own_colour_stays(K: float, load: float) -> None:
    own = float(thick_film_reflectance(np.array([K]), np.array([1.3]))[0])
    assert film(K * load, 1.3 * load, own) == pytest.approx(own, abs=1e-12)


@pytest.mark.parametrize("ground", GROUNDS)
def test_no_film_is_the_ground(ground: float) -> None:
    assert film(0.0, 0.0, ground) == ground
    assert film(1e-9, 1e-9, ground) == pytest.approx(ground, abs=1e-8)


def test_without_scattering_light_is_lost_on_its_way_in_and_out() -> None:
    # Rg e^(−2K): 0.9 e^(−0.7) = 0.446927.
    assert film(0.35, 0.0, 0.9) == pytest.approx(0.446927, abs=5e-7)
    assert film(0.35, 1e-9, 0.9) == pytest.approx(0.9 * exp(-0.7), abs=1e-8)


@pytest.mark.parametrize("S", [0.01, 0.5, 40.0])
def test_without_absorption_over_black(S: float) -> None:
    # SX ÷ (1 + SX).
    assert film(0.0, S, 0.0) == pytest.approx(S / (1 + S), abs=1e-12)


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("share", [0.1, 0.5, 0.8])
def test_two_layers_are_one_of_the_summed_load(ground: float, share: float) -> None:
    for K, S in PAINTS:
        below = film((1 - share) * K, (1 - share) * S, ground)
        assert film(share * K, share * S, below) == pytest.approx(film(K, S, ground), abs=1e-12)


@pytest.mark.parametrize("ground", GROUNDS)
def test_layers_by_reflectance_and_transmittance(ground: float) -> None:
    """R12 = R1 + T1² R2 ÷ (1 − R1 R2), Kubelka 1954, of a film and the ground below it.

    R1 is the film over black; T1 is Kubelka's b ÷ (a sinh bS + b cosh bS) with a = 1 + K/S and
    b = √(a² − 1), 1948.
    """
    for K, S in PAINTS:
        if K == 0 or S == 0:
            continue  # a and b are not defined
        a = 1 + K / S
        b = np.sqrt(a**2 - 1)
        through = b / (a * np.sinh(b * S) + b * np.cosh(b * S))
        alone = film(K, S, 0.0)
        both = alone + through**2 * ground / (1 - alone * ground)
        assert film(K, S, ground) == pytest.approx(both, abs=1e-12)
