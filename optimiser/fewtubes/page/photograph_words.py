"""What is said of the main colours of a photograph."""

from collections.abc import Sequence

from fewtubes.colour.display import hex_to_lab
from fewtubes.colour.photograph import MainColour
from fewtubes.colour.plain_names import colour_name
from fewtubes.words.counting import counted

__all__ = ["found_words", "photograph_name"]


def found_words(found: Sequence[MainColour]) -> str:
    """Return how many colours were found, and what to do with them."""
    return (
        f"{counted(len(found), 'main colour')} found; shades too alike are one, and small spots are"
        " passed over: pick those yourself. Untick what belongs to the background."
    )


def photograph_name(hex_: str) -> str:
    """Return a name for a colour of a photograph [#rrggbb], e.g. ``photo, dark green``."""
    L, a, b = hex_to_lab(hex_).tolist()
    return f"photo, {colour_name((L, a, b))}"
