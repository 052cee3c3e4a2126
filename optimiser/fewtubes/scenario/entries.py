"""One table of a scenario's file, and the ways its entries are read."""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeGuard, TypeVar

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.commas import with_point
from fewtubes.catalogue.exact import exact
from fewtubes.catalogue.limits import (
    LONGEST_INTEGER_BITS,
    NumberRange,
    listed,
    parsed_number,
    shown,
    text_fault,
    word_fault,
)
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.sizes import MOST_WISHED
from fewtubes.scenario.called import id_of

__all__ = ["Entries", "as_written", "is_number", "to_float", "unquoted"]

T = TypeVar("T")


@dataclass(frozen=True)
class Entries:
    """The entries of one table by key.

    Every reader notes a fault and returns a stand-in if the entry is not as it must be. A key that
    is not there gives the default; without a default that is a fault as well.

    Parameters
    ----------
    where
        The file and table, e.g. ``"cottage.toml, flower 2"``.
    values
        What `tomllib` made of it.
    collector
        Takes the faults.
    """

    where: str
    values: Mapping[str, object]
    collector: FaultCollector

    def note(self, key: str, what: str) -> None:
        """Note a fault of one entry."""
        ended = what if what.endswith((".", "?")) else f"{what}."
        self.collector.note(f"{self.where}, {key}", ended)

    def check_keys(self, allowed: Collection[str], elsewhere: Collection[str] = ()) -> None:
        """Note every key that is not allowed here; `elsewhere` are those of the file's top."""
        for key in self.values:
            if key in allowed:
                continue
            if key in elsewhere:
                advice = "this key belongs at the top of the file, before the first [ or [["
            else:
                near = self.collector.suggestion(key, allowed)
                advice = f"unknown key; allowed here: {listed(allowed, len(allowed))}.{near}"
            self.note(shown(key)[1:-1], advice)

    def text(self, key: str, default: str | None = None, *, longest: int = 200) -> str:
        """Return a text, line breaks in it as spaces."""
        if key not in self.values:
            return self._default(key, default, stand_in="", kind="a text")
        value = self.values[key]
        if not isinstance(value, str):
            self.note(key, f"is {as_written(value)}; it must be a text in quotation marks")
            return default or ""
        text = composed(" ".join(value.split()))
        fault = text_fault(text, longest)
        if fault:
            self.note(key, fault)
        return text

    def number(self, key: str, allowed: NumberRange, default: float | None = None) -> float:
        """Return a number inside a range."""
        if key not in self.values:
            return self._default(key, default, stand_in=allowed.high, kind=f"a number {allowed}")
        value = self.values[key]
        fault = allowed.fault(value, shown_as=as_written(value))
        if is_number(value) and fault is None:
            return to_float(value)
        self.note(key, f"{fault}{unquoted(value)}")
        return allowed.high

    def fraction(self, key: str, allowed: NumberRange, default: int) -> Fraction:
        """Return a number inside a range, exactly as written."""
        value = self.number(key, allowed, default)
        written = self.values.get(key)
        if value == 0 or not is_number(written) or value != to_float(written):
            return exact(value)  # nothing is written, or nothing that can be used
        return exact(written)

    def whole(self, key: str, allowed: NumberRange) -> int | None:
        """Return a whole number inside a range, None if it is not given."""
        value = self.values.get(key)
        if value is None:
            return None
        fault = allowed.fault(value, shown_as=as_written(value), whole=True, named=True)
        if isinstance(value, int) and fault is None:
            return value
        fault = fault or f"is {as_written(value)}; it must be a whole number {allowed}"
        self.note(key, f"{fault}{unquoted(value, whole=True)}")
        return None

    def word(self, key: str, allowed: Mapping[str, T]) -> T | None:
        """Return what a word from a fixed list stands for, None if it is not given."""
        if key not in self.values:
            return None
        value = self.values[key]
        if not isinstance(value, str):
            self.note(
                key, f"is {as_written(value)}; allowed, in quotation marks: {listed(allowed)}"
            )
            return None
        fault = word_fault(value, allowed, self.collector.suggestion)
        if fault:
            self.note(key, fault)
        return allowed.get(value)

    def flag(self, key: str) -> bool:
        """Return true or false; false if it is not given."""
        value = self.values.get(key, False)
        if not isinstance(value, bool):
            self.note(key, f"is {as_written(value)}; allowed, without quotation marks: true, false")
        return value is True

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts, each once; empty if it is not given."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
            self.note(
                key, f'is {as_written(value)}; it must be a list of texts, such as ["a", "b"]'
            )
            return ()
        if len(value) > MOST_WISHED:
            self.note(key, f"has {_too_many(len(value), MOST_WISHED)}")
            return ()
        counts = Counter(composed(item) for item in value)
        for item in (item for item, count in counts.items() if count > 1):
            self.note(key, f"{shown(item)} stands there more than once; keep one of them")
        return tuple(counts)

    def tables(self, key: str, most: int) -> tuple["Entries", ...]:
        """Return the tables headed ``[[key]]`` in their order; none if there are none."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            self.note(key, f"must be written as a table under [[{key}]]")
            return ()
        if len(value) > most:
            self.note(key, f"has {_too_many(len(value), most)}")
            return ()
        return tuple(
            Entries(f"{self.where}, {key} {place}", item, self.collector)
            for place, item in enumerate(value, start=1)
        )

    def table(self, key: str) -> "Entries":
        """Return the table headed ``[key]``, an empty one if there is none."""
        value = self.values.get(key, {})
        if not isinstance(value, dict):
            self.note(key, f"must be written as a table under [{key}]")
            value = {}
        return Entries(f"{self.where}, {key}", value, self.collector)

    def chosen(self, key: str, default: str, known: Mapping[str, object]) -> str:
        """Return the id of what the catalogue must hold; the default must be held as well."""
        name = self.text(key, default)
        found = id_of(name, known)
        if found is None:
            near = self.collector.suggestion(name, known)
            what = f"{shown(name)} is not in the catalogue; it holds {listed(known)}.{near}"
            self.note(key, what)
        return found or name

    def _default(self, key: str, default: T | None, *, stand_in: T, kind: str) -> T:
        if default is not None:
            return default
        self.note(key, f"is missing; give {kind}")
        return stand_in


def unquoted(value: object, *, whole: bool = False) -> str:
    """Return that quotation marks are the fault, as the end of a sentence, "" if there are none.

    Parameters
    ----------
    value
        What was written.
    whole
        Whether a whole number is wanted, so that 3,0 is to be written as 3.
    """
    if not isinstance(value, str):
        return ""
    text = with_point(value)
    number = None if text is None else parsed_number(text)
    if whole and number is not None:
        text = f"{number:.0f}"
    plain = number is not None and not (whole and number % 1)
    return f", without quotes{f': write {text}' if plain else ''}"


def _too_many(count: int, most: int) -> str:
    return f"{count:,} entries; at most {most:,} are allowed, so shorten it"


def is_number(value: object) -> TypeGuard[int | Decimal]:
    """Return whether a TOML value is a number; true and false are not."""
    return isinstance(value, int | Decimal) and not isinstance(value, bool)


def to_float(value: int | Decimal) -> float:
    """Return a TOML number as a float; one beyond its range as infinite."""
    if isinstance(value, int) and value.bit_length() > LONGEST_INTEGER_BITS:
        return float("inf") if value > 0 else float("-inf")
    try:
        return float(value)
    except OverflowError:
        return float("inf")


def as_written(value: object) -> str:
    """Return a TOML value as a message repeats it, in TOML's own words."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list | dict):
        return "a list" if isinstance(value, list) else "a table"
    if isinstance(value, int) and value.bit_length() > LONGEST_INTEGER_BITS:
        return "a number of very many digits"
    return shown(value)
