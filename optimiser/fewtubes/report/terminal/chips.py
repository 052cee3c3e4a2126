"""Blocks of colour for a terminal that can show them."""

from collections.abc import Sequence

import numpy as np
from rich.console import Console
from rich.text import Text

from fewtubes.colour.display import lab_to_hex

__all__ = ["chips", "shows_chips"]

BLOCK = "██"
COLOUR_SYSTEMS = frozenset({"256", "truecolor"})
"""Those with enough colours that a block is near the colour meant; 16 are not enough."""


def shows_chips(console: Console) -> bool:
    """Return whether the console shows enough colours for blocks to mean anything."""
    return console.color_system in COLOUR_SYSTEMS


def chips(console: Console, labs: Sequence[tuple[float, float, float]]) -> Text:
    """Return a block of each colour, CIELAB; an empty text where they cannot be shown.

    Whatever a block shows is said in words as well.
    """
    blocks = Text()
    if shows_chips(console):
        for lab in labs:
            blocks.append(BLOCK, style=lab_to_hex(np.array(lab)))
    return blocks
