"""Words given as options, turned into what the catalogue or the records hold."""

from collections.abc import Mapping, Sequence
from typing import TypeVar

from fewtubes.catalogue.limits import word_fault
from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.demands import ANY_HAZARD, TRANSPARENCY_FLOORS

__all__ = [
    "chosen_hazards",
    "chosen_lightfastness",
    "chosen_transparency",
]

T = TypeVar("T")


def chosen_lightfastness(option: str, word: str | None) -> Lightfastness | None:
    """Return a category, I–V; small letters will do."""
    words = {category.name: category for category in Lightfastness}
    return None if word is None else _word(option, word.upper(), words)


def chosen_transparency(option: str, word: str | None) -> Transparency | None:
    """Return a class, e.g. of ``semi-transparent``."""
    return None if word is None else _word(option, word.lower(), TRANSPARENCY_FLOORS)


def chosen_hazards(option: str, words: Sequence[str]) -> tuple[Hazard, ...]:
    """Return hazards; the word ``any`` stands for all of them."""
    known = {hazard.value: (hazard,) for hazard in Hazard} | {ANY_HAZARD: tuple(Hazard)}
    found = [hazard for word in words for hazard in _word(option, word.lower(), known)]
    return tuple(dict.fromkeys(found))


def _word(option: str, word: str, known: Mapping[str, T]) -> T:
    fault = word_fault(word, known)
    if fault:
        raise InputError([Fault(option, fault)])
    return known[word]
