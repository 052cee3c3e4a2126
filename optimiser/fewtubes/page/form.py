"""The form of the page: what it begins with, and how what was filled in becomes a scenario.

The rules are those of `fewtubes.scenario`; a fault is told of the field that brought it.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import (
    IMPORTANCE,
    NumberRange,
    parsed_number,
    shown,
    text_fault,
    word_fault,
)
from fewtubes.catalogue.money import exact_amount, hundredths
from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.colour.display import hex_to_lab
from fewtubes.mixing.opacity import Transparency
from fewtubes.page.tabs import Values
from fewtubes.scenario.demands import (
    MOST_TUBES,
    TOLERANCE,
    WISHED_MILLILITRES,
    budget_fault,
    clashes,
    currencies,
    missing_from,
)
from fewtubes.scenario.reading import DEFAULT_LIGHT, DEFAULT_PAPER, DEFAULT_TOLERANCE
from fewtubes.scenario.records import FlowerWish, OwnColour, Scenario, Wishes

__all__ = [
    "LABELS",
    "MOST_COLOURS",
    "OwnRow",
    "first_values",
    "importance_of",
    "own_rows",
    "scenario_of",
    "taken_hex",
    "wish_of",
]

T = TypeVar("T")

LABELS = {
    "title": "Name of the plan",
    "flowers": "Flowers and colours",
    "colours": "Colours of your own",
    "budget": "Budget",
    "currency": "Currency",
    "most_tubes": "Most tubes to buy",
    "tolerance": "Tolerance",
    "millilitres": "Paint in every tube",
    "lightfastness": "Lightfastness",
    "transparency": "Transparency",
    "avoid": "Hazards to avoid",
    "paper": "Paper",
    "light": "Light",
    "tubes": "Tubes",
    "photograph": "Photograph",
}
"""What a fault is told of, by field."""

NOTHING_CHOSEN = "nothing is chosen yet; tick a flower, or give a colour of your own."

MOST_COLOURS = 60
"""Colours of one's own; more would be a catalogue."""

LISTS = ("owned", "must_have", "never")

HEX = re.compile(r"#?([0-9a-fA-F]{6})", re.ASCII)


@dataclass(frozen=True)
class OwnRow:
    """A colour of the painter's own, as typed."""

    name: str
    hex: str
    importance: str

    @property
    def blank(self) -> bool:
        """Whether neither name nor colour is given, so that the row does not count."""
        return not self.name.strip() and not self.hex.strip()


def first_values(catalogue: Catalogue) -> Values:
    """Return what the form begins with."""
    codes = currencies(catalogue)
    return {
        "title": ["My flowers"],
        "budget": ["25.00"],
        "currency": [codes[0]],
        "tolerance": [f"{DEFAULT_TOLERANCE:g}"],
        "paper": [_usual(DEFAULT_PAPER, catalogue.papers)],
        "light": [_usual(DEFAULT_LIGHT, catalogue.lights)],
    }


def own_rows(values: Values) -> tuple[OwnRow, ...]:
    """Return the rows of own colours that are not blank."""
    names, hexes = values.get("colour-name", ()), values.get("colour-hex", ())
    weights = values.get("colour-importance", ())
    rows = (
        OwnRow(
            *(column[place] if place < len(column) else "" for column in (names, hexes, weights))
        )
        for place in range(max(len(names), len(hexes)))
    )
    return tuple(row for row in rows if not row.blank)


def importance_of(values: Values, place: int) -> str:
    """Return the importance typed for a flower, by its place in the catalogue."""
    return _first(values, f"importance-{place}") or "1"


def wish_of(values: Values, tube: str) -> str:
    """Return the list that a tube was put on, or an empty text."""
    return _first(values, f"tube-{tube}")


def taken_hex(values: Values) -> tuple[str, ...]:
    """Return the ticked colours of the photograph."""
    return tuple(values.get("take", ()))


def scenario_of(values: Values, catalogue: Catalogue) -> Scenario:
    """Return the scenario that was filled in.

    Raises
    ------
    InputError
        With every fault found; `where` of a fault is a key of `LABELS`.
    """
    fields = _Fields(values, FaultCollector())
    flowers = _flowers(fields, catalogue)
    colours = _own_colours(fields, {flower.name for flower in flowers})
    if not flowers and not own_rows(values):
        fields.note("flowers", NOTHING_CHOSEN)
    scenario = Scenario(
        title=fields.text("title"),
        shows="",
        currency=fields.word("currency", {code: code for code in currencies(catalogue)}) or "",
        budget=_budget(fields),
        most_tubes=_most_tubes(fields),
        tolerance=fields.number("tolerance", TOLERANCE),
        flowers=flowers,
        own_colours=colours,
        wishes=_wishes(fields, catalogue),
        paper=fields.known("paper", catalogue.papers),
        light=fields.known("light", catalogue.lights),
    )
    fields.collector.raise_if_any()
    return scenario


@dataclass(frozen=True)
class _Fields:
    """What was filled in, read field by field; faults go to the collector."""

    values: Values
    collector: FaultCollector

    def note(self, field: str, what: str) -> None:
        self.collector.note(field, what)

    def text(self, field: str) -> str:
        text = " ".join(_first(self.values, field).split())
        fault = text_fault(text)
        if fault:
            self.note(field, f"{fault}.")
        return text

    def number(self, field: str, allowed: NumberRange, text: str | None = None) -> float:
        typed = (_first(self.values, field) if text is None else text).strip().replace(",", ".")
        number = parsed_number(typed)
        if number is None or not allowed.admits(number):
            self.note(field, f"is {shown(typed)}; it must be a number {allowed}.")
            return allowed.high
        return number

    def word(self, field: str, known: Mapping[str, T]) -> T | None:
        word = _first(self.values, field)
        fault = word_fault(word, known)
        if fault:
            self.note(field, fault)
        return known.get(word)

    def wished(self, field: str, known: Mapping[str, T]) -> T | None:
        """Return what a word stands for; an empty one is no wish."""
        return self.word(field, known) if _first(self.values, field) else None

    def known(self, field: str, held: Mapping[str, object]) -> str:
        name = _first(self.values, field)
        for sentence in missing_from([name], held, field):
            self.note(field, sentence)
        return name


def _flowers(fields: _Fields, catalogue: Catalogue) -> tuple[FlowerWish, ...]:
    ticked = set(fields.values.get("flower", ()))
    for sentence in missing_from(sorted(ticked), catalogue.flowers, "flower"):
        fields.note("flowers", sentence)
    return tuple(
        FlowerWish(name, fields.number("flowers", IMPORTANCE, importance_of(fields.values, place)))
        for place, name in enumerate(catalogue.flowers)
        if name in ticked
    )


def _own_colours(fields: _Fields, flowers: set[str]) -> tuple[OwnColour, ...]:
    rows = own_rows(fields.values)
    if len(rows) > MOST_COLOURS:
        fields.note("colours", f"there are {len(rows)}; at most {MOST_COLOURS} are allowed.")
        return ()
    colours = tuple(_own_colour(fields, row) for row in rows)
    for what in _name_faults([colour.name for colour in colours], flowers):
        fields.note("colours", what)
    return colours


def _own_colour(fields: _Fields, row: OwnRow) -> OwnColour:
    name = " ".join(row.name.split()) or row.hex.strip()
    fault = text_fault(name)
    if fault:
        fields.note("colours", f"the name {shown(name)} {fault}.")
    lab = (0.0, 0.0, 0.0)
    written = HEX.fullmatch(row.hex.strip())
    if written:
        L, a, b = hex_to_lab(f"#{written[1]}").tolist()
        lab = (L, a, b)
    else:
        fields.note(
            "colours",
            f"{shown(name)} is {shown(row.hex)}; a colour is written as #rrggbb, such as #c21e56.",
        )
    importance = fields.number("colours", IMPORTANCE, row.importance or "1")
    return OwnColour(name=name, importance=importance, lab=lab)


def _name_faults(names: list[str], flowers: set[str]) -> Iterator[str]:
    """Yield a sentence for every name that does not tell its colour from another."""
    for name in dict.fromkeys(names):
        if names.count(name) > 1:
            yield f"{shown(name)} stands there twice; give each colour a name of its own."
        if name in flowers:
            yield f"{shown(name)} is the name of a flower that is ticked too; choose another."


def _budget(fields: _Fields) -> int:
    """Return the budget in hundredths of the currency."""
    typed = _first(fields.values, "budget").strip().replace(",", ".")
    amount = exact_amount(typed)
    fault = f"is {shown(typed)}; give an amount such as 35.00"
    if amount is not None:
        fault = budget_fault(amount) or ""
    if fault:
        fields.note("budget", f"{fault}.")
        return 1
    return hundredths(amount or Decimal(1))


def _most_tubes(fields: _Fields) -> int | None:
    """Return the largest number of tubes, None where the field is blank."""
    typed = _first(fields.values, "most_tubes").strip()
    if not typed:
        return None
    number = parsed_number(typed)
    if number is None or not MOST_TUBES.admits(number) or number != int(number):
        fields.note("most_tubes", f"is {shown(typed)}; it must be a whole number {MOST_TUBES}.")
        return None
    return int(number)


def _wishes(fields: _Fields, catalogue: Catalogue) -> Wishes:
    lists = {
        key: tuple(id_ for id_ in catalogue.tubes if wish_of(fields.values, id_) == key)
        for key in LISTS
    }
    for _, sentence in clashes(**lists):
        fields.note("tubes", sentence)
    millilitres = _first(fields.values, "millilitres")
    return Wishes(
        owned=lists["owned"],
        must_have=lists["must_have"],
        never=lists["never"],
        lightfastness_floor=fields.wished(
            "lightfastness", {category.name: category for category in Lightfastness}
        ),
        transparency_floor=fields.wished(
            "transparency", {grade.word: grade for grade in Transparency}
        ),
        avoid_hazards=_hazards(fields),
        millilitres=fields.number("millilitres", WISHED_MILLILITRES) if millilitres else 0.0,
    )


def _hazards(fields: _Fields) -> tuple[Hazard, ...]:
    known = {hazard.value: hazard for hazard in Hazard}
    ticked = fields.values.get("avoid", ())
    for word in ticked:
        fault = word_fault(word, known)
        if fault:
            fields.note("avoid", f"{fault}")
    return tuple(known[word] for word in known if word in ticked)


def _usual(wanted: str, known: Mapping[str, object]) -> str:
    return wanted if wanted in known else next(iter(known))


def _first(values: Values, field: str) -> str:
    return next(iter(values.get(field, ())), "")
