"""sRGB to CIELAB and back, and what becomes of colours that a screen cannot show."""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_lch
from fewtubes.colour.display import hex_to_lab, lab_to_hex, lab_to_srgb

hexes = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")
labs = st.tuples(st.floats(0, 100), st.floats(-150, 150), st.floats(-150, 150)).map(np.array)


def second_opinion(colour_text: str) -> FloatArray:
    """Return CIELAB (D65) as colour-science has it."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour
    channels = np.array([int(colour_text[place : place + 2], 16) for place in (1, 3, 5)]) / 255
    space = colour.RGB_COLOURSPACES["sRGB"]
    xyz = colour.RGB_to_XYZ(channels, space, apply_cctf_decoding=True)
    return np.asarray(colour.XYZ_to_Lab(xyz, space.whitepoint))


@pytest.mark.parametrize(
    "colour_text",
    # A grey near the joint of the transfer function (0.04045 × 255 = 10.3), the screen's corners,
    # and colours between.
    ["#0a0b0a", "#ff0000", "#00ff00", "#0000ff", "#ffff00", "#00ffff", "#ff00ff", "#c21e56"],
)
def test_it_agrees_with_a_second_implementation(colour_text: str) -> None:
    # The matrix is rounded to four digits in IEC 61966-2-1, and its white (0.9505, 1, 1.0890)
    # differs from D65 at x 0.3127, y 0.3290 (0.95046, 1, 1.08906): at most 0.02 in a* or b*.
    np.testing.assert_allclose(hex_to_lab(colour_text), second_opinion(colour_text), atol=0.03)


def test_published_values() -> None:
    # CIELAB (D65) of the sRGB red, green and blue as commonly tabulated (from memory), to 0.1.
    np.testing.assert_allclose(hex_to_lab("#ff0000"), [53.2, 80.1, 67.2], atol=0.1)
    np.testing.assert_allclose(hex_to_lab("#00ff00"), [87.7, -86.2, 83.2], atol=0.1)
    np.testing.assert_allclose(hex_to_lab("#0000ff"), [32.3, 79.2, -107.9], atol=0.1)


@given(st.integers(0, 255))
def test_equal_channels_are_neutral(level: int) -> None:
    lab = hex_to_lab(f"#{level:02x}{level:02x}{level:02x}")
    np.testing.assert_allclose(lab[1:], 0, atol=1e-10)


def test_black_and_white() -> None:
    np.testing.assert_allclose(hex_to_lab("#000000"), [0, 0, 0], atol=1e-12)
    np.testing.assert_allclose(hex_to_lab("#FFFFFF"), [100, 0, 0], atol=1e-10)


@given(hexes)
def test_every_screen_colour_comes_back(colour_text: str) -> None:
    lab = hex_to_lab(colour_text)
    assert lab_to_hex(lab) == colour_text
    assert lab_to_srgb(lab)[1]


@given(labs)
def test_what_is_shown_keeps_lightness_and_hue(lab: FloatArray) -> None:
    srgb, _ = lab_to_srgb(lab)
    assert ((srgb >= 0) & (srgb <= 1)).all()
    lightness, a, b = lab_of(srgb)
    # What the bisection and the slack of 1e-6 in linear channels leave is clipped; near black,
    # where CIELAB is steepest (903 per unit of Y), that is 0.001 in L* and 0.005 in a* and b*.
    assert lightness == pytest.approx(lab[0], abs=2e-3)
    assert a * lab[2] == pytest.approx(b * lab[1], abs=0.01 * max(1.0, np.hypot(lab[1], lab[2])))
    assert np.hypot(a, b) <= np.hypot(lab[1], lab[2]) + 0.01


@pytest.mark.parametrize(
    ("lab", "inside"),
    [
        ((60.0, 90.0, 0.0), False),
        ((60.0, 40.0, 0.0), True),
        ((30.0, 20.0, -110.0), False),
        ((90.0, -100.0, 20.0), False),
        ((99.0, 30.0, 10.0), False),
    ],
)
def test_chroma_gives_way_and_lightness_and_hue_stay(
    lab: tuple[float, float, float], *, inside: bool
) -> None:
    wanted = np.array(lab)
    srgb, told_inside = lab_to_srgb(wanted)
    assert bool(told_inside) is inside
    shown = lab_of(srgb)
    L, C, h = lab_to_lch(wanted)
    shown_L, shown_C, shown_h = lab_to_lch(shown)
    # Clipping what the bisection leaves (2⁻²⁴ of the chroma) moves nothing by a thousandth.
    assert shown_L == pytest.approx(L, abs=1e-3)
    assert (shown_h - h + 180) % 360 - 180 == pytest.approx(0, abs=0.01)
    assert shown_C == pytest.approx(C, abs=1e-3) if inside else shown_C < C
    if not inside:  # a hair more chroma would leave the gamut, so the share found is the largest
        more = np.array([shown[0], shown[1] * 1.001, shown[2] * 1.001])
        assert not lab_to_srgb(more)[1]


def lab_of(srgb: FloatArray) -> FloatArray:
    """Return CIELAB of unrounded sRGB, by the standard's equations written out again."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in srgb]
    r, g, b = linear
    x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505
    y = 0.2126 * r + 0.7152 * g + 0.0722 * b
    z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.0890
    fx, fy, fz = (
        t ** (1 / 3) if t > (6 / 29) ** 3 else t * (29 / 6) ** 2 / 3 + 4 / 29 for t in (x, y, z)
    )
    return np.array([116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)])


def test_lightness_is_held_to_what_exists() -> None:
    assert lab_to_hex(np.array([105.0, 20.0, 0.0])) == "#ffffff"
    assert lab_to_hex(np.array([-3.0, 20.0, 0.0])) == "#000000"


def test_pictures_are_converted_pixel_by_pixel() -> None:
    # Six colours inside and outside the gamut, as a picture of 2 × 3.
    picture = np.array(
        [[[50, 0, 0], [60, 90, 0], [90, -100, 20]], [[30, 20, -110], [70, 10, 60], [0, 0, 0]]]
    ).astype(float)
    srgb, inside = lab_to_srgb(picture)
    assert srgb.shape == (2, 3, 3)
    assert inside.shape == (2, 3)
    for row in range(2):
        for column in range(3):
            alone, alone_inside = lab_to_srgb(picture[row, column])
            # Sums of three may be taken in another order: the last bit is free.
            np.testing.assert_allclose(srgb[row, column], alone, rtol=1e-12)
            assert inside[row, column] == alone_inside


@pytest.mark.parametrize("text", ["", "c21e56", "#c21e5", "#c21e567", "#c21e5g", "#c21e56\n"])
def test_what_is_no_hex_colour_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="a colour is written as #rrggbb"):
        hex_to_lab(text)
