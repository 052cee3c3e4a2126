"""Which tubes a painter may mean by a name that the catalogue does not hold.

A name from the paint rack seldom stands in a catalogue as it is, and what is spelt alike may be
another colour altogether. A slip of the pen goes first. Then the words of the name count, the rarer
the more: names, pigments, codes, colours. Among those the tube comes first whose own colour is
nearest to the one meant, where a word says which that is.
"""

import math
import re
from collections import Counter
from collections.abc import Collection, Mapping
from difflib import SequenceMatcher, get_close_matches

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import WAVELENGTH_NM
from fewtubes.colour.display import hex_to_lab, linear_to_lab
from fewtubes.colour.plain_names import colour_name
from fewtubes.errors import LONGEST_ASKED, MOST_SUGGESTED, offered, plain_letters
from fewtubes.scenario.called import names_to_give

__all__ = ["spelt_nearest", "tubes_meant"]

USUAL_COLOURS = {
    "burnt": "#7a3a22", "carmine": "#a3123c", "cerulean": "#2f8fb8", "crimson": "#a3123c",
    "emerald": "#1c8f6a", "gamboge": "#e6a21a", "indigo": "#26384f", "madder": "#b8274c",
    "mauve": "#7d4a8f", "prussian": "#123f63", "sap": "#5c7a29", "sepia": "#4b3a2f",
    "sienna": "#a8622f", "umber": "#5f4630", "vermilion": "#d8391f", "viridian": "#1c7a62",
    "white": "#f6f5f0",
}  # fmt: skip
"""Screen colours of words that painters call a colour by; from memory, rough, and of use for
nothing but to guess which tube is meant."""

SLIP = 0.8
"""Likeness from which a word is another with a slip of the pen [0–1]; our own."""

SHORTEST_STEM = 5
"""Letters of a beginning that stand for a longer word, as ``phthalo`` does."""

MOST_WORDS = 6
"""Words of a name that are compared in spelling; nobody calls a tube by more."""

WASH = 0.5
"""Paint of the wash by which a tube's colour is judged [full-strength strokes]."""

LIGHTNESS_COUNTS = 0.5
"""Weight of a difference in L* beside one in a* or b*; our own: water makes any colour paler, so a
deep blue is sooner meant by a paler blue than by a black."""

PAPER = 0.9
"""Reflectance of white paper [0–1]; roughly."""

THIRDS_NM = ((600, 730), (500, 600), (400, 500))
"""The red, the green and the blue third of the spectrum [nm]."""


def tubes_meant(asked: str, tubes: Mapping[str, Tube]) -> str:
    """Return ``" Did you mean …?"`` with the nearest paints, or ``""``.

    Parameters
    ----------
    asked
        What no tube is called.
    tubes
        The catalogue's, by id.
    """
    if len(asked) > LONGEST_ASKED:
        return ""
    bare = plain_letters(asked)
    calls = {id_: (plain_letters(id_), plain_letters(tube.name)) for id_, tube in tubes.items()}
    slips = [id_ for id_, called in calls.items() if get_close_matches(bare, called, 1, SLIP)]
    near = _by_words(bare, tubes)
    found = list(dict.fromkeys([*slips, *near]))[:MOST_SUGGESTED]
    by_id = {id_ for id_ in slips if _like(bare, calls[id_][0]) >= _like(bare, calls[id_][1])}
    names = names_to_give(tubes)
    return offered([id_ if id_ in by_id else names[id_] for id_ in found])


def spelt_nearest(asked: str, tubes: Mapping[str, Tube]) -> list[str]:
    """Return what to call each tube, those first in whose name a word is spelt most like one asked.

    Parameters
    ----------
    asked
        What no tube is called, and none is near to in any other way; one so long that it is no slip
        of the pen leaves the tubes in their order.
    tubes
        The catalogue's, by id.
    """
    names = names_to_give(tubes)
    if len(asked) > LONGEST_ASKED:
        return [*names.values()]
    words = list(dict.fromkeys(_words(plain_letters(asked))))[:MOST_WORDS]
    held = {id_: _plain_words(tube) for id_, tube in tubes.items()}
    like = {
        word: max((_like(one, word) for one in words), default=0.0)
        for word in {word for some in held.values() for word in some}
    }
    near = {id_: max((like[word] for word in some), default=0.0) for id_, some in held.items()}
    return [names[id_] for id_ in sorted(tubes, key=lambda id_: -near[id_])]


def _by_words(asked: str, tubes: Mapping[str, Tube]) -> list[str]:
    """Return the tubes that share most with a name, the nearest in colour first among equals."""
    held = {id_: _words_of(tube) for id_, tube in tubes.items()}
    often = Counter(word for words in held.values() for word in words)
    words = _words(asked)
    score = dict.fromkeys(tubes, 0.0)
    for word in words:
        meant = _meant(word, often)
        for id_, has in held.items():
            rarest = [math.log1p(len(tubes) / often[one]) for one in meant & has]
            score[id_] += max(rarest, default=0.0)
    colours = [hex_to_lab(USUAL_COLOURS[word]) for word in words if word in USUAL_COLOURS]
    best = max(score.values(), default=0.0)
    if not colours:
        ranked = [id_ for id_ in tubes if 0 < score[id_] >= best / 2]
        return sorted(ranked, key=lambda id_: (-score[id_], -_like(asked, _called(tubes[id_]))))
    colour = np.mean(colours, axis=0)  # of burnt umber between burnt and umber
    apart = LIGHTNESS_COUNTS * np.array([1.0, 0, 0]) + np.array([0, 1.0, 1.0])
    off = {id_: float(np.linalg.norm(apart * (_lab(tube) - colour))) for id_, tube in tubes.items()}
    told = {word for word in words if word in USUAL_COLOURS and word in often}
    named = {
        id_
        for id_ in tubes
        if set(words) <= often.keys() and told <= held[id_] and score[id_] == best
    }
    of_that_colour = {id_ for id_ in tubes if told and told <= held[id_]}
    return sorted(tubes, key=lambda id_: (id_ not in named, id_ not in of_that_colour, off[id_]))


def _meant(word: str, known: Collection[str]) -> set[str]:
    """Return the known words that a word may be: itself, longer ones, ones with a slip."""
    if word in known:
        return {word}
    longer = {one for one in known if len(word) >= SHORTEST_STEM and one.startswith(word)}
    return longer or set(get_close_matches(word, known, MOST_SUGGESTED, SLIP))


def _words_of(tube: Tube) -> set[str]:
    """Return all words that a tube may be meant by, those of its colour included."""
    pigments = [f"{pigment.code} {pigment.name}" for pigment, _ in tube.pigments]
    L, a, b = _lab(tube).tolist()
    texts = (tube.id, tube.name, *pigments, colour_name((L, a, b)))
    return {word for text in texts for word in _words(plain_letters(text))}


def _words(text: str) -> list[str]:
    return re.findall(r"\w+", text)


def _plain_words(tube: Tube) -> list[str]:
    """Return the words of a tube's name, without what stands in brackets: what is in the paint."""
    return _words(_called(tube).partition("(")[0])


def _called(tube: Tube) -> str:
    return plain_letters(tube.name)


def _like(one: str, other: str) -> float:
    """Return how much alike two texts are spelt [0–1]."""
    return SequenceMatcher(None, one, other).ratio()


def _lab(tube: Tube) -> np.ndarray:
    """Return roughly the colour of a wash, CIELAB, shape (3,): light through paint, not off it.

    Beer's law both ways through the film, seen in three thirds of the spectrum: near enough to tell
    a crimson from an orange, and done at once.
    """
    seen = PAPER * np.exp(-2 * WASH * tube.K)
    thirds = [
        seen[(low <= WAVELENGTH_NM) & (high >= WAVELENGTH_NM)].mean() for low, high in THIRDS_NM
    ]
    return linear_to_lab(np.array(thirds))
