"""What a painter looks for by words, in lists of flowers and of tubes.

Every word has to be found. A word is taken as it stands if anything begins with it or holds it; if
nothing does, as a plural or as words written together; and only if nothing is found that way
either, as a slip of the pen. The page follows the same rule while one types
(``page/static/page.js``); ``tests/comparison/search_cases.json`` holds both to the same cases.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from fewtubes.errors import LONGEST_ASKED, MOST_SUGGESTED, plain_letters

__all__ = ["Found", "Searched", "Thing", "found", "plain_words", "searched", "slips_apart"]

Thing = TypeVar("Thing")

WORD = re.compile(r"[^\W_](?:[^\W_]|:)*")
"""A word: letters and figures; a colon only within, as in PB15:3."""

WITHIN = 4
"""Letters from which a word is looked for within others, too; ``red`` must not find ``layered``."""

TOGETHER = 5
"""Letters from which a word may be several written together, as ``sweetpea``."""

SHORTEST_SLIP, TWO_SLIPS = 4, 8
"""Letters from which a word may hold one slip, and two or one at its very beginning; our own."""

PLURALS = (("s", ""), ("es", ""), ("ies", "y"), ("ves", "f"), ("ves", "fe"), ("i", "us"))
"""Endings of plurals, and what the singular has instead."""

SHORTEST_STEM = 3
"""Letters that a singular has at least."""


@dataclass(frozen=True)
class Found:
    """What was found, as places in the list that was searched."""

    hits: tuple[int, ...]
    """Those that begin words with what was asked before those that only hold it."""
    nearest: tuple[int, ...]
    """Where nothing was found: a few that come nearest."""
    read_as: tuple[tuple[str, tuple[str, ...]], ...]
    """Words that were taken for slips of the pen, and for which words they were taken."""


@dataclass(frozen=True)
class Searched(Generic[Thing]):
    """The things of a list that were found, and otherwise as in `Found`."""

    things: tuple[Thing, ...]
    nearest: tuple[Thing, ...] = ()
    read_as: tuple[tuple[str, tuple[str, ...]], ...] = ()


@dataclass(frozen=True)
class _Text:
    """One text that is searched."""

    words: tuple[str, ...]
    together: str


def found(asked: str, texts: Sequence[str]) -> Found:
    """Return which texts hold all words that are asked for; all of them if none is asked.

    Parameters
    ----------
    asked
        As typed.
    texts
        Of each thing all words that it is found by.
    """
    if not asked.strip():
        return Found(tuple(range(len(texts))), (), ())
    words = plain_words(asked[:LONGEST_ASKED])
    held = [_text(text) for text in texts]
    ranks, read_as = [], []
    for word in words:
        rank, slips = _ranks(word, held)
        ranks.append(rank)
        if slips:
            read_as.append((word, slips))
    sums = {
        place: sum(rank[place] for rank in ranks)
        for place in range(len(texts))
        if ranks and all(place in rank for rank in ranks)
    }
    hits = tuple(sorted(sums, key=lambda place: sums[place]))
    if hits:
        return Found(hits, (), tuple(read_as))
    return Found((), tuple(_nearest(words, held, ranks)), ())


def searched(
    asked: str, things: Sequence[Thing], words_of: Callable[[Thing], str]
) -> Searched[Thing]:
    """Return which things hold all words that are asked for, by the words each is found by."""
    hit = found(asked, [words_of(thing) for thing in things])
    return Searched(
        tuple(things[place] for place in hit.hits),
        tuple(things[place] for place in hit.nearest),
        hit.read_as,
    )


def plain_words(text: str) -> tuple[str, ...]:
    """Return the words of a text in small letters without accents."""
    return tuple(WORD.findall(plain_letters(text)))


def slips_apart(one: str, other: str) -> int:
    """Return by how many slips two words differ: a letter too many, missing, wrong, or swapped.

    The optimal string alignment distance (F. J. Damerau, Commun. ACM 7, 171, 1964).
    """
    before: list[int] = []
    last = list(range(len(other) + 1))
    for row, sign in enumerate(one, start=1):
        now = [row]
        for column, wanted in enumerate(other, start=1):
            steps = [last[column] + 1, now[-1] + 1, last[column - 1] + (sign != wanted)]
            swapped = one[row - 2 : row] == other[column - 2 : column][::-1]
            if row > 1 and column > 1 and swapped:
                steps.append(before[column - 2] + 1)
            now.append(min(steps))
        before, last = last, now
    return last[-1]


def _text(text: str) -> _Text:
    words = plain_words(text)
    return _Text(words, "".join(words))


def _ranks(word: str, texts: Sequence[_Text]) -> tuple[dict[int, int], tuple[str, ...]]:
    """Return the places where a word is found, 0 where it begins a word, and its slips, if any."""
    literal = {place: rank for place, text in enumerate(texts) for rank in _literal(word, text)}
    if literal:
        return literal, ()
    forms = _singulars(word)
    other = {place: 0 for place, text in enumerate(texts) if _in_other_form(word, forms, text)}
    if other:
        return other, ()
    meant = _slips((word, *forms), texts)
    return {place: 0 for place, text in enumerate(texts) if meant & set(text.words)}, tuple(
        sorted(meant)
    )


def _literal(word: str, text: _Text) -> Iterator[int]:
    if any(held.startswith(word) for held in text.words):
        yield 0
    elif len(word) >= WITHIN and any(word in held for held in text.words):
        yield 1


def _in_other_form(word: str, forms: Sequence[str], text: _Text) -> bool:
    """Whether a text holds the singular of a word, its plural, or it in several words."""
    if any(held.startswith(form) for form in forms for held in text.words):
        return True
    if any(word in _singulars(held) for held in text.words):
        return True
    return any(len(form) >= TOGETHER and form in text.together for form in (word, *forms))


def _singulars(word: str) -> tuple[str, ...]:
    """Return what a word may be the plural of."""
    return tuple(
        word.removesuffix(plural) + singular
        for plural, singular in PLURALS
        if word.endswith(plural) and len(word) - len(plural) + len(singular) >= SHORTEST_STEM
    )


def _slips(forms: Sequence[str], texts: Sequence[_Text]) -> set[str]:
    """Return the words of the texts from which any form of a word differs by fewest slips."""
    apart: dict[str, int] = {}
    for held in {one for text in texts for one in text.words if len(one) >= SHORTEST_SLIP}:
        for form in forms:
            if len(form) < SHORTEST_SLIP:
                continue
            long = len(form) >= TWO_SLIPS
            if (not long and form[0] != held[0]) or abs(len(form) - len(held)) > 1 + long:
                continue
            slips = slips_apart(form, held)
            if slips <= 1 + long:
                apart[held] = min(slips, apart.get(held, slips))
    fewest = min(apart.values(), default=0)
    return {held for held, slips in apart.items() if slips == fewest}


def _nearest(
    words: Sequence[str], texts: Sequence[_Text], ranks: Sequence[dict[int, int]]
) -> list[int]:
    """Return a few texts that hold most of the words, the rarer the more, or words most alike."""
    scored: list[tuple[float, int, int]] = []
    for place, text in enumerate(texts):
        shared = sum(1 / len(rank) for rank in ranks if place in rank)
        slips = [
            slips_apart(word, held)
            for word in words
            for held in text.words
            if len(word) >= SHORTEST_SLIP and 2 * abs(len(word) - len(held)) <= len(word)
        ]
        longest = max(map(len, words), default=0)
        least = min(slips, default=longest)
        if shared or 2 * least <= longest - 1:
            scored.append((-shared, least, place))
    return [place for *_, place in sorted(scored)[:MOST_SUGGESTED]]
