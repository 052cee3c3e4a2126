"""Plain words for colours.

Some colours of CSS must get the word that their own names hold.
"""

import math

import pytest

from fewtubes.colour.display import hex_to_lab
from fewtubes.colour.plain_names import HUES, colour_name

CSS = {
    "#ff0000": "red", "#8b0000": "dark red", "#ff8c00": "orange", "#ffff00": "yellow",
    "#008000": "green", "#006400": "dark green", "#98fb98": "green", "#40e0d0": "turquoise",
    "#afeeee": "pale turquoise", "#1e90ff": "blue", "#87cefa": "pale blue", "#8a2be2": "violet",
    "#9400d3": "violet", "#ff69b4": "pink", "#ff1493": "pink", "#ffc0cb": "pale pink",
    "#8b4513": "dark brown", "#ffffe0": "pale yellow", "#ffffff": "white", "#000000": "black",
    "#808080": "grey", "#696969": "grey",
}  # fmt: skip
"""red, darkred, darkorange, yellow, green, darkgreen, palegreen, turquoise, paleturquoise,
dodgerblue, lightskyblue, blueviolet, darkviolet, hotpink, deeppink, pink, saddlebrown, lightyellow,
white, black, grey and dimgrey of CSS Color Module Level 4, section 6.1. Left out are those whose
name CIELAB does not bear out: its hue of the screen's pure blue is that of a violet.
"""


@pytest.mark.parametrize("hex_", CSS)
def test_css_colours(hex_: str) -> None:
    L, a, b = hex_to_lab(hex_).tolist()
    assert colour_name((L, a, b)) == CSS[hex_]


@pytest.mark.parametrize(
    ("lab", "name"),
    [
        ((50.0, 0.0, 0.0), "grey"),
        ((95.0, 1.0, 3.0), "white"),
        ((15.0, 2.0, 2.0), "black"),
        ((30.0, -20.0, 15.0), "dark green"),
        ((80.0, 10.0, -15.0), "pale violet"),
        ((80.0, 18.0, 8.0), "pale pink"),
        ((45.0, 18.0, 22.0), "brown"),
        ((50.0, 60.0, 0.0), "pink"),
        ((50.0, 60.0, -1.0), "pink"),
    ],
)
def test_shades(lab: tuple[float, float, float], name: str) -> None:
    assert colour_name(lab) == name


def test_every_hue_bears_the_word_in_whose_middle_it_lies() -> None:
    for degrees, word in HUES:
        turn = math.radians(degrees)
        assert colour_name((60.0, 60 * math.cos(turn), 60 * math.sin(turn))) == word
