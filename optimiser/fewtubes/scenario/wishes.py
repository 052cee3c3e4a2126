"""The wishes of a scenario: lists of tubes, and the floors and limits under ``[wishes]``."""

from typing import Any

from fewtubes.catalogue.limits import word_fault
from fewtubes.catalogue.pigments import CATEGORIES, HAZARDS
from fewtubes.catalogue.records import Catalogue, Hazard
from fewtubes.mixing.recipes import MOST_IN_MIX
from fewtubes.scenario.called import looked_up
from fewtubes.scenario.demands import (
    ANY_HAZARD,
    COVERAGE,
    IN_MIX,
    TRANSPARENCY_FLOORS,
    WASH,
    WISHED_MILLILITRES,
    clashes,
)
from fewtubes.scenario.entries import Entries
from fewtubes.scenario.keys import TOP_KEYS, TUBE_LIST_KEYS, WISH_KEYS

__all__ = ["wish_values"]


def wish_values(top: Entries, catalogue: Catalogue) -> dict[str, Any]:
    """Return what the wishes of a scenario's file are made of (see `Wishes`).

    Parameters
    ----------
    top
        The file's top level, where the lists of tubes stand.
    catalogue
        Holds the tubes that may be named.
    """
    lists = {
        key: looked_up(
            top.texts(key),
            catalogue.tubes,
            "tube",
            where=f"{top.where}, {key}",
            collector=top.collector,
        )
        for key in TUBE_LIST_KEYS
    }
    for key, sentence in clashes(**lists):
        top.note(key, sentence)
    floors = top.table("wishes")
    floors.check_keys(WISH_KEYS, elsewhere=TOP_KEYS)
    return {
        **lists,
        "lightfastness_floor": floors.word("lightfastness", CATEGORIES),
        "transparency_floor": floors.word("transparency", TRANSPARENCY_FLOORS),
        "avoid_hazards": _hazards(floors),
        "millilitres": floors.number("millilitres", WISHED_MILLILITRES, 0.0),
        "thinnest_wash": floors.number("thinnest_wash", WASH, 0.0),
        "most_in_mix": floors.whole("most_in_mix", IN_MIX) or MOST_IN_MIX,
        "least_coverage": floors.fraction("least_coverage", COVERAGE, 0),
    }


def _hazards(floors: Entries) -> tuple[Hazard, ...]:
    """Return the hazards to avoid; the word "any" stands for all of them."""
    words = floors.texts("avoid_hazards")
    for word in words:
        fault = word_fault(word, (*HAZARDS, ANY_HAZARD), floors.collector.suggestion)
        if fault:
            floors.note("avoid_hazards", f"the entry {fault}")
    if ANY_HAZARD in words:
        return tuple(Hazard)
    return tuple(HAZARDS[word] for word in words if word in HAZARDS)
