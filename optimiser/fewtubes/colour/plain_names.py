"""Everyday words for colours, for search and texts; where one word ends is our own, rough rule."""

import math

__all__ = ["HUES", "colour_name"]

HUE_ENDS = (
    (8, "pink"), (42, "red"), (70, "orange"), (110, "yellow"), (178, "green"), (222, "turquoise"),
    (294, "blue"), (328, "violet"),
)  # fmt: skip
"""Hue angle [degrees, CIELAB] at which each plain colour word ends; pink goes on after violet."""

HUES = tuple(
    (((low - 360 if low > high else low) + high) / 2 % 360, name)
    for (low, _), (high, name) in zip((HUE_ENDS[-1], *HUE_ENDS[:-1]), HUE_ENDS, strict=True)
)
"""Hue angle [degrees] in the middle of each plain colour word."""

GREY_CHROMA = 10.0
"""Below it a colour has no hue to speak of [C*]."""

WHITE, BLACK = 88.0, 22.0
"""Lightness above and below which such a colour is no grey [L*]."""

DARK = 38.0
"""Lightness below which a colour is called so [L*]."""

PALE, PALE_CHROMA = 70.0, 40.0
"""Lightness above and chroma below which a colour is called pale [L*, C*]."""

BROWN_HUES = (30.0, 80.0)
BROWN_CHROMA, BROWN_LIGHTNESS = 38.0, 60.0
"""What lies between these hue angles [degrees], and is duller [C*] and darker [L*] than that, is
brown; so is a dark orange."""


def colour_name(lab: tuple[float, float, float]) -> str:
    """Return a colour in a word or two, e.g. ``dark green`` or ``pale violet``.

    Parameters
    ----------
    lab
        CIELAB.
    """
    lightness, a, b = lab
    chroma, hue = math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360
    if chroma < GREY_CHROMA:
        return "white" if lightness > WHITE else "black" if lightness < BLACK else "grey"
    pale = lightness > PALE and chroma < PALE_CHROMA
    dull = chroma < BROWN_CHROMA and lightness < BROWN_LIGHTNESS
    name = next((word for end, word in HUE_ENDS if hue < end), HUE_ENDS[0][1])
    if name == "red" and pale:
        name = "pink"
    elif (dull and BROWN_HUES[0] <= hue <= BROWN_HUES[1]) or (
        name == "orange" and lightness < DARK
    ):
        name = "brown"
    return f"{'dark ' if lightness < DARK else 'pale ' if pale else ''}{name}"
