"""Whether a catalogue holds what a scenario names, told in the words of its fields."""

from dataclasses import replace
from typing import Any

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.records import Catalogue
from fewtubes.scenario.called import looked_up, repeated
from fewtubes.scenario.demands import currency_fault
from fewtubes.scenario.home_box import BoxAtHome, TubeAtHome, same_tube
from fewtubes.scenario.own_flowers import held_otherwise
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish

__all__ = ["named_tubes", "settled_box", "settled_names"]


def settled_names(scenario: Scenario, catalogue: Catalogue) -> Scenario:
    """Return the scenario with ids in the place of whatever else it calls things.

    Parameters
    ----------
    scenario
        Names a currency, flowers, tubes, a paper and a light.
    catalogue
        Is to hold them.

    Raises
    ------
    InputError
        With every name that the catalogue does not hold, or two names of one thing.
    """
    collector, wishes = FaultCollector(), scenario.wishes
    collector.note_fault("currency", currency_fault(scenario.currency, catalogue))
    asked = {
        "flowers": (
            [wish.name for wish in scenario.flowers if isinstance(wish, FlowerWish)],
            catalogue.flowers,
            "flower",
        ),
        "owned": (wishes.owned, catalogue.tubes, "tube"),
        "must_have": (wishes.must_have, catalogue.tubes, "tube"),
        "never": (wishes.never, catalogue.tubes, "tube"),
        "paper": ([scenario.paper], catalogue.papers, "paper"),
        "light": ([scenario.light], catalogue.lights, "light"),
    }
    found: dict[str, Any] = {
        key: looked_up(names, held, kind, where=key, collector=collector)
        for key, (names, held, kind) in asked.items()
    }
    box = settled_box(wishes.box, catalogue, collector)
    own = scenario.own_flowers
    if len(found["flowers"]) + len(own) < len(scenario.flowers):
        collector.note("flowers", "one flower is named twice; name it once.")
    for _, fault in held_otherwise(own, catalogue.flowers):
        collector.note_fault("flowers", fault)
    collector.raise_if_any()
    (paper,), (light,) = found["paper"], found["light"]
    names = iter(found["flowers"])
    flowers = tuple(
        replace(wish, name=next(names)) if isinstance(wish, FlowerWish) else wish
        for wish in scenario.flowers
    )
    lists = {key: found[key] for key in ("owned", "must_have", "never")} | {"box": box}
    if any(getattr(wishes, key) != ids for key, ids in lists.items()):
        wishes = replace(wishes, **lists)
    settled = {"flowers": flowers, "wishes": wishes, "paper": paper, "light": light}
    if all(getattr(scenario, key) == value for key, value in settled.items()):
        return scenario
    return replace(scenario, **settled)


def named_tubes(scenario: Scenario, catalogue: Catalogue) -> dict[str, str]:
    """Return by id what the tubes are called that a scenario names, the box at home included."""
    wishes = scenario.wishes
    boxed = (tube.id for tube in wishes.box.tubes)
    ids = (*wishes.owned, *wishes.must_have, *wishes.never, *boxed)
    return {id_: catalogue.tubes[id_].name for id_ in ids if id_ in catalogue.tubes}


def settled_box(box: BoxAtHome, catalogue: Catalogue, collector: FaultCollector) -> BoxAtHome:
    """Return the box with ids of the catalogue; a tube that it lacks is told of ``box``."""
    names = [tube.id for tube in box.tubes]
    ids = looked_up(names, catalogue.tubes, "tube", where="box", collector=collector)
    twice = [*repeated(names, catalogue.tubes)]
    for before, name in twice:
        collector.note_fault("box", f"{shown(name)} {same_tube(before)}")
    if twice:
        return box
    tubes = [TubeAtHome(id_, tube.left) for id_, tube in zip(ids, box.tubes, strict=True)]
    return box if list(ids) == names else replace(box, tubes=tuple(tubes))
