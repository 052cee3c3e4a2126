"""One row of a table, and the ways its cells are read."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import isnan, nan
from typing import TypeVar

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import exactly_typed
from fewtubes.catalogue.limits import (
    NumberRange,
    listed,
    parsed_number,
    shown,
    text_fault,
    word_fault,
)
from fewtubes.catalogue.money import amount_fault, exact_amount, hundredths
from fewtubes.catalogue.sizes import LONGEST_NAME, LONGEST_NOTE
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray

__all__ = ["BAND_COLUMNS", "Row", "is_identifier"]

T = TypeVar("T")

BAND_COLUMNS = tuple(f"nm{wavelength:.0f}" for wavelength in WAVELENGTH_NM)
"""The columns of a spectrum, ``nm380`` … ``nm730``, one per band."""

PLAIN_SIGNS = re.compile(r"[-+.,eE0-9]+", re.ASCII)
"""Of numbers made of these signs alone `float` takes the plain ones (`limits.NUMBER`) only."""

IDENTIFIER = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*", re.ASCII)


@dataclass(frozen=True)
class Row:
    """The cells of one row by column, stripped of outer spaces.

    Every reader notes a fault and returns a stand-in if the cell is not as it must be; a row that
    is not `whole` has already been faulted, so its cells are read without further remarks.
    """

    where: str
    cells: Mapping[str, str]
    collector: FaultCollector
    whole: bool = True
    written: Mapping[str, str] = field(default_factory=dict)
    """Cells that were written in another way, with a decimal comma: as the painter knows them."""

    def as_written(self, column: str) -> str:
        """Return a cell as it stands in the file, for a message."""
        return self.written.get(column, self.cells[column])

    def note(self, what: str) -> None:
        """Note a fault of this row."""
        if self.whole:
            self.collector.note(self.where, what if what.endswith((".", "?")) else f"{what}.")

    def text(self, column: str) -> str:
        """Return a text that must not be blank."""
        text = self.cells[column]
        fault = text_fault(text)
        if fault:
            self.note(f"{column} {fault}")
        return text

    def remark(self, column: str) -> str:
        """Return a text that may be blank, and longer than a name."""
        text = self.cells[column]
        fault = text_fault(text, LONGEST_NOTE)
        if text and fault:
            self.note(f"{column} {fault}")
        return text

    def identifier(self, column: str, form: re.Pattern[str] = IDENTIFIER) -> str:
        """Return an id: lower-case letters and digits, words joined by hyphens."""
        text = self.text(column)
        if text and len(text) <= LONGEST_NAME and not form.fullmatch(text):
            letters = "lower-case letters" if form is IDENTIFIER else "letters"
            self.note(
                f"{column} is {shown(text)}; an id is made of plain {letters} and digits, with"
                " words joined by single hyphens"
            )
        return text

    def reference(self, column: str, known: Collection[str] | None, table: str) -> str:
        """Return an id that must stand in another table; None if that could not be read."""
        text = self.text(column)
        if text and known is not None and text not in known:
            near = self.collector.suggestion(text, known)
            self.note(
                f"{column} {shown(text)} is not in {table}; correct it or add it there.{near}"
            )
        return text

    def number(self, column: str, allowed: NumberRange) -> float:
        """Return a number inside a range; NaN after a fault."""
        text = self.cells[column]
        value = parsed_number(text)
        if value is not None and allowed.admits(value):
            return value
        self.note(f"{column} {_number_fault(text, allowed, self.as_written(column))}")
        return nan

    def fraction(self, column: str, allowed: NumberRange) -> Fraction:
        """Return a number above 0 inside a range, exactly as written; 1 after a fault."""
        value = self.number(column, allowed)
        return Fraction(1) if isnan(value) else exactly_typed(self.cells[column])

    def hundredths(self, column: str, allowed: NumberRange) -> int:
        """Return an amount of money inside a range, in hundredths; 1 after a fault."""
        text = self.cells[column]
        amount = exact_amount(text)
        if amount is None:
            fault: str | None = _number_fault(text, allowed)
        else:
            said = shown(self.as_written(column)) if column in self.written else None
            fault = amount_fault(amount, allowed, shown_as=said)
        if amount is None or fault:
            self.note(f"{column} {fault}")
            return 1
        return hundredths(amount)

    def word(self, column: str, allowed: Mapping[str, T]) -> T:
        """Return what a word from a fixed list stands for; the first of them after a fault."""
        return self._meaning(column, self.cells[column], allowed)

    def several_words(self, column: str, allowed: Mapping[str, T]) -> tuple[T, ...]:
        """Return what words of a fixed list, parted by blanks, stand for, in the list's order."""
        found = [self._meaning(column, word, allowed) for word in self.cells[column].split()]
        return tuple(meaning for meaning in allowed.values() if meaning in found)

    def _meaning(self, column: str, text: str, allowed: Mapping[str, T]) -> T:
        """Return what a word stands for; the first meaning there is after a fault."""
        fault = f"is blank; allowed: {listed(allowed)}"
        if text:
            fault = word_fault(text, allowed, self.collector.suggestion) or ""
        if fault:
            self.note(f"{column} {fault}")
        return allowed.get(text, next(iter(allowed.values())))

    def spectrum(self, allowed: NumberRange) -> FloatArray:
        """Return the values of the band columns, read-only, shape (bands,)."""
        texts = [self.cells[column] for column in BAND_COLUMNS]
        values: Sequence[float | None] | None = _sound_numbers(texts, allowed)
        if values is None:
            values = [parsed_number(text) for text in texts]
            sound = [value is not None and allowed.admits(value) for value in values]
            self._note_bad_bands(texts, sound, allowed)
        spectrum = np.array([nan if value is None else value for value in values])
        spectrum.setflags(write=False)
        return spectrum

    def _note_bad_bands(
        self, texts: Sequence[str], sound: Sequence[bool], allowed: NumberRange
    ) -> None:
        """Note the gaps of a spectrum in one fault, its wrong values in another."""
        bands = list(zip(BAND_COLUMNS, texts, sound, strict=True))
        gaps = [column for column, text, _ in bands if not text]
        wrong = [f"{column} {shown(text)}" for column, text, fine in bands if text and not fine]
        if gaps:
            self.note(f"the spectrum has gaps at {', '.join(gaps)}; give a value for every band")
        if wrong:
            self.note(f"{', '.join(wrong)}: every band must be a number {allowed}")


def is_identifier(text: str) -> bool:
    """Return whether a text has the form of an id."""
    return bool(IDENTIFIER.fullmatch(text))


def _sound_numbers(texts: Sequence[str], allowed: NumberRange) -> list[float] | None:
    """Return the numbers if all are plain and inside the range; tables hold them by the 100,000."""
    if not PLAIN_SIGNS.fullmatch(",".join(texts)):
        return None
    try:
        values = [float(text) for text in texts]
    except ValueError:
        return None
    return values if allowed.admits(min(values)) and allowed.admits(max(values)) else None


def _number_fault(text: str, allowed: NumberRange, written: str | None = None) -> str:
    """Return why a cell is not a number in the range, as the end of a sentence."""
    if not text:
        return f"is blank; it must be a number {allowed}"
    fault = allowed.fault(parsed_number(text), shown_as=shown(written or text))
    if fault and parsed_number(text) is not None:
        return fault
    comma = parsed_number(text.replace(",", ".")) is not None
    hint = "; write the decimals after a point" if comma else ""
    return f"is {shown(text)}, which is not a plain number; it must be {allowed}{hint}"
