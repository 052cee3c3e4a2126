"""A scenario's file as plain TOML values; what breaks the form of TOML is told with its line."""

import re
import tomllib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import Source, shown_name, text_of
from fewtubes.catalogue.sizes import DEEPEST_KEY, LARGEST_SCENARIO

__all__ = ["toml_values"]

TEXT_OR_REMARK = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*+"""'
    r"|'''(?:[^']|'(?!''))*+'''"
    r'|"(?:[^"\\\n]|\\.)*+"'
    r"|'[^'\n]*+'"
    r"|#[^\n]*+",
    re.DOTALL,
)
"""What stands in quotation marks or behind a #, where stops and digits mean nothing."""

DEEP_KEY = re.compile(rf"(?<![\w-])[\w-]++(?:[ \t]*+\.[ \t]*+[\w-]++){{{DEEPEST_KEY}}}")
"""More parts joined by stops than any key may have; numbers and dates have two."""

LONG_NUMBER = re.compile(r"(?<![\w.])[+-]?[\d_]{4300,}+")
"""A whole number of more digits than Python reads (4,300, against attacks by length)."""

DECIMAL_COMMA = re.compile(r"=\s*[\"']?[+-]?\d[\d.]*,\d+[\"']?\s*(#.*)?$")
"""An entry such as ``budget = 12,50``, or ``1.234,50``."""

PLACE = re.compile(r"\(at line (\d+), column \d+\)")
"""Where a fault is, in the words of `tomllib`."""


def toml_values(path: Source, collector: FaultCollector) -> Mapping[str, object] | None:
    """Return the values of a TOML file by key, numbers with a point as `Decimal`.

    None after a fault. The decimals keep an amount such as 35.001 from being rounded unnoticed.
    """
    text = text_of(path, collector, largest=LARGEST_SCENARIO)
    if text is None:
        return None
    name = shown_name(path)
    if "\r" in text and "\n" not in text:
        collector.note(name, "ends its lines with CR alone; save it with line ends LF or CRLF.")
        return None
    beyond = _beyond_bounds(text)
    if beyond:
        line, what = beyond
        collector.note(f"{name}, line {line}", what)
        return None
    try:
        return tomllib.loads(text, parse_float=_exact)
    except RecursionError:
        collector.note(name, "is nested too deeply to be a scenario; write it afresh.")
    except ValueError as error:  # TOMLDecodeError, or what it lets through from Python's own types
        collector.note(name, _form_fault(error, text))
    return None


def _beyond_bounds(text: str) -> tuple[int, str] | None:
    """Return line and fault of what would take for ever to read or cannot be read, or None."""
    bare = TEXT_OR_REMARK.sub(_blanked, text)
    for form, what in (
        (
            DEEP_KEY,
            f"holds a key of more than {DEEPEST_KEY} parts joined by stops; no key here has more"
            " than two, so correct it.",
        ),
        (LONG_NUMBER, "holds a number of thousands of digits; correct it."),
    ):
        found = form.search(bare)
        if found:
            return bare.count("\n", 0, found.start()) + 1, what
    return None


def _blanked(found: re.Match[str]) -> str:
    """Return a word in place of a text, nothing in place of a remark, with the same line ends."""
    lines = "\n" * found[0].count("\n")
    return lines if found[0].startswith("#") else f"text{lines}"


def _form_fault(error: ValueError, text: str) -> str:
    """Return what breaks the form of TOML, as a sentence."""
    reason = str(error).removesuffix(".")
    place = PLACE.search(reason)
    if place is None and not isinstance(error, tomllib.TOMLDecodeError):
        return "holds a date or number that cannot be read; correct it."
    if place and DECIMAL_COMMA.search(text.split("\n")[int(place[1]) - 1].rstrip("\r")):
        return f"is not TOML: a number takes a point for its decimals, not a comma {place[0]}."
    return f"is not TOML: {reason}; correct that place."


def _exact(text: str) -> Decimal:
    """Return a number as written; one with an exponent beyond all bounds counts as infinite."""
    try:
        return Decimal(text)
    except InvalidOperation:
        return Decimal("Infinity")
