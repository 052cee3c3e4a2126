"""CIELAB there and back, at its ends and at its joint."""

import colour
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_lch, lab_to_xyz, xyz_to_lab

WHITE = np.array([96.42, 100.0, 82.51])
"""XYZ of D50 as rounded in ISO 13655 (from memory); any white would do."""

ratios = st.tuples(*[st.floats(0.0, 1.2)] * 3).map(np.array)
labs = st.tuples(st.floats(0, 100), st.floats(-150, 150), st.floats(-150, 150)).map(np.array)


def test_white_and_black() -> None:
    np.testing.assert_allclose(xyz_to_lab(WHITE, WHITE), [100, 0, 0], atol=1e-12)
    np.testing.assert_allclose(xyz_to_lab(0 * WHITE, WHITE), [0, 0, 0], atol=1e-12)


def test_lightness_of_a_middle_grey() -> None:
    # CIE 015: L* = 116 (Y/Yn)^(1/3) − 16; at an eighth 116 × 0.5 − 16 = 42.
    np.testing.assert_allclose(xyz_to_lab(WHITE / 8, WHITE), [42, 0, 0], atol=1e-12)


def test_the_two_parts_join_at_lightness_8() -> None:
    # CIE 015: at Y/Yn = (6/29)³ the cube root gives 116 × 6/29 − 16 = 8; below it L* is
    # (29/3)³ Y/Yn, so half that luminance gives half that lightness.
    joint = (6 / 29) ** 3 * WHITE
    for nudge in (1 - 1e-9, 1.0, 1 + 1e-9):
        assert xyz_to_lab(nudge * joint, WHITE)[0] == pytest.approx(8, abs=1e-6)
    assert xyz_to_lab(joint / 2, WHITE)[0] == pytest.approx(4, abs=1e-12)


def test_it_agrees_with_a_second_implementation() -> None:
    # colour-science takes XYZ of white 1 and the white's chromaticity.
    rng = np.random.default_rng(1)
    xyz = rng.uniform(0, 1.1, (2000, 3)) * WHITE
    xyz[:200] *= 0.01  # the straight part too
    expected = colour.XYZ_to_Lab(xyz / 100, colour.XYZ_to_xy(WHITE))
    np.testing.assert_allclose(xyz_to_lab(xyz, WHITE), expected, atol=1e-9)


@given(ratios)
def test_tristimulus_values_come_back(ratio: FloatArray) -> None:
    xyz = ratio * WHITE
    np.testing.assert_allclose(lab_to_xyz(xyz_to_lab(xyz, WHITE), WHITE), xyz, atol=1e-10)


@given(labs)
def test_cielab_comes_back(lab: FloatArray) -> None:
    np.testing.assert_allclose(xyz_to_lab(lab_to_xyz(lab, WHITE), WHITE), lab, atol=1e-9)


@given(labs)
def test_cylindrical_coordinates_say_the_same(lab: FloatArray) -> None:
    L, C, h = lab_to_lch(lab)
    assert C >= 0
    assert 0 <= h < 360
    across = [C * np.cos(np.radians(h)), C * np.sin(np.radians(h))]
    np.testing.assert_allclose([L, *across], lab, atol=1e-10)


@pytest.mark.parametrize(
    ("a", "b", "hue"), [(1, 0, 0), (0, 2, 90), (-3, 0, 180), (0, -4, 270), (5, -5, 315)]
)
def test_hue_angles_of_the_axes(a: float, b: float, hue: float) -> None:
    # CIE 015: h = arctan(b*/a*), 0 along +a* (red), 90 along +b* (yellow).
    assert lab_to_lch(np.array([50.0, a, b]))[2] == pytest.approx(hue)


def test_a_hue_a_hair_below_0_is_0_and_not_360() -> None:
    # −1e-20 ÷ 10 radians is nearer to 0 than the numbers below 360 can say.
    assert lab_to_lch(np.array([50.0, 10.0, -1e-20]))[2] == 0


def test_shapes_are_kept() -> None:
    xyz = np.ones((4, 5, 3)) * WHITE / 2
    assert xyz_to_lab(xyz, WHITE).shape == (4, 5, 3)
    assert lab_to_xyz(xyz, WHITE).shape == (4, 5, 3)
    assert lab_to_lch(xyz).shape == (4, 5, 3)
