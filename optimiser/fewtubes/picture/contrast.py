"""How well text stands out from its background.

Source: W3C, Web Content Accessibility Guidelines (WCAG) 2.2, definitions of relative luminance and
contrast ratio, success criterion 1.4.3 (text, 4.5).
"""

from fewtubes.colour.display import HEX

__all__ = ["LEAST_FOR_TEXT", "relative_luminance", "text_contrast"]

LEAST_FOR_TEXT = 4.5
"""Success criterion 1.4.3, level AA, text of usual size."""

KNEE = 0.04045
"""Channel value up to which the curve is a straight line; WCAG 2.2 took this over from sRGB."""


def relative_luminance(colour: str) -> float:
    """Return the luminance [0–1] of a colour written as ``#rrggbb``, black 0, white 1."""
    if not HEX.fullmatch(colour):
        raise ValueError(f"a colour is written as #rrggbb, such as #c21e56 (got {colour!r})")
    red, green, blue = (_linear(int(colour[place : place + 2], 16) / 255) for place in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def text_contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 (alike) to 21 (black and white)."""
    dark, light = sorted((relative_luminance(one), relative_luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def _linear(channel: float) -> float:
    """Return the linear value of an encoded channel, both [0–1]."""
    return channel / 12.92 if channel <= KNEE else float(((channel + 0.055) / 1.055) ** 2.4)
