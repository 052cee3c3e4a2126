"""Subtractive mixing as measured on a press: three inks and their overprints.

Source: Fogra characterisation data, set FOGRA29L (uncoated paper), CIELAB under D50. The set gives
colours only; of the many spectra that have an ink's colour the smoothest absorption is taken, so
what is predicted for the overprints owes nothing to them. A metameric spectrum is not the ink, and
a press is no brush: hue and darkness are asked for, and a difference well below what averaging the
inks gives, but no close match.
"""

from collections.abc import Callable
from pathlib import Path

import colour
import numpy as np
import pandas as pd
import pytest
from scipy.optimize import NonlinearConstraint, minimize

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.cielab import lab_to_lch, lab_to_xyz, xyz_to_lab
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.surface import beneath_surface, with_surface
from fewtubes.threads import one_thread_per_product

PRESS = pd.read_csv(
    Path(__file__).parents[1] / "published" / "press_uncoated.csv", comment="#", index_col="inks"
)
MEASURED: dict[str, FloatArray] = {str(inks): row.to_numpy() for inks, row in PRESS.iterrows()}
OVERPRINTS = ("M+Y", "C+Y", "C+M", "C+M+Y")

HUES = {"M+Y": (28.0, 36.0), "C+Y": (151.0, 160.0), "C+M": (284.0, 296.0)}
"""Hue angles [degrees] of overprints on press: red, green, blue-violet (references.md)."""

NEUTRAL = 6.0
"""Most chroma C* of the three inks together (references.md)."""

METAMERIC_HUE = 3.0
"""How far outside `HUES` a prediction may lie [degrees], since its spectra are made up."""

FARTHEST = 15.0
"""Largest difference of a prediction [ΔE00]; references.md advises against asking for less."""

Reflect = Callable[[FloatArray], FloatArray]


class Press:
    """The set's light and paper, and the smoothest absorption of each ink.

    Parameters
    ----------
    order
        Which difference between bands is kept small: the first (slope) or the second (bend).
    scattering
        Scattering S of a full layer of any ink, the same in every band.
    """

    def __init__(self, *, order: int, scattering: float) -> None:
        light = colour.SDS_ILLUMINANTS["D50"]
        self.weights = tristimulus_weights(np.asarray(light.wavelengths), np.asarray(light.values))
        self.white = white_point(self.weights)
        self.order = order
        self.S = np.full(BAND_COUNT, scattering)
        paper = self.smoothest("paper", lambda R: R, most=1.0, start=0.9)
        self.ground = beneath_surface(paper)
        self.K = {
            ink: self.smoothest(ink, lambda K: self.layer(K, self.S), most=np.inf, start=0.3)
            for ink in "CMY"
        }

    def lab(self, reflectance: FloatArray) -> FloatArray:
        """Return CIELAB of a reflectance."""
        return xyz_to_lab(reflectance @ self.weights, self.white)

    def layer(self, K: FloatArray, S: FloatArray) -> FloatArray:
        """Return the reflectance of a film on the paper."""
        return with_surface(film_reflectance(K, S, self.ground))

    def smoothest(self, inks: str, reflect: Reflect, *, most: float, start: float) -> FloatArray:
        """Return the smoothest spectrum from 0 to `most` that has the measured colour."""
        differences = np.diff(np.eye(BAND_COUNT), self.order, axis=0)
        bend = differences.T @ differences
        target = lab_to_xyz(MEASURED[inks], self.white) / self.white
        step = 1e-6

        def miss(x: FloatArray) -> FloatArray:
            return np.asarray(reflect(x) @ self.weights / self.white - target)

        def slope(x: FloatArray) -> FloatArray:
            # A band's reflectance depends on that band alone.
            rise = (reflect(x + step) - reflect(x)) / step
            return np.asarray((rise[:, None] * self.weights / self.white).T)

        def roughness(x: FloatArray) -> float:
            return float(x @ bend @ x)

        def rougher(x: FloatArray) -> FloatArray:
            return np.asarray(2 * bend @ x)

        found = minimize(
            roughness,
            np.full(BAND_COUNT, start),
            jac=rougher,
            method="SLSQP",
            bounds=[(0.0, most)] * BAND_COUNT,
            constraints=NonlinearConstraint(miss, 0.0, 0.0, jac=slope),
            tol=1e-10,
        )
        assert found.success, found.message
        return np.asarray(found.x)

    def overprint(self, inks: str) -> FloatArray:
        """Return the predicted CIELAB of inks over each other."""
        each = inks.split("+")
        return self.lab(self.layer(np.sum([self.K[i] for i in each], axis=0), len(each) * self.S))

    def average(self, inks: str) -> FloatArray:
        """Return CIELAB of the mean reflectance of the inks, as of dots side by side."""
        each = [self.layer(self.K[ink], self.S) for ink in inks.split("+")]
        return self.lab(np.mean(each, axis=0))


@pytest.fixture(scope="module", params=[(1, 0.05), (2, 0.0)], ids=["slope", "bend"])
def press(request: pytest.FixtureRequest) -> Press:
    """Return the press under two ways to make up the inks' spectra."""
    order, scattering = request.param
    with one_thread_per_product():
        return Press(order=order, scattering=scattering)


def hue_outside(lab: FloatArray, inks: str) -> float:
    """Return by how much a hue lies outside its range [degrees]."""
    low, high = HUES[inks]
    return float(max(low - lab_to_lch(lab)[2], lab_to_lch(lab)[2] - high, 0.0))


def test_the_measured_set_is_subtractive() -> None:
    for inks in HUES:
        assert hue_outside(MEASURED[inks], inks) <= 0.2  # C+M: 283.9, the range is rounded
    assert lab_to_lch(MEASURED["C+M+Y"])[1] <= NEUTRAL
    for inks in OVERPRINTS:
        assert all(MEASURED[inks][0] < MEASURED[ink][0] for ink in inks.split("+"))


def test_the_made_up_spectra_have_the_inks_colours(press: Press) -> None:
    for ink in "CMY":
        assert press.K[ink].min() >= 0
        assert delta_e_2000(press.lab(press.layer(press.K[ink], press.S)), MEASURED[ink]) < 0.01


@pytest.mark.parametrize("inks", HUES)
def test_hues_of_two_inks(press: Press, inks: str) -> None:
    assert hue_outside(press.overprint(inks), inks) <= METAMERIC_HUE


def test_three_inks_are_near_neutral(press: Press) -> None:
    assert lab_to_lch(press.overprint("C+M+Y"))[1] <= NEUTRAL


@pytest.mark.parametrize("inks", OVERPRINTS)
def test_overprints_are_darker_than_every_ink(press: Press, inks: str) -> None:
    assert press.overprint(inks)[0] < min(MEASURED[ink][0] for ink in inks.split("+"))


@pytest.mark.parametrize("inks", OVERPRINTS)
def test_the_film_is_nearer_than_averaging(press: Press, inks: str) -> None:
    film = delta_e_2000(press.overprint(inks), MEASURED[inks])
    average = delta_e_2000(press.average(inks), MEASURED[inks])
    assert film < FARTHEST
    assert film < average / 2
