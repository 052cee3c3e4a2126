"""What a spreadsheet expects of a CSV file, which depends on the country it is set to."""

from enum import StrEnum

__all__ = ["Spreadsheet"]


class Spreadsheet(StrEnum):
    """How cells are parted and decimals written."""

    COMMA = "comma"
    """Commas between cells and a point before decimals, as RFC 4180 and most programs have it."""
    SEMICOLON = "semicolon"
    """Semicolons and a decimal comma, as where a comma stands before decimals (common practice, no
    source); begun with a byte order mark, by which such spreadsheets know UTF-8."""

    @property
    def parts_cells(self) -> str:
        """The sign between two cells."""
        return ";" if self is Spreadsheet.SEMICOLON else ","

    @property
    def parts_nothing(self) -> str:
        """The sign that parts cells elsewhere, and here does not."""
        return "," if self is Spreadsheet.SEMICOLON else ";"

    @property
    def begins(self) -> str:
        """What stands before the header."""
        return "\ufeff" if self is Spreadsheet.SEMICOLON else ""

    def number(self, text: str) -> str:
        """Return a number that was written with a point as it is written here."""
        return text.replace(".", ",") if self is Spreadsheet.SEMICOLON else text
