"""A class that paints and pictures that are planned, as the form holds them."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any, TypeVar

from fewtubes.catalogue.exact import exact
from fewtubes.catalogue.limits import NumberRange, parsed_number, shown
from fewtubes.errors import InputError
from fewtubes.page.amounts import read_amount
from fewtubes.page.fields import Fields, first_of
from fewtubes.scenario.class_wish import (
    PAINTERS,
    PAN,
    PICTURES,
    ClassWish,
    Pupils,
    TubesFor,
    pictures_clash,
)
from fewtubes.scenario.demands import budget_fault
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.picture_wish import AREA_CM2, PICTURE_NUMBERS, PictureWish
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.scenario_text import decimal_text
from fewtubes.scenario.wanted import FlowerWish, OwnColour

__all__ = [
    "AREA",
    "PLANNED_FIELDS",
    "areas_of",
    "class_asked",
    "pictures_planned",
    "planned_values",
    "told_of_fields",
    "with_area",
]

Painted = TypeVar("Painted", FlowerWish, OwnFlower, OwnColour)

CLASS_FIELDS = ("class_painters", "class_pupils", "class_tubes", "class_pictures", "class_pan",
                "class_levy", "class_hazards")  # fmt: skip
PICTURE_FIELDS = ("pictures", "flower_cm2", "colour_cm2", "waste", "least_puddle_cm2")

PLANNED_FIELDS = (*CLASS_FIELDS, *PICTURE_FIELDS)
"""Fields of the form, in their order."""

AREA = "area"
"""Field of the painted areas that an opened file gave, one a text: ``30 primrose`` [cm²]."""

WITHOUT_PAINTERS = "is filled in, but not how many paint; give that, or leave this blank."

WITHOUT_PICTURES = (
    "is blank, but other figures about them are filled in; give how many are planned, or leave"
    " those blank as well."
)

FIELD_OF: Mapping[str, str] = {
    "painters": "class_painters",
    "pupils": "class_pupils",
    "tubes": "class_tubes",
    "pan_millilitres": "class_pan",
    "levy": "class_levy",
    "picture": "pictures",
}
"""The field of what the library finds fault with, by its name there."""


def class_asked(fields: Fields) -> ClassWish | None:
    """Return the class that was filled in; None if there is none, or after a fault."""
    values = fields.values
    if not first_of(values, "class_painters").strip():
        for field in ("class_pictures", "class_pan", "class_levy"):
            if first_of(values, field).strip():
                fields.note(field, WITHOUT_PAINTERS)
        return None
    found: dict[str, Any] = {
        "painters": _number(fields, "class_painters", PAINTERS, whole=True),
        "pupils": fields.wished("class_pupils", {one.value: one for one in Pupils}),
        "tubes": fields.wished("class_tubes", {one.value: one for one in TubesFor}),
        "pictures": _number(fields, "class_pictures", PICTURES, whole=True),
        "pan_millilitres": _number(fields, "class_pan", PAN),
        "levy": _levy(fields),
    }
    if found["painters"] is None:
        return None
    given = {key: value for key, value in found.items() if value is not None}
    try:
        return ClassWish(**given, hazards_as_wished=first_of(values, "class_hazards") == "yes")
    except InputError as error:
        for fault in error.faults:
            field = "class_pictures" if fault.where == "pictures" else FIELD_OF[fault.where]
            fields.note(field, fault.what)
        return None


def pictures_planned(fields: Fields, group: ClassWish | None) -> PictureWish | None:
    """Return the pictures planned; None if none are. How many a class paints, the class says."""
    typed = {field: first_of(fields.values, field).strip() for field in PICTURE_FIELDS}
    if not any(typed.values()):
        return None
    if not typed["pictures"] and group is None:
        fields.note("pictures", WITHOUT_PICTURES)
        return None
    found: dict[str, Any] = {
        field: _number(fields, field, PICTURE_NUMBERS[field])
        for field in ("flower_cm2", "colour_cm2", "least_puddle_cm2")
    }
    found["pictures"] = _number(fields, "pictures", PICTURE_NUMBERS["pictures"], whole=True)
    if group is not None and found["pictures"] is not None:
        fields.collector.note_fault("pictures", pictures_clash(found["pictures"], group))
    waste = PICTURE_NUMBERS["waste"]
    wasted = _number(fields, "waste", NumberRange(100 * waste.low, 100 * waste.high))
    found["waste"] = None if wasted is None else wasted / 100
    return PictureWish(**{key: value for key, value in found.items() if value is not None})


def areas_of(fields: Fields) -> Mapping[str, float]:
    """Return the painted areas that an opened file gave [cm²], by flower or own colour."""
    areas = {}
    for text in fields.values.get(AREA, ()):
        typed, _, name = text.partition(" ")
        number = parsed_number(typed)
        if number is not None and not AREA_CM2.fault(number):
            areas[name] = number
    return areas


def with_area(painted: Painted, areas: Mapping[str, float]) -> Painted:
    """Return a flower or colour with its painted area, if one is known."""
    area = areas.get(painted.name)
    return painted if area is None else replace(painted, area_cm2=area)


def told_of_fields(error: InputError) -> InputError:
    """Return what the library finds wrong with a scenario, told of the fields that gave it."""
    return InputError([replace(it, where=FIELD_OF.get(it.where, it.where)) for it in error.faults])


def planned_values(scenario: Scenario) -> Iterator[tuple[str, list[str]]]:
    """Yield the fields of a scenario's class and pictures, as if filled in by hand."""
    yield from _class_values(scenario.group)
    yield from _picture_values(scenario.picture, scenario.group)
    painted = [*scenario.flowers, *scenario.own_colours]
    yield (
        AREA,
        [f"{decimal_text(one.area_cm2)} {one.name}" for one in painted if one.area_cm2 is not None],
    )


def _class_values(group: ClassWish | None) -> Iterator[tuple[str, list[str]]]:
    if group is None:
        return
    yield "class_painters", [f"{group.painters}"]
    yield "class_pupils", [group.pupils.value]
    yield "class_tubes", [group.tubes.value]
    yield "class_pictures", ["" if group.pictures is None else f"{group.pictures}"]
    yield "class_pan", [decimal_text(group.pan_millilitres) if group.pan_millilitres else ""]
    yield "class_levy", ["" if group.levy is None else f"{group.levy:f}"]
    yield "class_hazards", ["yes" if group.hazards_as_wished else ""]


def _picture_values(
    picture: PictureWish | None, group: ClassWish | None
) -> Iterator[tuple[str, list[str]]]:
    """Yield what is not as usual of pictures, and how many there are."""
    if picture is None:
        return
    if group is None or not group.plans_pictures:
        yield "pictures", [f"{picture.pictures}"]
    usual = PictureWish()
    for field in ("flower_cm2", "colour_cm2", "least_puddle_cm2"):
        value = getattr(picture, field)
        yield field, ["" if value == getattr(usual, field) else decimal_text(value)]
    wasted = 100 * exact(picture.waste)
    yield "waste", ["" if picture.waste == usual.waste else decimal_text(wasted)]


def _number(
    fields: Fields, field: str, allowed: NumberRange, *, whole: bool = False
) -> float | int | None:
    """Return a number; None where the field is blank, or after a fault."""
    typed = first_of(fields.values, field).strip().replace(",", ".")
    if not typed:
        return None
    number = parsed_number(typed)
    fault = allowed.fault(number, shown_as=shown(typed), whole=whole, named=True)
    if number is None or fault:
        fields.note(field, f"{fault}.")
        return None
    return int(number) if whole else number


def _levy(fields: Fields) -> Decimal | None:
    """Return what each pays [currency]; None where the field is blank, or after a fault."""
    typed = first_of(fields.values, "class_levy")
    if not typed.strip():
        return None
    currency = first_of(fields.values, "currency")
    amount, fault = read_amount(typed, currency, budget_fault, such_as="3.50")
    if fault:
        fields.note("class_levy", fault)
        return None
    return amount
