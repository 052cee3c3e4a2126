"""Pigments, tubes and lights so weak that nothing can be reckoned with them are faults."""

from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.pigments import LEAST_COLOUR
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.mixing.film import film_reflectance

Change = Callable[[str, str, str], None]


def told(folder: Path) -> list[str]:
    return [str(fault) for fault in faults_of_catalogue(folder)]


def with_spectra(folder: Path, pigment: str, value: str) -> None:
    """Give a pigment one value for K and S on all bands."""
    path = folder / "spectra.csv"
    rows = path.read_text(encoding="utf-8").splitlines()
    rows = [
        ",".join([*row.split(",")[:2], *[value] * 36]) if row.startswith(f"{pigment},") else row
        for row in rows
    ]
    path.write_text("\n".join(rows), encoding="utf-8")


@pytest.mark.parametrize("value", ["0", "1e-320", "0.0004"])
def test_a_pigment_without_colour(folder: Path, value: str) -> None:
    with_spectra(folder, "sea", value)
    assert told(folder) == [
        "pigments.csv, row 4: the pigment 'sea' has no colour: K and S in spectra.csv are below"
        " 0.001 on every band; give what was measured."
    ]


def test_a_pigment_of_which_a_film_is_seen(folder: Path) -> None:
    with_spectra(folder, "sea", "0.0006")
    assert told(folder) == []


@pytest.mark.parametrize("ground", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_what_counts_as_without_colour_changes_next_to_no_light(
    ground: float, share: float
) -> None:
    # R = Rg exp(−2K) without scattering and S/(1 + S) over black without absorption: Kubelka
    # (1948) in the limit; 2 × 0.001 at most.
    K, S = np.array([share * LEAST_COLOUR]), np.array([(1 - share) * LEAST_COLOUR])
    assert abs(film_reflectance(K, S, ground)[0] - ground) <= 2 * LEAST_COLOUR


@pytest.mark.parametrize("strength", ["1e-320", "1e-9"])
def test_a_tube_without_colour(folder: Path, change: Change, strength: str) -> None:
    change("tubes.csv", "1.2", strength)
    (fault,) = told(folder)
    assert fault.startswith("tubes.csv, row 3: strength ")
    assert "leaves the tube 'lemon' without any colour; give a greater one" in fault


def test_a_tube_of_a_faulty_pigment_is_not_blamed(folder: Path) -> None:
    with_spectra(folder, "yellow", "0")
    (fault,) = told(folder)
    assert "the pigment 'yellow' has no colour" in fault


def with_light(folder: Path, power: Callable[[int], object]) -> None:
    """Replace the light's power by a function of the wavelength [nm]."""
    rows = [f"E,Equal energy,{nm},{power(nm)}" for nm in range(380, 781, 10)]
    (folder / "lights.csv").write_text("\n".join(["light,name,nm,power", *rows]), encoding="utf-8")


@pytest.mark.parametrize("power", ["1e-320", "1e-300", "9e-7"])
def test_a_light_too_faint_for_sums(folder: Path, power: str) -> None:
    with_light(folder, lambda _: power)
    (fault,) = told(folder)
    assert fault == (
        f"lights.csv, row 2: the light 'E' has no power above {float(power):g}; multiply all its"
        " powers by one number, so that the greatest is about 100."
    )


@pytest.mark.parametrize("low", [400, 500, 600])
@pytest.mark.parametrize("power", ["1e-320", "0.05"])
def test_a_light_with_hardly_any_power_in_a_third(folder: Path, low: int, power: str) -> None:
    with_light(folder, lambda nm: power if low <= nm < low + 100 else 100)
    (fault,) = told(folder)
    assert f"the light 'E' has hardly any power from {low} to {low + 100} nm" in fault


@pytest.mark.parametrize(
    "powers",
    [
        (1e-6, 1e-6, 1e-6),
        (1e6, 1e6, 1e6),
        (0.11, 100, 100),
        (100, 0.11, 100),
        (100, 100, 0.11),
    ],
)
def test_every_light_that_is_let_pass_has_a_white(folder: Path, powers: Sequence[float]) -> None:
    with_light(folder, lambda nm: powers[min(max(nm // 100 - 4, 0), 2)])
    light = read_catalogue(folder).lights["E"]
    weights = tristimulus_weights(light.wavelength_nm, light.power)
    white = white_point(weights)
    assert np.isfinite(weights).all()
    # Y of the perfect diffuser is 100 (ASTM E308).
    assert white[1] == pytest.approx(100)
    assert (white > 0.01).all()
