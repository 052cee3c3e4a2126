"""Contrast against what the guidelines and those who explain them publish.

Source: W3C, WCAG 2.2, definitions of relative luminance and contrast ratio; W3C, Understanding
SC 1.4.3, which gives #777777 on white as 4.47 and says that this is not to be rounded up to pass;
#767676 is the lightest grey that passes on white, 4.54. The last two figures are from memory.
"""

import pytest

from fewtubes.picture.contrast import LEAST_FOR_TEXT, relative_luminance, text_contrast


@pytest.mark.parametrize(
    ("colour", "luminance"),
    [
        ("#000000", 0.0),
        ("#ffffff", 1.0),
        ("#ff0000", 0.2126),  # the coefficients of the definition
        ("#00ff00", 0.7152),
        ("#0000ff", 0.0722),
    ],
)
def test_luminance_of_primaries_is_that_of_the_definition(colour: str, luminance: float) -> None:
    assert relative_luminance(colour) == pytest.approx(luminance, abs=1e-12)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),  # (1 + 0.05) / (0 + 0.05)
        ("#777777", "#ffffff", 4.47),
        ("#767676", "#ffffff", 4.54),
        ("#123456", "#123456", 1.0),
    ],
)
def test_published_ratios(one: str, other: str, ratio: float) -> None:
    # 4.478 is told as 4.47 there: cut, not rounded.
    assert text_contrast(one, other) == pytest.approx(ratio, abs=0.01)
    assert text_contrast(other, one) == text_contrast(one, other)


def test_the_limit_parts_those_two_greys() -> None:
    fails, passes = text_contrast("#777777", "#ffffff"), text_contrast("#767676", "#ffffff")
    assert fails < LEAST_FOR_TEXT < passes


def test_anything_but_six_digits_is_refused() -> None:
    with pytest.raises(ValueError, match="#rrggbb"):
        relative_luminance("red")
