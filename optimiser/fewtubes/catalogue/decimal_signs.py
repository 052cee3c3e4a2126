"""Whether all decimals of a table stand after one sign, the comma or the point."""

from collections.abc import Collection, Sequence

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.commas import decimal_sign
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.rows import Row

__all__ = ["note_second_sign"]

CALLED = {",": "comma", ".": "point"}


def note_second_sign(
    rows: Sequence[Row], numbers: Collection[str], collector: FaultCollector
) -> None:
    """Note the first number whose decimals stand after another sign than those before it.

    In a file with both signs nobody can tell whether 1.234 is more than a thousand.

    Parameters
    ----------
    rows
        Of one file.
    numbers
        The columns of numbers.
    collector
        Takes the fault.
    """
    first: tuple[Row, str, str] | None = None
    for row in rows:
        for column in row.cells:
            text = row.as_written(column)
            sign = decimal_sign(text) if column in numbers else None
            if sign is None:
                continue
            first = first or (row, text, sign)
            before, other, agreed = first
            if sign != agreed:
                collector.note(
                    row.where,
                    f"{column} is {shown(text)}, with a decimal {CALLED[sign]}, but"
                    f" {_place(before, row)} has {shown(other)}, with a decimal"
                    f" {CALLED[agreed]}; write all decimals of a file after the same sign.",
                )
                return


def _place(before: Row, row: Row) -> str:
    """Return where a number stood, e.g. ``row 2``, or ``the same row``."""
    return "the same row" if before is row else before.where.rpartition(", ")[2]
