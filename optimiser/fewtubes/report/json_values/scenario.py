"""The scenario as values that JSON knows, as it was in force: after any option."""

from dataclasses import asdict

from fewtubes.scenario.class_wish import ClassWish, TubesFor
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["scenario_values"]


def scenario_values(scenario: Scenario) -> dict[str, object]:
    """Return everything a scenario asks for."""
    values: dict[str, object] = {
        "title": printable(scenario.title),
        "shows": printable(scenario.shows, 2000),
        "currency": scenario.currency,
        "budget": amount(scenario.budget_hundredths),
        "most_tubes": scenario.most_tubes,
        "tolerance": scenario.tolerance,
        "paper": printable(scenario.paper),
        "light": printable(scenario.light),
        "prefer": scenario.prefer.value,
        "nearer": scenario.nearer,
        "flowers": [
            {"name": printable(wish.name), "importance": float(wish.importance)}
            | {"area_cm2": wish.area_cm2, "swatches": _own_swatches(wish)}
            for wish in scenario.flowers
        ],
        "own_colours": [_own_colour(colour) for colour in scenario.own_colours],
        "wishes": _wishes(scenario.wishes),
        "class": _class(scenario.group),
        "picture": None if scenario.picture is None else asdict(scenario.picture),
    }
    if scenario.prices:
        values["prices"] = printable(scenario.prices)
    return values


def _class(group: ClassWish | None) -> dict[str, object] | None:
    """Return the class that paints; None if none does."""
    if group is None:
        return None
    levy = group.levy_hundredths
    return {
        "painters": group.painters,
        "pictures": group.pictures_each,
        "tubes": group.tubes.value,
        "pan_millilitres": group.pan if group.tubes is TubesFor.PANS else None,
        "levy": None if levy is None else amount(levy),
        "pupils": group.pupils.value,
        "hazards_as_wished": group.hazards_as_wished,
    }


def _own_swatches(flower: FlowerWish | OwnFlower) -> list[dict[str, object]] | None:
    """Return the colours of a flower of the painter's own; None for one of the catalogue."""
    if isinstance(flower, FlowerWish):
        return None
    return [
        {"name": printable(swatch.name), "role": swatch.role.value} | _given(swatch)
        for swatch in flower.swatches
    ]


def _own_colour(colour: OwnColour) -> dict[str, object]:
    """Return one colour of the painter's own."""
    return {"name": printable(colour.name)} | _given(colour) | {"area_cm2": colour.area_cm2}


def _given(colour: OwnColour | OwnSwatch) -> dict[str, object]:
    """Return what a colour counts, and itself: exactly one of lab and reflectance is not null."""
    reflectance = colour.reflectance
    return {
        "importance": float(colour.importance or 1),
        "lab": None if colour.lab is None else list(colour.lab),
        "reflectance": None if reflectance is None else reflectance.tolist(),
    }


def _wishes(wishes: Wishes) -> dict[str, object]:
    light, sheer = wishes.lightfastness_floor, wishes.transparency_floor
    return {
        "owned": list(wishes.all_owned),
        "must_have": list(wishes.must_have),
        "never": list(wishes.never),
        "lightfastness": None if light is None else light.name,
        "transparency": None if sheer is None else sheer.word,
        "avoid_hazards": [str(hazard) for hazard in wishes.avoid_hazards],
        "millilitres": wishes.millilitres,
        "thinnest_wash": wishes.thinnest_wash,
        "most_in_mix": wishes.most_in_mix,
        "least_coverage": float(wishes.least_coverage),
        "box": _box(wishes.box),
    }


def _box(box: BoxAtHome) -> dict[str, object]:
    """Return the box at home, empty tubes included; ``owned`` names those that are not."""
    return {
        "title": printable(box.title),
        "catalogue": printable(box.catalogue),
        "tubes": [{"id": printable(tube.id), "left": tube.left} for tube in box.tubes],
    }
