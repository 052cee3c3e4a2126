"""The form of the page: what it begins with, and how what was filled in becomes a scenario.

The rules are those of `fewtubes.scenario`; a fault is told of the field that brought it.
"""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any, TypeVar

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import (
    IMPORTANCE,
    NumberRange,
    parsed_number,
    shown,
    word_fault,
)
from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.errors import InputError
from fewtubes.mixing.recipes import MOST_IN_MIX, PARTS
from fewtubes.page.amounts import read_amount
from fewtubes.page.at_home import home_values, left_chosen, marked_box, wish_of
from fewtubes.page.fields import Fields, first_of
from fewtubes.page.own_flowers import own_flower_values, typed_flowers
from fewtubes.page.own_rows import own_colour_values, own_rows
from fewtubes.page.planned_form import (
    areas_of,
    class_asked,
    pictures_planned,
    told_of_fields,
    with_area,
)
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.called import looked_up
from fewtubes.scenario.demands import (
    ANY_HAZARD,
    LONGEST_PURPOSE,
    MOST_TUBES,
    TOLERANCE,
    TRANSPARENCY_FLOORS,
    WASH,
    WISHED_MILLILITRES,
    budget_fault,
    clashes,
    currencies_to_choose,
)
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.steadiness import MonteCarlo

__all__ = [
    "first_values",
    "importance_of",
    "monte_carlo_of",
    "puddling_of",
    "scenario_of",
    "taken_hex",
]

T = TypeVar("T")

NOTHING_CHOSEN = "nothing is chosen yet; tick a flower, or give a flower or colour of your own."

LISTS = ("owned", "must_have", "never")

PER_CENT = NumberRange(0, 100)
"""Coverage that must be reached, as it is typed."""

TRIALS = {
    "tell": MonteCarlo(),
    "steadiest": MonteCarlo(within=0.0, choose=True),
    "steadiest-near": MonteCarlo(choose=True),
}
"""What can be asked about paint and hand that vary, by word."""


PUDDLING = {
    "flower": Puddling.EACH_FLOWER,
    "sitting": Puddling.ONE_SITTING,
    "colour": Puddling.EACH_COLOUR,
}
"""For what puddles can be shared, by word."""


IN_MIXES = {f"{size}": size for size in PARTS}
"""How many tubes a mix may hold, as the form sends it."""


def first_values(catalogue: Catalogue, box: BoxAtHome | None = None) -> FormValues:
    """Return what the form begins with; with a box at home its tubes are marked."""
    codes = currencies_to_choose(catalogue)
    return {
        "title": ["My flowers"],
        "budget": ["25.00"],
        "currency": [codes[0]],
        "tolerance": [f"{defaults.TOLERANCE:g}"],
        "paper": [_usual(defaults.PAPER, catalogue.papers)],
        "light": [_usual(defaults.LIGHT, catalogue.lights)],
        **({} if box is None else home_values(box)),
    }


def importance_of(values: FormValues, place: int) -> str:
    """Return the importance typed for a flower, by its place in the catalogue."""
    return first_of(values, f"importance-{place}") or "1"


def taken_hex(values: FormValues) -> tuple[str, ...]:
    """Return the ticked colours of the photograph."""
    return tuple(values.get("take", ()))


def scenario_of(values: FormValues, catalogue: Catalogue, box: BoxAtHome | None = None) -> Scenario:
    """Return the scenario that was filled in.

    Parameters
    ----------
    values
        As typed.
    catalogue
        What was chosen from.
    box
        The box at home that the page was started with, as its file has it; None without one.

    Raises
    ------
    InputError
        With every fault found; `where` of a fault is a key of `fewtubes.page.fields.LABELS`.
    """
    fields = Fields(values, FaultCollector())
    flowers = _flowers(fields, catalogue)
    own = own_flower_values(fields, catalogue)
    colours = own_colour_values(fields, {name for name, _ in flowers} | {f.name for f in own})
    if not values.get("flower") and not own_rows(values) and not _any_own_flower(values):
        fields.note("flowers", NOTHING_CHOSEN)
    group = class_asked(fields)
    picture, areas = pictures_planned(fields, group), areas_of(fields)
    found: dict[str, Any] = {
        "title": fields.text("title"),
        "shows": fields.text_if_any("shows", longest=LONGEST_PURPOSE),
        "currency": fields.word(
            "currency", {code: code for code in currencies_to_choose(catalogue)}
        ),
        "budget": None if group is not None and group.levy is not None else _budget(fields),
        "most_tubes": _most_tubes(fields),
        "tolerance": fields.number("tolerance", TOLERANCE),
        "paper": fields.known("paper", catalogue.papers),
        "light": fields.known("light", catalogue.lights),
        "prefer": fields.wished("prefer", {one.value: one for one in Prefer}) or Prefer.LASTING,
        "nearer": first_of(values, "nearer") == "yes",
    }
    wishes = _wish_values(fields, catalogue) | {"box": marked_box(values, box, catalogue)}
    fields.collector.raise_if_any()
    try:
        return Scenario(
            **found,
            flowers=[with_area(FlowerWish(*one), areas) for one in flowers]
            + [with_area(one, areas) for one in own],
            own_colours=[with_area(OwnColour(**values), areas) for values in colours],
            wishes=Wishes(**wishes),
            group=group,
            picture=picture,
        )
    except InputError as error:
        raise told_of_fields(error) from None


def monte_carlo_of(values: FormValues) -> MonteCarlo | None:
    """Return whether and how paint and hand are to be varied.

    Raises
    ------
    InputError
        If the word is none that is offered.
    """
    fields = Fields(values, FaultCollector())
    trials = fields.wished("trials", TRIALS)
    fields.collector.raise_if_any()
    return trials


def puddling_of(values: FormValues) -> Puddling:
    """Return for what puddles are to be shared; for each flower if nothing is said.

    Raises
    ------
    InputError
        If the word is none that is offered.
    """
    fields = Fields(values, FaultCollector())
    puddling = fields.wished("puddling", PUDDLING)
    fields.collector.raise_if_any()
    return puddling or Puddling.EACH_FLOWER


def _any_own_flower(values: FormValues) -> bool:
    return any(not flower.blank for flower in typed_flowers(values))


def _flowers(fields: Fields, catalogue: Catalogue) -> tuple[tuple[str, Fraction], ...]:
    """Return the names and importances of the flowers ticked."""
    ticked = set(fields.values.get("flower", ()))
    looked_up(
        sorted(ticked), catalogue.flowers, "flower", where="flowers", collector=fields.collector
    )
    return tuple(
        (name, fields.fraction("flowers", IMPORTANCE, importance_of(fields.values, place)))
        for place, name in enumerate(catalogue.flowers)
        if name in ticked
    )


def _budget(fields: Fields) -> Decimal:
    """Return the budget [currency]; 1 after a fault."""
    amount, fault = read_amount(
        first_of(fields.values, "budget"),
        first_of(fields.values, "currency"),
        budget_fault,
        such_as="35.00",
    )
    if fault:
        fields.note("budget", fault)
    return Decimal(1) if fault else amount


def _most_tubes(fields: Fields) -> int | None:
    """Return the largest number of tubes, None where the field is blank."""
    typed = first_of(fields.values, "most_tubes").strip()
    if not typed:
        return None
    number = parsed_number(typed)
    fault = MOST_TUBES.fault(number, shown_as=shown(typed), whole=True, named=True)
    if number is None or fault:
        fields.note("most_tubes", f"{fault}.")
        return None
    return int(number)


def _wish_values(fields: Fields, catalogue: Catalogue) -> dict[str, Any]:
    """Return what the wishes are made of."""
    lists = {
        key: tuple(id_ for id_ in catalogue.tubes if wish_of(fields.values, id_) == key)
        for key in LISTS
    }
    lists["owned"] = tuple(i for i in lists["owned"] if left_chosen(fields.values, i) is None)
    for _, sentence in clashes(**lists):
        fields.note("tubes", sentence)
    return {
        **lists,
        "lightfastness_floor": fields.wished(
            "lightfastness", {category.name: category for category in Lightfastness}
        ),
        "transparency_floor": fields.wished("transparency", TRANSPARENCY_FLOORS),
        "avoid_hazards": _hazards(fields),
        "millilitres": fields.number_if_any("millilitres", WISHED_MILLILITRES),
        "thinnest_wash": fields.number_if_any("thinnest_wash", WASH),
        "most_in_mix": fields.wished("most_in_mix", IN_MIXES) or MOST_IN_MIX,
        "least_coverage": _least_coverage(fields),
    }


def _least_coverage(fields: Fields) -> Fraction:
    """Return the coverage that must be reached [0–1]; 0 where the field is blank."""
    if not first_of(fields.values, "least_coverage").strip():
        return Fraction(0)
    return fields.fraction("least_coverage", PER_CENT) / 100


def _hazards(fields: Fields) -> tuple[Hazard, ...]:
    known = {hazard.value: hazard for hazard in Hazard}
    ticked = fields.values.get("avoid", ())
    if ANY_HAZARD in ticked:
        return tuple(Hazard)
    for word in ticked:
        fault = word_fault(word, known)
        if fault:
            fields.note("avoid", f"{fault}")
    return tuple(known[word] for word in known if word in ticked)


def _usual(wanted: str, known: Mapping[str, object]) -> str:
    return wanted if wanted in known else next(iter(known))
