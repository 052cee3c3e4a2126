"""Flowers of the painter's own as the form holds them: a name, an importance, rows of colours.

Each has a number, under which its fields stand; lists of its rows go by their place. A row counts
if it is ticked and has a colour.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.flowers import ROLES
from fewtubes.catalogue.limits import IMPORTANCE, shown, text_fault, word_fault
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.colour.display import lab_to_hex
from fewtubes.errors import InputError
from fewtubes.page.fields import MOST_OWN_FLOWERS, Fields, first_of, own_flower_field
from fewtubes.page.own_rows import HEX
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.own_flowers import (
    OwnFlower,
    OwnSwatch,
    held_otherwise,
    usual_importance,
)
from fewtubes.scenario.scenario_text import decimal_text

__all__ = [
    "BLANK_ROW",
    "MOST_ROWS",
    "FlowerRow",
    "TypedFlower",
    "flower_fields",
    "of_flower",
    "own_flower_values",
    "typed_flowers",
    "with_flowers",
]

MOST_ROWS = 16
"""Colours of one flower, so that a form filled in to the brim stays below its limit of fields."""

NO_ROWS = "has no colours; give it one at least, or take the flower out."


@dataclass(frozen=True)
class FlowerRow:
    """A colour of such a flower, as typed."""

    name: str = ""
    hex: str = ""
    role: str = Role.PETAL.value
    importance: str = ""
    """Blank for what is usual for the role."""
    taken: bool = True

    @property
    def blank(self) -> bool:
        """Whether neither name nor colour is given, so that the row does not count."""
        return not self.name.strip() and not self.hex.strip()


BLANK_ROW = FlowerRow()


@dataclass(frozen=True)
class TypedFlower:
    """A flower of the painter's own, as typed."""

    number: int
    name: str = ""
    importance: str = "1"
    rows: tuple[FlowerRow, ...] = ()

    @property
    def field(self) -> str:
        """What its faults are told of."""
        return own_flower_field(self.number)

    @property
    def counted(self) -> tuple[FlowerRow, ...]:
        """Its rows that count."""
        return tuple(row for row in self.rows if row.taken and not row.blank)

    @property
    def blank(self) -> bool:
        """Whether nothing is filled in, so that the flower does not count."""
        return not self.name.strip() and all(row.blank for row in self.rows)


def typed_flowers(values: FormValues) -> tuple[TypedFlower, ...]:
    """Return the flowers of one's own that the form holds, blank rows at their ends left out."""
    allowed = {f"{number}": number for number in range(MOST_OWN_FLOWERS)}
    numbers = [allowed[n] for n in dict.fromkeys(values.get("own-flower", ())) if n in allowed]
    return tuple(_typed(values, number) for number in numbers)


def with_flowers(values: FormValues, flowers: Sequence[TypedFlower]) -> FormValues:
    """Return the values with these flowers in place of those of one's own that were there."""
    own = ("own-flower", "swatch-")
    others = {key: texts for key, texts in values.items() if not key.startswith(own)}
    return {**others, **flower_fields(flowers)}


def flower_fields(flowers: Sequence[TypedFlower]) -> FormValues:
    """Return the fields that hold flowers of one's own."""
    fields: dict[str, Sequence[str]] = {"own-flower": [f"{one.number}" for one in flowers]}
    for one in flowers:
        fields |= {
            f"own-flower-name-{one.number}": [one.name],
            f"own-flower-importance-{one.number}": [one.importance],
            f"swatch-name-{one.number}": [row.name for row in one.rows],
            f"swatch-hex-{one.number}": [row.hex for row in one.rows],
            f"swatch-role-{one.number}": [row.role for row in one.rows],
            f"swatch-importance-{one.number}": [row.importance for row in one.rows],
            f"swatch-taken-{one.number}": [f"{n}" for n, row in enumerate(one.rows) if row.taken],
        }
    return fields


def of_flower(number: int, flower: OwnFlower) -> TypedFlower:
    """Return a flower of a scenario as the form holds it, in colours of a screen."""
    rows = tuple(
        FlowerRow(
            one.name,
            lab_to_hex(np.array(one.lab or (0.0, 0.0, 0.0))),
            one.role.value,
            _unusual(one),
        )
        for one in flower.swatches
    )
    return TypedFlower(number, flower.name, decimal_text(flower.importance), rows)


def own_flower_values(fields: Fields, catalogue: Catalogue) -> tuple[OwnFlower, ...]:
    """Return the flowers of one's own that are filled in; each fault is told of its flower."""
    found: list[OwnFlower] = []
    for typed in typed_flowers(fields.values):
        if typed.blank:
            continue
        flower = _flower(fields, typed)
        if flower is None:
            continue
        for _, what in held_otherwise([flower], catalogue.flowers):
            fields.note(typed.field, f"{what}.")
        if alike_key(flower.name) in {alike_key(one.name) for one in found}:
            what = "is the name of another flower of your own; give each a name of its own."
            fields.note(typed.field, f"{shown(flower.name)} {what}")
        found.append(flower)
    return tuple(found)


def _typed(values: FormValues, number: int) -> TypedFlower:
    columns = [
        values.get(f"swatch-{column}-{number}", ())
        for column in ("name", "hex", "role", "importance")
    ]
    taken = set(values.get(f"swatch-taken-{number}", ()))
    rows = []
    for place in range(max(map(len, columns))):
        name, hex_, role, importance = (
            column[place] if place < len(column) else "" for column in columns
        )
        rows.append(FlowerRow(name, hex_, role or Role.PETAL, importance, f"{place}" in taken))
    while rows and rows[-1].blank:
        rows.pop()
    importance = first_of(values, f"own-flower-importance-{number}") or "1"
    name = first_of(values, f"own-flower-name-{number}")
    return TypedFlower(number, name, importance, tuple(rows))


def _flower(fields: Fields, typed: TypedFlower) -> OwnFlower | None:
    """Return a flower; None after a fault, which is told."""
    faults = FaultCollector()
    own = replace(fields, collector=faults)
    name = _text(typed.name, "name", typed.field, faults)
    if not typed.counted:
        faults.note(typed.field, NO_ROWS)
    if len(typed.rows) > MOST_ROWS:
        what = f"has {len(typed.rows)} colours; at most {MOST_ROWS} are allowed here."
        faults.note(typed.field, what)
    importance = _importance(own, typed.field, typed.importance, "the importance")
    swatches = [_swatch(own, typed.field, row) for row in typed.counted[:MOST_ROWS]]
    try:
        faults.raise_if_any()
        return OwnFlower(name, tuple(one for one in swatches if one is not None), importance)
    except InputError as error:
        for fault in error.faults:
            fields.note(typed.field, fault.what)
        return None


def _swatch(fields: Fields, field: str, row: FlowerRow) -> OwnSwatch | None:
    """Return a colour of a flower; None after a fault, which is told."""
    name = _text(row.name.strip() or row.role, "colour's name", field, fields.collector)
    written = HEX.fullmatch(row.hex.strip())
    if not written:
        what = f"{shown(name)} is {shown(row.hex)}; a colour is written as #rrggbb, such as #c21e56"
        fields.note(field, f"{what}.")
    fault = word_fault(row.role, ROLES)
    if fault:
        fields.note(field, f"the part of {shown(name)} {fault}")
    importance: Fraction | None = None
    if row.importance.strip():
        importance = _importance(fields, field, row.importance, f"the weight of {shown(name)}")
    if not written or fault or text_fault(name):
        return None
    try:
        return OwnSwatch.from_hex(name, ROLES[row.role], f"#{written[1].lower()}", importance)
    except InputError:
        return None  # the importance, which is told already


def _importance(fields: Fields, field: str, typed: str, what: str) -> Fraction:
    """Return an importance; a fault says of what it is."""
    own = replace(fields, collector=FaultCollector())
    importance = own.fraction(field, IMPORTANCE, typed)
    try:
        own.collector.raise_if_any()
    except InputError as error:
        for fault in error.faults:
            fields.note(field, f"{what} {fault.what}")
    return importance


def _text(typed: str, what: str, field: str, faults: FaultCollector) -> str:
    text = composed(" ".join(typed.split()))
    fault = text_fault(text)
    faults.note_fault(field, fault and f"the {what} {fault}")
    return text


def _unusual(swatch: OwnSwatch) -> str:
    """Return what a colour counts within its flower; blank if that is what is usual."""
    counts = swatch.importance
    usual = counts is None or counts == usual_importance(swatch.role)
    return "" if counts is None or usual else decimal_text(counts)
