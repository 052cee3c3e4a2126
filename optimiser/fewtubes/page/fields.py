"""Reads what was filled in, field by field; a fault names its field."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import exact, exactly_typed
from fewtubes.catalogue.limits import NumberRange, parsed_number, shown, text_fault, word_fault
from fewtubes.catalogue.sizes import LONGEST_NAME
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.called import looked_up

__all__ = ["LABELS", "MOST_OWN_FLOWERS", "Fields", "first_of", "own_flower_field"]

T = TypeVar("T")

MOST_OWN_FLOWERS = 8
"""Flowers of the painter's own in one question; more are kept in a table."""


def own_flower_field(number: int) -> str:
    """Return what faults of a flower of the painter's own are told of, by its number from 0."""
    return f"own-flower-{number}"


LABELS = {
    "title": "Name of the plan",
    "shows": "What it is meant to show",
    "flowers": "Flowers and colours",
    "colours": "Colours of your own",
    "budget": "Budget",
    "currency": "Currency",
    "price-list": "Prices",
    "most_tubes": "Most tubes to buy",
    "tolerance": "Tolerance",
    "millilitres": "Paint in every tube",
    "lightfastness": "Lightfastness",
    "transparency": "Transparency",
    "thinnest_wash": "No wash thinner than",
    "most_in_mix": "Tubes in a mix",
    "least_coverage": "Coverage that must be reached",
    "trials": "How steady the mixes are",
    "puddling": "Puddles",
    "avoid": "Hazards to avoid",
    "paper": "Paper",
    "light": "Light",
    "prefer": "Of equally good choices",
    "nearer": "Before the price, what comes nearest to what stays out of reach",
    "tubes": "Tubes",
    "class_painters": "How many paint",
    "class_pupils": "Who they are",
    "class_tubes": "How tubes are shared",
    "class_levy": "What each pays",
    "class_pictures": "Pictures each",
    "class_pan": "Paint in a pan",
    "class_hazards": "Avoid the hazards ticked under the finer points, and no others",
    "pictures": "Pictures planned",
    "flower_cm2": "Painted area of a flower",
    "colour_cm2": "Painted area of a colour",
    "waste": "Mixed beyond what is painted",
    "least_puddle_cm2": "Smallest puddle",
    "photograph": "Photograph",
    "scenario": "Scenario file",
    **{own_flower_field(n): f"Flower {n + 1} of your own" for n in range(MOST_OWN_FLOWERS)},
}
"""What a fault is told of, by field."""


@dataclass(frozen=True)
class Fields:
    """What was filled in, read field by field; faults go to the collector."""

    values: FormValues
    collector: FaultCollector

    def note(self, field: str, what: str) -> None:
        """Note a fault of one field, as a sentence."""
        self.collector.note(field, what)

    def text(self, field: str, *, longest: int = LONGEST_NAME) -> str:
        """Return a line of text."""
        text = " ".join(first_of(self.values, field).split())
        fault = text_fault(text, longest)
        if fault:
            self.note(field, f"{fault}.")
        return text

    def text_if_any(self, field: str, *, longest: int) -> str:
        """Return a line of text; blank where the field is."""
        return self.text(field, longest=longest) if first_of(self.values, field).strip() else ""

    def number(self, field: str, allowed: NumberRange, text: str | None = None) -> float:
        """Return a number inside a range; a comma will do for the point."""
        typed = (first_of(self.values, field) if text is None else text).strip().replace(",", ".")
        number = parsed_number(typed)
        fault = allowed.fault(number, shown_as=shown(typed), named=True)
        if number is None or fault:
            self.note(field, f"{fault}.")
            return allowed.high
        return number

    def fraction(self, field: str, allowed: NumberRange, text: str | None = None) -> Fraction:
        """Return a number inside a range, exactly as typed; a comma will do for the point."""
        number = self.number(field, allowed, text)
        typed = (first_of(self.values, field) if text is None else text).strip().replace(",", ".")
        plain = bool(number) and parsed_number(typed) == number
        return exactly_typed(typed) if plain else exact(number)

    def number_if_any(self, field: str, allowed: NumberRange) -> float:
        """Return a number inside a range; 0 where the field is blank."""
        return self.number(field, allowed) if first_of(self.values, field).strip() else 0.0

    def word(self, field: str, known: Mapping[str, T]) -> T | None:
        """Return what a word from a fixed list stands for."""
        word = first_of(self.values, field)
        fault = word_fault(word, known)
        if fault:
            self.note(field, fault)
        return known.get(word)

    def wished(self, field: str, known: Mapping[str, T]) -> T | None:
        """Return what a word stands for; an empty one is no wish."""
        return self.word(field, known) if first_of(self.values, field) else None

    def known(self, field: str, held: Mapping[str, object]) -> str:
        """Return an id that the catalogue must hold."""
        name = first_of(self.values, field)
        (found,) = looked_up([name], held, field, where=field, collector=self.collector)
        return found


def first_of(values: FormValues, field: str) -> str:
    """Return what was filled into a field, an empty text if nothing was."""
    return next(iter(values.get(field, ())), "")
