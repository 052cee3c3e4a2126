"""What is folded away on the page of an answer, and the words that say what is inside."""

from collections.abc import Mapping

__all__ = ["INSIDE"]

INSIDE: Mapping[str, str] = {
    "tubes": "Each tube from full strength to a pale wash, its pigments, and what hangs on it",
    "flowers": "{counted}: each colour beside its mix, how near it comes, and how forgiving it is",
    "paint": "What a picture takes of each tube, how long packs last, and what paint costs",
    "reach": "A picture of what the palette reaches around the hues, with every colour wanted",
    "missed": "Why, how near the nearest mix comes, and which further tubes would bring most",
    "trade-offs": "The weakest tube in each respect, and what better ones would cover",
    "cost": "Cheaper and dearer palettes, and what each covers",
    "beside": "What is covered at each time, and what all the money by then would cover at once",
    "sure": "The proof in full, and among which recipes it holds",
    "care": "What to take care of, tube by tube and in general",
    "colours": "How the colours on this page were computed, and what no screen shows",
}
"""By id of a section; ``{counted}`` stands for how many flowers and colours there are."""
