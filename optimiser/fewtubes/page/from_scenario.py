"""A scenario as the form shows it, as if it had been filled in by hand."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.exact import Number, exact
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.records import Catalogue, Hazard
from fewtubes.colour.display import hex_to_lab, lab_to_hex
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.recipes import MOST_IN_MIX, STRENGTHS, RecipeSpace
from fewtubes.page.fields import MOST_OWN_FLOWERS
from fewtubes.page.own_flowers import MOST_ROWS, flower_fields, of_flower
from fewtubes.page.own_rows import MOST_COLOURS
from fewtubes.page.planned_form import planned_values
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.class_wish import ClassWish
from fewtubes.scenario.demands import ANY_HAZARD
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.scenario_text import decimal_text
from fewtubes.scenario.wanted import FlowerWish, OwnColour

__all__ = ["PRICES", "Opened", "opened"]

PRICES = "prices"
"""Field of the price list that an opened file named; it is not looked at, but saved again."""

ROUNDED = (
    "Colours given as CIELAB are now those that a screen shows for them, since the page knows"
    " screen colours only."
)

TOO_MANY_FLOWERS = (
    f"there are more flowers of your own than the {MOST_OWN_FLOWERS} that this page takes; ask with"
    " `fewtubes shop`."
)

TOO_MANY_OWN_COLOURS = (
    f"there are more colours of your own than the {MOST_COLOURS} that this page takes; ask with"
    " `fewtubes shop`."
)

TOO_MANY_COLOURS = (
    f"has more colours than the {MOST_ROWS} that this page takes; ask with `fewtubes shop`."
)


@dataclass(frozen=True)
class Opened:
    """A scenario as the form holds it."""

    values: FormValues
    notes: tuple[str, ...]
    """What the form cannot hold as it was, a sentence each."""


def opened(scenario: Scenario, catalogue: Catalogue) -> Opened:
    """Return a scenario as the form holds it; what it owns is marked as owned.

    Raises
    ------
    InputError
        If it holds more flowers or colours of one's own, or more colours of one such flower, than
        the form does.
    """
    wished, own = _by_name_and_whole(scenario.flowers, catalogue)
    _check_sizes(own, len(scenario.own_colours))
    places = {name: place for place, name in enumerate(catalogue.flowers)}
    hexes = [_hex(colour) for colour in scenario.own_colours]
    exact_ones = [_hex(swatch)[1] for flower in own for swatch in flower.swatches]
    wishes = scenario.wishes
    values = {
        "title": [scenario.title],
        "shows": [scenario.shows],
        "budget": [f"{scenario.budget:f}"],
        "currency": [scenario.currency],
        "most_tubes": ["" if scenario.most_tubes is None else f"{scenario.most_tubes}"],
        "tolerance": [decimal_text(scenario.tolerance)],
        "paper": [scenario.paper],
        "light": [scenario.light],
        "prefer": [scenario.prefer.value],
        "nearer": ["yes" if scenario.nearer else ""],
        PRICES: [scenario.prices],
        "flower": [wish.name for wish in wished],
        "colour-name": [colour.name for colour in scenario.own_colours],
        "colour-hex": [screen for screen, _ in hexes],
        "colour-importance": [decimal_text(colour.importance) for colour in scenario.own_colours],
        **{f"importance-{places[wish.name]}": [decimal_text(wish.importance)] for wish in wished},
        **flower_fields([of_flower(number, flower) for number, flower in enumerate(own)]),
        **dict(_wish_values(wishes, scenario.group)),
        **dict(planned_values(scenario)),
    }
    notes = () if all([*exact_ones, *(same for _, same in hexes)]) else (ROUNDED,)
    return Opened({key: texts for key, texts in values.items() if any(texts)}, notes)


def _by_name_and_whole(
    flowers: Sequence[FlowerWish | OwnFlower], catalogue: Catalogue
) -> tuple[list[FlowerWish], list[OwnFlower]]:
    """Return the flowers that are ticked, and those that are filled in whole.

    Whatever the catalogue holds with the same colours is ticked.
    """
    wished: list[FlowerWish] = []
    own: list[OwnFlower] = []
    for flower in flowers:
        held = catalogue.flowers.get(flower.name)
        if isinstance(flower, FlowerWish):
            wished.append(flower)
        elif held is not None and flower.is_like(held):
            wished.append(FlowerWish(flower.name, flower.importance, flower.area_cm2))
        else:
            own.append(flower)
    return wished, own


def _check_sizes(own: Sequence[OwnFlower], colours: int) -> None:
    """Raise a fault if there is more than the form holds."""
    if colours > MOST_COLOURS:
        raise InputError([Fault("colour", TOO_MANY_OWN_COLOURS)])
    if len(own) > MOST_OWN_FLOWERS:
        raise InputError([Fault("flower", TOO_MANY_FLOWERS)])
    for flower in own:
        if len(flower.swatches) > MOST_ROWS:
            raise InputError([Fault("flower", f"{shown(flower.name)} {TOO_MANY_COLOURS}")])


def _hex(colour: OwnColour | OwnSwatch) -> tuple[str, bool]:
    """Return the colour of a screen nearest to one, and whether it is the very same."""
    lab = colour.lab or (0.0, 0.0, 0.0)
    screen = lab_to_hex(np.array(lab))
    return screen, tuple(hex_to_lab(screen).tolist()) == lab


def _wish_values(wishes: Wishes, group: ClassWish | None) -> Iterator[tuple[str, list[str]]]:
    """Yield what is wished; what a class brings with it is no wish beside it."""
    light, sheer = wishes.lightfastness_floor, wishes.transparency_floor
    if light is not None:
        yield "lightfastness", [light.name]
    if sheer is not None:
        yield "transparency", [sheer.word]
    hazards = [hazard.value for hazard in wishes.avoid_hazards]
    if group is None or not group.avoids_every_hazard:
        yield "avoid", [ANY_HAZARD] if wishes.avoid_hazards == tuple(Hazard) else hazards
    yield "millilitres", [_if_any(wishes.millilitres)]
    yield "thinnest_wash", [_thinnest(wishes.thinnest_wash)]
    usual = MOST_IN_MIX if group is None else group.most_in_mix
    yield "most_in_mix", ["" if wishes.most_in_mix == usual else f"{wishes.most_in_mix}"]
    yield "least_coverage", [_if_any(100 * exact(wishes.least_coverage))]
    for key in ("owned", "must_have", "never"):
        for id_ in getattr(wishes, key):
            yield f"tube-{id_}", [key]


def _thinnest(wash: float) -> str:
    """Return the wash of the form that rules out the same ones; blank if none is ruled out."""
    if not wash:
        return ""
    thinnest = RecipeSpace.no_thinner_than(wash).strengths[-1]
    return "" if thinnest == STRENGTHS[-1] else repr(thinnest)


def _if_any(value: Number) -> str:
    return decimal_text(value) if value else ""
