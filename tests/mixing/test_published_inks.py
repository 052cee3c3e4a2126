"""The demo tubes mix as the inks they resemble do on a press.

Source: nine characterisation sets of Fogra and CGATS, on coated, supercalendered, uncoated and
newsprint paper (tests/published/press_sets.csv). Both sides are taken relative to their paper, as
ISO 15076-1 does in its media-relative colours: XYZ divided by that of the paper, times the white.

An ink on a press is a transparent film, so it is compared with the tubes that are transparent or
semi-transparent: the nearest of them at the wash that comes nearest, then all such washes in one
film. Dots of ink do not trap fully on each other and spectra are not known; hue and neutrality are
asked for, no close match.
"""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_lch, lab_to_xyz, xyz_to_lab
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency
from fewtubes.mixing.surface import beneath_surface, with_surface

TABLE = pd.read_csv(Path(__file__).parents[1] / "published" / "press_sets.csv", comment="#")
SETS: dict[str, dict[str, FloatArray]] = {
    str(name): {str(row.inks): np.array([row.L, row.a, row.b]) for row in rows.itertuples()}
    for name, rows in TABLE.groupby("set")
}

INKS = ("C", "M", "Y")
PAIRS = ("M+Y", "C+Y", "C+M")

ON_AVERAGE = 6.0
"""Largest mean distance of a mix from the overprint in hue over all sets [degrees]."""

AT_MOST = 10.0
"""Largest distance in one set [degrees]; the sets differ among themselves by 8 to 13."""

NEUTRAL = 6.0
"""Most chroma C* of all three, as measured: the nine sets show 0.5 to 5.6 relative to paper."""

LOADS = np.geomspace(0.05, 1.0, 90)
"""Washes between which nobody could tell [load]."""


class Comparison:
    """The demo tubes on white cotton paper under D50, relative to that paper."""

    def __init__(self, catalogue: Catalogue) -> None:
        light = catalogue.lights["D50"]
        self.weights = tristimulus_weights(light.wavelength_nm, light.power)
        self.white = white_point(self.weights)
        paper = catalogue.papers["cotton-white"].reflectance
        self.paper = paper @ self.weights
        self.ground = beneath_surface(paper)
        luminous = self.weights[:, 1]
        self.tubes = {
            name: (tube.K, tube.S)
            for name, tube in catalogue.tubes.items()
            if transparency(float(contrast_ratio(tube.K, tube.S, luminous)))
            <= Transparency.SEMI_TRANSPARENT
        }

    def lab(self, K: FloatArray, S: FloatArray) -> FloatArray:
        """Return CIELAB of films, shape (…, 3), relative to the paper."""
        xyz = with_surface(film_reflectance(K, S, self.ground)) @ self.weights
        return xyz_to_lab(xyz / self.paper * self.white, self.white)

    def relative(self, inks: dict[str, FloatArray]) -> dict[str, FloatArray]:
        """Return CIELAB of inks and overprints relative to the paper they are on."""
        paper = lab_to_xyz(inks["paper"], self.white)
        return {
            name: xyz_to_lab(lab_to_xyz(lab, self.white) / paper * self.white, self.white)
            for name, lab in inks.items()
        }

    def nearest(self, ink: FloatArray) -> tuple[str, float]:
        """Return the tube and the load whose colour is nearest to an ink's."""
        washes = {
            name: delta_e_2000(self.lab(LOADS[:, None] * K, LOADS[:, None] * S), ink)
            for name, (K, S) in self.tubes.items()
        }
        best = min(washes, key=lambda name: float(washes[name].min()))
        return best, float(LOADS[washes[best].argmin()])

    def mixed(self, chosen: dict[str, tuple[str, float]], inks: str) -> FloatArray:
        """Return CIELAB of the tubes chosen for inks, all their loads in one film."""
        each = [chosen[ink] for ink in inks.split("+")]
        K = np.sum([load * self.tubes[name][0] for name, load in each], axis=0)
        S = np.sum([load * self.tubes[name][1] for name, load in each], axis=0)
        return self.lab(K, S)


@pytest.fixture(scope="module")
def beside(catalogue: Catalogue) -> pd.DataFrame:
    """Return what was mixed and what was measured: set, inks, tubes, L, C and h of both."""
    comparison = Comparison(catalogue)
    rows = []
    for name, absolute in SETS.items():
        measured = comparison.relative(absolute)
        chosen = {ink: comparison.nearest(measured[ink]) for ink in INKS}
        for inks in (*INKS, *PAIRS, "C+M+Y"):
            mixed = lab_to_lch(comparison.mixed(chosen, inks))
            L, C, h = lab_to_lch(measured[inks])
            off = (mixed[2] - h + 180) % 360 - 180
            rows.append((name, inks, chosen, *mixed, L, C, h, off))
    columns = ["set", "inks", "tubes", "L", "C", "h", "L_press", "C_press", "h_press", "off"]
    return pd.DataFrame(rows, columns=columns)


def test_all_sets_are_subtractive() -> None:
    """What the sets say: green, blue-violet and red from two inks, near neutral from three."""
    assert len(SETS) == 9
    hues = {pair: [float(lab_to_lch(inks[pair])[2]) for inks in SETS.values()] for pair in PAIRS}
    assert 28 <= min(hues["M+Y"]) <= max(hues["M+Y"]) <= 36
    assert 150 <= min(hues["C+Y"]) <= max(hues["C+Y"]) <= 160
    assert 283 <= min(hues["C+M"]) <= max(hues["C+M"]) <= 296
    assert max(float(lab_to_lch(inks["C+M+Y"])[1]) for inks in SETS.values()) < NEUTRAL


def test_tubes_like_the_inks_are_found(beside: pd.DataFrame, catalogue: Catalogue) -> None:
    """Blues, pinks and yellows by their Colour Index names; quinacridone rose is PV19."""
    kinds = {"C": {"PB"}, "M": {"PR", "PV"}, "Y": {"PY"}}
    for chosen in beside["tubes"]:
        for ink, (tube, _) in chosen.items():
            codes = {pigment.code[:2] for pigment, _ in catalogue.tubes[tube].pigments}
            assert codes <= kinds[ink], (ink, tube)


@pytest.mark.parametrize("pair", PAIRS)
def test_two_tubes_mix_to_the_hue_of_the_overprint(beside: pd.DataFrame, pair: str) -> None:
    off = beside[beside["inks"] == pair]["off"].abs()
    assert off.mean() <= ON_AVERAGE
    assert off.max() <= AT_MOST


def test_three_tubes_mix_to_a_near_neutral(beside: pd.DataFrame) -> None:
    together = beside[beside["inks"] == "C+M+Y"]
    assert together["C_press"].max() < NEUTRAL
    assert together["C"].max() <= NEUTRAL
    assert together["C"].mean() <= 5.0


def test_a_mix_is_darker_than_what_it_is_mixed_from(beside: pd.DataFrame) -> None:
    """As every overprint is darker than its inks (test_published_overprints)."""
    lightness = beside.set_index(["set", "inks"])["L"]
    for name in SETS:
        for inks in (*PAIRS, "C+M+Y"):
            assert lightness[name, inks] < min(lightness[name, ink] for ink in inks.split("+"))
