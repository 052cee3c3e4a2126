"""What a cell of a spreadsheet says: numbers however they are written there, texts on one line."""

import re
from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import NumberRange, parsed_number, shown
from fewtubes.catalogue.rows import Row
from fewtubes.keeping.pigment_words import named_pigments
from fewtubes.keeping.sheet_cells import SheetRow
from fewtubes.keeping.sheet_columns import USUAL, SheetColumns
from fewtubes.tables.cells import cell_text

__all__ = ["SheetReader"]

BESIDE_NUMBERS = re.compile(r"^\s*[€$£¥]|(?:[€$£¥]|(?i:(?<![a-z])ml))\s*$")
"""What may stand before or behind a number: signs of currencies, and the unit. Within it a sign
stands for the decimal one, 3€90, and is not taken away."""

BLANKS_BETWEEN = re.compile(r"(?<=\d)[\s'’](?=\d{3}(?!\d))")
"""Blanks and apostrophes that set thousands apart."""

GROUPED = {
    ",": re.compile(r"[+-]?\d{1,3}(?:\.\d{3})+(?:,\d*)?", re.ASCII),
    ".": re.compile(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?", re.ASCII),
}
"""Thousands set apart by the sign that is not the decimal one, which is the key."""

STAND_IN = "1"
"""Gone on with where a fault was told already; every column of numbers may hold it."""

OTHER = {",": ".", ".": ","}


@dataclass(frozen=True)
class SheetReader:
    """Reads the cells of one row; a fault is told of the row, and named by its heading."""

    row: SheetRow
    columns: SheetColumns
    collector: FaultCollector

    def note(self, key: str, what: str) -> None:
        """Note a fault of one cell, or of what is the same in all rows.

        Of a formula it is told that it is one, and nothing of what it lacks as a value.
        """
        if self.is_formula(key):
            what = self._formula_fault(key)
        Row(self._where(key), {}, self.collector).note(f"{self.name(key)} {what}")

    def is_formula(self, key: str) -> bool:
        """Return whether a cell holds a formula in the place of a value."""
        cell = self.row.cells.get(key)
        return isinstance(cell, str) and cell.lstrip().startswith("=")

    def name(self, key: str) -> str:
        """Return what a column is called in the sheet."""
        return self.columns.headings.get(key, key)

    def text(self, key: str) -> str:
        """Return a text; "" where nothing says it."""
        cell = self.row.cells.get(key)
        if cell is None:
            return self.columns.always.get(key, USUAL.get(key, ""))
        text = f"{cell:f}" if isinstance(cell, Decimal) else " ".join(cell.split())
        if self.is_formula(key):
            self.note(key, self._formula_fault(key))
            return ""
        return text or USUAL.get(key, "")

    def words(self, key: str) -> str:
        """Return a text that may be shown in a spreadsheet; "" where nothing says it."""
        text = self.text(key)
        if cell_text(text) != text:
            self.note(key, f"is {shown(text)}, which a spreadsheet takes for a formula; rename it")
        return text

    def identifier(self, key: str) -> str:
        """Return an id; "" where nothing says it."""
        text = self.text(key)
        return self._as_row(key, text).identifier(self.name(key)) if text else ""

    def number(self, key: str, allowed: NumberRange) -> str:
        """Return a number as it stands in a table, with a point for its decimals."""
        text = self._plain(key)
        self._as_row(key, text).number(self.name(key), allowed)
        return text

    def amount(self, key: str, allowed: NumberRange) -> str:
        """Return an amount of money as it stands in a table."""
        text = self._plain(key)
        hundredths = self._as_row(key, text).hundredths(self.name(key), allowed)
        return f"{Decimal(hundredths) / 100:.2f}"

    def word(self, key: str, allowed: Collection[str]) -> str:
        """Return a word of a list; capitals do not matter."""
        text = self.text(key).lower()
        self._as_row(key, text).word(self.name(key), {word: word for word in allowed})
        return text

    def pigments(self, key: str) -> tuple[tuple[str, Fraction], ...]:
        """Return what a cell such as ``PR122 60 % + PB29 40 %`` names, with its parts."""
        pigments, fault = named_pigments(self.text(key))
        if fault:
            self.note(key, fault)
        return pigments

    def _formula_fault(self, key: str) -> str:
        """Return what is told of a formula; only in a workbook it can still be computed."""
        if self.row.of_workbook:
            return "is a formula that was never computed; open the workbook and save it"
        return f"is {shown(str(self.row.cells[key]))}, a formula; write what it comes to"

    def _plain(self, key: str) -> str:
        """Return a number in the sheet's own writing as plain text; what is none as it is."""
        sign = self.columns.decimal if key in self.row.cells else "."
        cell = self.row.cells.get(key)
        if isinstance(cell, Decimal):
            return f"{cell:f}"
        if self.is_formula(key):
            self.note(key, self._formula_fault(key))
            return STAND_IN
        text = self.text(key)
        bare = BLANKS_BETWEEN.sub("", BESIDE_NUMBERS.sub("", text).strip())
        if GROUPED[sign].fullmatch(bare):
            bare = bare.replace(OTHER[sign], "")
        other = OTHER[sign]
        if _has_other_decimals(bare, other):
            self.note(
                key,
                f"is {shown(text)}, whose decimals stand after {shown(other)}; say decimal ="
                f' "{other}" in {self.columns.file} if the whole sheet has them so',
            )
            return STAND_IN
        plain = bare.replace(sign, ".")
        return plain if parsed_number(plain) is not None else text

    def _as_row(self, key: str, text: str) -> Row:
        """Return one cell as a row, of which nothing is noted if it is a formula: that was told."""
        name, cell = self.name(key), self.row.cells.get(key)
        return Row(
            self._where(key),
            {name: text},
            self.collector,
            whole=not self.is_formula(key),
            written={name: cell} if isinstance(cell, str) and cell else {},
        )

    def _where(self, key: str) -> str:
        in_sheet = key in self.row.cells or key not in self.columns.always
        return self.row.where if in_sheet else f"{self.columns.file}, always"


def _has_other_decimals(text: str, other: str) -> bool:
    """Return whether a number's decimals stand after the other sign than the one agreed on."""
    plain = parsed_number(text.replace(",", "."))
    return (other in text and plain is not None) or bool(
        other in text and OTHER[other] in text and GROUPED[other].fullmatch(text)
    )
