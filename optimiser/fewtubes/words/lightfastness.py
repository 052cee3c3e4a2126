"""Grades of lightfastness in words."""

from collections.abc import Mapping

from fewtubes.catalogue.records import Lightfastness

__all__ = ["LIGHTFASTNESS_WORDS", "LIGHT_TEST"]

LIGHT_TEST = (
    "To test it, paint a swatch, cover half of it, and leave it in a window for some months; then"
    " compare the halves."
)
"""Common practice, no source."""

LIGHTFASTNESS_WORDS: Mapping[Lightfastness, str] = {
    Lightfastness.I: "excellent",
    Lightfastness.II: "very good",
    Lightfastness.III: "fair",
    Lightfastness.IV: "poor",
    Lightfastness.V: "very poor",
}
"""The wording of ASTM D4303 for its categories, from memory."""
