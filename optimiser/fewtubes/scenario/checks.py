"""Values of a scenario looked at one by one; each fault is noted under the name of its field."""

from collections.abc import Iterable
from decimal import Decimal
from enum import Enum
from typing import Any, TypeVar

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.commas import comma_hint
from fewtubes.catalogue.limits import LIGHTNESS, OPPONENT, REFLECTANCE, listed, text_fault
from fewtubes.catalogue.names import composed
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.display import hex_to_lab
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.demands import budget_fault, budget_of

__all__ = [
    "Lab",
    "checked_budget",
    "checked_lab",
    "checked_reflectance",
    "checked_text",
    "each_once",
    "lab_of_hex",
    "member",
    "settle_colour",
    "texts",
]

T = TypeVar("T")

Lab = tuple[float, float, float]

EXAMPLES = {"avoid_hazards": '"cadmium"', "flowers": '"foxglove"'}
"""What a list may hold, by field; of others, the id of a tube."""

TUBE = '"magenta"'


def checked_budget(budget: Decimal | float | str, collector: FaultCollector) -> Decimal:
    """Return a budget as it was written; 1 after a fault."""
    amount = budget_of(budget)
    hint = comma_hint(budget) if isinstance(budget, str) else ""
    fault = f"is {budget!r}, which is no amount{hint or '; give one such as 35.00'}"
    if amount is not None:
        fault = budget_fault(amount) or ""
    collector.note_fault("budget", fault)
    return Decimal(1) if amount is None or fault else amount


def checked_text(text: str, key: str, collector: FaultCollector, **limits: int) -> str:
    """Return a text on one line, in composed form."""
    if not isinstance(text, str):
        collector.note(key, f"is {text!r}; it must be a text.")
        return ""
    found = composed(" ".join(text.split()))
    collector.note_fault(key, text_fault(found, **limits))
    return found


def each_once(values: object, key: str, kind: type[T], collector: FaultCollector) -> tuple[T, ...]:
    """Return the values as a tuple, each once.

    A single text is a slip, since it would be read letter by letter.

    Parameters
    ----------
    values
        Any iterable of a kind; for an enumeration its words will do.
    key
        The field, of which a fault is told.
    kind
        What each must be.
    """
    found = [member(value, key, kind, collector) for value in _listed(values, key, collector)]
    return tuple(dict.fromkeys(value for value in found if value is not None))


def texts(values: object, key: str, collector: FaultCollector) -> tuple[str, ...]:
    """Return the texts of a list as they stand there, however often; a single text is a slip."""
    found = (member(value, key, str, collector) for value in _listed(values, key, collector))
    return tuple(value for value in found if value is not None)


def _listed(values: object, key: str, collector: FaultCollector) -> list[object]:
    """Return the values of any iterable but a text; none after a fault."""
    if isinstance(values, str) or not isinstance(values, Iterable):
        collector.note(key, f"is {values!r}; give a list, such as [{EXAMPLES.get(key, TUBE)}].")
        return []
    return list(values)


def member(value: object, key: str, kind: type[T], collector: FaultCollector) -> T | None:
    """Return a value of a kind; of an enumeration also by its word or name, small or large."""
    if isinstance(value, kind):
        return value
    words = {_word(one): one for one in kind} if issubclass(kind, Enum) else {}
    for word, one in words.items():
        if isinstance(value, str) and value.casefold() in (word.casefold(), one.name.casefold()):
            return one
    what = f"one of {listed([*words])}" if words else "a text" if kind is str else kind.__name__
    collector.note(key, f"holds {value!r}; it must be {what}.")
    return None


def _word(one: Enum) -> str:
    """Return the word for a member: its own, its text, or else its name."""
    text = one.value if isinstance(one.value, str) else one.name
    return str(getattr(one, "word", text))


def settle_colour(holder: Any, collector: FaultCollector) -> None:
    """Settle the fields `lab` and `reflectance` of a value, which may be frozen.

    Exactly one of the two is to be given.
    """
    if (holder.lab is None) == (holder.reflectance is None):
        collector.note("lab or reflectance", "give the colour in exactly one of the two ways.")
    if holder.lab is not None:
        object.__setattr__(holder, "lab", checked_lab(holder.lab, collector))
    if holder.reflectance is not None:
        measured = checked_reflectance(holder.reflectance, collector)
        object.__setattr__(holder, "reflectance", measured)


def lab_of_hex(colour: str) -> Lab:
    """Return CIELAB of what a screen (sRGB) shows for ``#rrggbb``.

    Raises
    ------
    InputError
        If the colour is not written so; told of ``colour``.
    """
    try:
        lightness, a, b = hex_to_lab(str(colour)).tolist()
    except ValueError:
        what = f"is {colour!r}; it must be written as #rrggbb, such as #c21e56."
        raise InputError([Fault("colour", what)]) from None
    return lightness, a, b


def checked_lab(lab: object, collector: FaultCollector) -> Lab | None:
    """Return three numbers as CIELAB, None after a fault."""
    values = list(lab) if isinstance(lab, Iterable) and not isinstance(lab, str) else None
    if values is None or len(values) != 3:
        collector.note("lab", f"is {lab!r}; give three numbers: L*, a* and b*.")
        return None
    faults = [
        f"{axis} {fault}"
        for axis, value, allowed in zip(
            ("L*", "a*", "b*"), values, (LIGHTNESS, OPPONENT, OPPONENT), strict=True
        )
        if (fault := allowed.fault(value))
    ]
    for fault in faults:
        collector.note_fault("lab", fault)
    return None if faults else (float(values[0]), float(values[1]), float(values[2]))


def checked_reflectance(reflectance: object, collector: FaultCollector) -> FloatArray | None:
    """Return a reflectance [0–1] on the bands, read-only, shape (bands,); None after a fault."""
    try:
        values = np.array(reflectance, dtype=np.float64)
    except (TypeError, ValueError):
        collector.note("reflectance", f"is {reflectance!r}; it must be {BAND_COUNT} numbers.")
        return None
    if values.shape != (BAND_COUNT,):
        what = (
            f"has the shape {values.shape}; it must be ({BAND_COUNT},), 380 to 730 nm every 10 nm."
        )
        collector.note("reflectance", what)
        return None
    for value in (float(np.min(values)), float(np.max(values))):
        fault = REFLECTANCE.fault(value)
        if fault:
            collector.note_fault("reflectance", f"holds a value that {fault}")
            return None
    values.setflags(write=False)
    return values
