"""Values of a scenario looked at one by one; each fault is noted under the name of its field."""

from collections.abc import Iterable
from decimal import Decimal
from typing import TypeVar

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import LIGHTNESS, OPPONENT, REFLECTANCE, shown, text_fault
from fewtubes.catalogue.names import composed
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.scenario.demands import budget_fault, budget_of

__all__ = ["Lab", "check_lab", "check_reflectance", "checked_budget", "checked_text", "each_once"]

T = TypeVar("T")

Lab = tuple[float, float, float]


def checked_budget(budget: Decimal | float | str, collector: FaultCollector) -> Decimal:
    """Return a budget as it was written; 1 after a fault."""
    amount = budget_of(budget)
    fault = f"is {budget!r}, which is no amount; give one such as 35.00"
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


def each_once(values: Iterable[T], key: str, collector: FaultCollector) -> tuple[T, ...]:
    """Return the values as a tuple; a single text is a slip, since it would be read by letters."""
    if isinstance(values, str):
        collector.note(key, f"is the text {shown(values)}; give a list, such as [{values!r}].")
        return ()
    return tuple(dict.fromkeys(values))


def check_lab(lab: Lab, collector: FaultCollector) -> None:
    """Note what keeps three numbers from being CIELAB."""
    if len(lab) != 3:
        collector.note("lab", f"has {len(lab)} numbers; give three: L*, a* and b*.")
        return
    for axis, value, allowed in zip(
        ("L*", "a*", "b*"), lab, (LIGHTNESS, OPPONENT, OPPONENT), strict=True
    ):
        fault = allowed.fault(value)
        collector.note_fault("lab", fault and f"{axis} {fault}")


def check_reflectance(reflectance: FloatArray, collector: FaultCollector) -> None:
    """Note what keeps an array from being a reflectance [0–1] on the bands, shape (bands,)."""
    shape = np.shape(reflectance)
    if shape != (BAND_COUNT,):
        what = f"has the shape {shape}; it must be ({BAND_COUNT},), 380 to 730 nm every 10 nm."
        collector.note("reflectance", what)
        return
    for value in (float(np.min(reflectance)), float(np.max(reflectance))):
        fault = REFLECTANCE.fault(value)
        if fault:
            collector.note_fault("reflectance", f"holds a value that {fault}")
            return
