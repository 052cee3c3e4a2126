"""A scenario's file as plain TOML values; what breaks the form of TOML is told with its line."""

import tomllib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import text_of

__all__ = ["toml_values"]


def toml_values(path: Path, collector: FaultCollector) -> Mapping[str, object] | None:
    """Return the values of a TOML file by key, numbers with a point as `Decimal`.

    None after a fault. The decimals keep an amount such as 35.001 from being rounded unnoticed.
    """
    text = text_of(path, collector)
    if text is None:
        return None
    try:
        return tomllib.loads(text, parse_float=_exact)
    except RecursionError:
        collector.note(path.name, "is nested too deeply to be a scenario; write it afresh.")
    except ValueError as error:  # TOMLDecodeError, or a number of too many digits
        reason = str(error).removesuffix(".")
        collector.note(path.name, f"is not TOML: {reason}; correct that place.")
    return None


def _exact(text: str) -> Decimal:
    """Return a number as written; one with an exponent beyond all bounds counts as infinite."""
    try:
        return Decimal(text)
    except InvalidOperation:
        return Decimal("Infinity")
