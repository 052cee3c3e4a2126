"""Cells that give a colour: in one way out of several, a row at a time."""

from collections.abc import Mapping, Sequence

from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.rows import Row
from fewtubes.colour.display import HEX

__all__ = ["LAB_COLUMNS", "one_way", "screen_colour"]

LAB_COLUMNS = ("L", "a", "b")


def one_way(row: Row, ways: Mapping[str, Sequence[str]], *, fill_in: str) -> str | None:
    """Return the way in which a row gives its colour, or None after a fault.

    Parameters
    ----------
    row
        May lack columns.
    ways
        The columns of each way, by what a message calls it.
    fill_in
        What is to be filled in, as the end of a sentence.
    """
    given = [way for way, columns in ways.items() if any(row.cells.get(one) for one in columns)]
    if len(given) != 1:
        told = f"in {len(given)} ways ({listed(given)})" if given else "in no way"
        row.note(f"the colour is given {told}; fill in {fill_in}")
        return None
    missing = [column for column in ways[given[0]] if column not in row.cells]
    if missing:
        kind = "CIELAB" if set(missing) <= set(LAB_COLUMNS) else "the spectrum"
        row.note(f"{kind} needs the columns {listed(missing)} as well; add them")
        return None
    return given[0]


def screen_colour(row: Row) -> str | None:
    """Return the cell ``hex``, None after a fault."""
    text = row.cells["hex"]
    if HEX.fullmatch(text):
        return text
    row.note(
        f"hex is {shown(text)}; it must be written as # and six digits or letters up to f, such"
        " as #c21e56"
    )
    return None
