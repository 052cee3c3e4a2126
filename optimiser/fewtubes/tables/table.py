"""A table as one value, from which both its CSV file and its pandas frame are made."""

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from fewtubes.tables.cells import Cell, csv_text, file_figure
from fewtubes.tables.spreadsheet import Spreadsheet

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Column", "Kind", "Table"]


class Kind(Enum):
    """What the cells of a column are."""

    TEXT = "text"
    """Words, names and ids, also those that look like a number."""
    YES_NO = "yes or no"
    """True or False; yes or no in a file."""
    WHOLE = "whole number"
    """Counts, and numbers in a row."""
    FIGURE = "figure"
    """Measures and differences."""
    SHARE = "share"
    """Shares [0–1] of what is to be painted; in per cent in a file, which people read."""
    MONEY = "money"
    """Amounts in the currency, exact `Decimal` in the table and in its file.

    In a frame they are floats, so that they can be drawn and averaged: round what is summed to
    hundredths. The exact whole hundredths are in the fields of the answer.
    """


DTYPES = {
    Kind.TEXT: "string",
    Kind.YES_NO: "boolean",
    Kind.WHOLE: "Int64",
    Kind.FIGURE: "float64",
    Kind.SHARE: "float64",
    Kind.MONEY: "float64",
}
"""What pandas calls the kinds; each knows a missing value."""


@dataclass(frozen=True)
class Column:
    """One column of a table.

    Parameters
    ----------
    name
        The header.
    kind
        What its cells are.
    meaning
        What they say, with unit and range, and what an empty one means where there are any.
    behind
        Whether it stands behind all that a person reads first, as ids and coordinates do.
    """

    name: str
    kind: Kind
    meaning: str
    behind: bool = False


@dataclass(frozen=True)
class Table:
    r"""Columns and rows.

    Parameters
    ----------
    columns
        Each name once; from left to right but for those that stand behind.
    rows
        One cell a column; None where there is nothing to say.

    Raises
    ------
    ValueError
        If a name stands twice, or a row has another number of cells than there are columns.

    Examples
    --------
    >>> from decimal import Decimal
    >>> columns = (
    ...     Column("tube", Kind.TEXT, "id of the tube"),
    ...     Column("price", Kind.MONEY, "price of a pack"),
    ...     Column("covers", Kind.YES_NO, "whether it covers anything"),
    ... )
    >>> table = Table(columns, (("gold", Decimal("3.40"), True), ("blue", Decimal("2.10"), False)))
    >>> print(table.csv_text().replace("\r\n", "\n"), end="")
    tube,price,covers
    gold,3.40,yes
    blue,2.10,no
    >>> frame = table.frame()
    >>> round(float(frame["price"].sum()), 2)
    5.5
    >>> frame.loc[frame["covers"], "tube"].tolist()
    ['gold']
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def __post_init__(self) -> None:
        if len(set(self.header)) != len(self.columns):
            raise ValueError(f"each column needs a name of its own (got {self.header})")
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(f"a row needs {len(self.columns)} cells (got {len(row)})")

    @property
    def header(self) -> tuple[str, ...]:
        """The names of the columns, from left to right."""
        return tuple(self.columns[place].name for place in self._order)

    @property
    def _order(self) -> tuple[int, ...]:
        """Places of the columns from left to right: what a person reads first, then the rest."""
        return tuple(sorted(range(len(self.columns)), key=lambda place: self.columns[place].behind))

    def csv_text(self, spreadsheet: Spreadsheet = Spreadsheet.COMMA) -> str:
        """Return the table as CSV text in which a spreadsheet takes nothing for a formula.

        Figures have four decimals at most, shares are in per cent, truth is yes or no, and what is
        None or has no end is an empty cell.

        Parameters
        ----------
        spreadsheet
            What the spreadsheet expects that is to open it.
        """
        order = self._order
        return csv_text(
            self.header,
            ([row[place] for place in order] for row in self.rows),
            spreadsheet=spreadsheet,
            shares={n for n, place in enumerate(order) if self.columns[place].kind is Kind.SHARE},
        )

    def frame(self) -> "pd.DataFrame":
        """Return the table as a pandas frame: the same columns and figures as in the CSV text.

        Shares are numbers from 0 to 1.

        Texts are the plain ones, with nothing put before what looks like a formula and nothing
        cut. The dtypes are string, boolean, Int64 and, for figures and money, float64; an empty
        cell is the missing value of its dtype.
        ``frame.attrs["meanings"]`` holds the meaning and unit of each column by its name.
        """
        import pandas as pd

        cells = {
            column.name: pd.Series(
                [_framed(row[place]) for row in self.rows], dtype=DTYPES[column.kind]
            )
            for place, column in ((place, self.columns[place]) for place in self._order)
        }
        frame = pd.DataFrame(cells, columns=list(self.header))
        frame.attrs["meanings"] = {
            column.name: column.meaning for column in (self.columns[place] for place in self._order)
        }
        return frame


def _framed(cell: Cell) -> str | int | float | None:
    """Return a cell as a frame holds it: a figure as its file has it, money as a float."""
    if cell is None or isinstance(cell, str | int):
        return cell
    return file_figure(cell) if isinstance(cell, float) else float(cell)
