"""One table of a scenario's file, and the ways its entries are read."""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeGuard, TypeVar

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import NumberRange, listed, shown, text_fault, word_fault
from fewtubes.errors import suggestion

__all__ = ["Entries", "is_number", "to_float", "told"]

T = TypeVar("T")

LONGEST_INTEGER_BITS = 256
"""Longer integers are not written out in a message."""


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
                near = suggestion(key, list(allowed)) if len(key) < 100 else ""
                advice = f"unknown key; allowed here: {', '.join(allowed)}.{near}"
            self.note(shown(key).strip("'"), advice)

    def text(self, key: str, default: str | None = None, *, longest: int = 200) -> str:
        """Return a text, line breaks in it as spaces."""
        if key not in self.values:
            return self._default(key, default, stand_in="", kind="a text")
        value = self.values[key]
        if not isinstance(value, str):
            self.note(key, f"is {told(value)}; it must be a text in quotation marks")
            return default or ""
        text = " ".join(value.split())
        fault = text_fault(text, longest)
        if fault:
            self.note(key, fault)
        return text

    def number(self, key: str, allowed: NumberRange, default: float | None = None) -> float:
        """Return a number inside a range."""
        if key not in self.values:
            return self._default(key, default, stand_in=allowed.high, kind=f"a number {allowed}")
        value = self.values[key]
        if not is_number(value):
            self.note(key, f"is {told(value)}; it must be a number {allowed}, without quotes")
        elif not allowed.admits(to_float(value)):
            self.note(key, f"is {told(value)}; it must be {allowed}")
        else:
            return to_float(value)
        return allowed.high

    def whole(self, key: str, allowed: NumberRange) -> int | None:
        """Return a whole number inside a range, None if it is not given."""
        value = self.values.get(key)
        if value is None:
            return None
        if (
            isinstance(value, int)
            and not isinstance(value, bool)
            and allowed.admits(to_float(value))
        ):
            return value
        self.note(key, f"is {told(value)}; it must be a whole number {allowed}")
        return None

    def word(self, key: str, allowed: Mapping[str, T]) -> T | None:
        """Return what a word from a fixed list stands for, None if it is not given."""
        if key not in self.values:
            return None
        value = self.values[key]
        if not isinstance(value, str):
            self.note(key, f"is {told(value)}; allowed, in quotation marks: {listed(allowed)}")
            return None
        fault = word_fault(value, allowed)
        if fault:
            self.note(key, fault)
        return allowed.get(value)

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts, each once; empty if it is not given."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
            self.note(key, f'is {told(value)}; it must be a list of texts, such as ["a", "b"]')
            return ()
        counts = Counter(value)
        for item in (item for item, count in counts.items() if count > 1):
            self.note(key, f"{shown(item)} stands there more than once; keep one of them")
        return tuple(counts)

    def tables(self, key: str) -> tuple["Entries", ...]:
        """Return the tables headed ``[[key]]`` in their order; none if there are none."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            self.note(key, f"must be written as a table under [[{key}]]")
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

    def chosen(self, key: str, default: str, known: Collection[str]) -> str:
        """Return an id that the catalogue must hold; the default must be held as well."""
        name = self.text(key, default)
        if name not in known:
            near = suggestion(name, list(known)) if len(name) < 100 else ""
            what = f"{shown(name)} is not in the catalogue; it holds {listed(known)}.{near}"
            self.note(key, what)
        return name

    def _default(self, key: str, default: T | None, *, stand_in: T, kind: str) -> T:
        if default is not None:
            return default
        self.note(key, f"is missing; give {kind}")
        return stand_in


def is_number(value: object) -> TypeGuard[int | Decimal]:
    """Return whether a TOML value is a number; true and false are not."""
    return isinstance(value, int | Decimal) and not isinstance(value, bool)


def to_float(value: int | Decimal) -> float:
    """Return a TOML number as a float; one beyond its range as infinite."""
    try:
        return float(value)
    except OverflowError:
        return float("inf")


def told(value: object) -> str:
    """Return a TOML value as a message repeats it, in TOML's own words."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list | dict):
        return "a list" if isinstance(value, list) else "a table"
    if isinstance(value, int) and value.bit_length() > LONGEST_INTEGER_BITS:
        return "a number of very many digits"
    return shown(value)
