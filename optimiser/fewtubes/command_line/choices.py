"""Words given as options, turned into what the catalogue or the records hold."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, TypeVar

from fewtubes.catalogue.limits import word_fault
from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness, Tube
from fewtubes.defaults import LIGHT, PAPER
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.demands import TRANSPARENCY_FLOORS, missing_from

if TYPE_CHECKING:
    from fewtubes.coverage.cache import Cache
    from fewtubes.mixing.mixture import Optics

__all__ = [
    "chosen_hazards",
    "chosen_lightfastness",
    "chosen_optics",
    "chosen_transparency",
    "chosen_tubes",
]

T = TypeVar("T")

ANY = "any"
"""Stands for all hazards, as in a scenario."""


def chosen_lightfastness(option: str, word: str | None) -> Lightfastness | None:
    """Return a category, I–V; small letters will do."""
    words = {category.name: category for category in Lightfastness}
    return None if word is None else _word(option, word.upper(), words)


def chosen_transparency(option: str, word: str | None) -> Transparency | None:
    """Return a class, e.g. of ``semi-transparent``."""
    return None if word is None else _word(option, word.lower(), TRANSPARENCY_FLOORS)


def chosen_hazards(option: str, words: Sequence[str]) -> tuple[Hazard, ...]:
    """Return hazards; the word ``any`` stands for all of them."""
    known = {hazard.value: (hazard,) for hazard in Hazard} | {ANY: tuple(Hazard)}
    found = [hazard for word in words for hazard in _word(option, word.lower(), known)]
    return tuple(dict.fromkeys(found))


def chosen_tubes(option: str, ids: Sequence[str], catalogue: Catalogue) -> dict[str, Tube]:
    """Return tubes by id, all of the catalogue if none is named."""
    faults = [Fault(option, sentence) for sentence in missing_from(ids, catalogue.tubes, "tube")]
    if faults:
        raise InputError(faults)
    return {id_: catalogue.tubes[id_] for id_ in ids} or dict(catalogue.tubes)


def chosen_optics(
    catalogue: Catalogue, *, paper: str | None, light: str | None, cache: "Cache"
) -> "Optics":
    """Return how paint looks; without an id on the usual paper and in the usual light.

    The first of the catalogue stand for usual ones that it does not hold.
    """
    from fewtubes.coverage.optics import optics_for

    ground = _chosen("paper", paper, catalogue.papers, PAPER)
    seen_under = _chosen("light", light, catalogue.lights, LIGHT)
    return optics_for(catalogue, ground.id, seen_under.id, cache)


def _chosen(kind: str, id_: str | None, known: Mapping[str, T], usual: str) -> T:
    if id_ is None:
        return known[usual] if usual in known else next(iter(known.values()))
    for sentence in missing_from([id_], known, kind):
        raise InputError([Fault(f"--{kind}", sentence)])
    return known[id_]


def _word(option: str, word: str, known: Mapping[str, T]) -> T:
    fault = word_fault(word, known)
    if fault:
        raise InputError([Fault(option, fault)])
    return known[word]
