"""Searching by words: plurals and slips are forgiven, and what is exact goes first.

The cases are our own; ``tests/page_in_browser/test_search_in_browser.py`` holds the page to the
same ones.
"""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.flower_listing import flowers_with, searched_flowers
from fewtubes.comparison.searching import found, plain_words, slips_apart

HELD = json.loads(
    (Path(__file__).parent / "search_cases.json").read_text(encoding="utf-8")
)  # an object


@pytest.mark.parametrize("case", HELD["cases"], ids=lambda case: case["asked"] or "nothing")
def test_cases(case: dict[str, Any]) -> None:
    it = found(case["asked"], HELD["texts"])
    assert list(it.hits) == case["hits"]
    assert [[word, list(meant)] for word, meant in it.read_as] == case.get("read_as", [])
    assert list(it.nearest) == case.get("nearest", [])


@pytest.mark.parametrize(
    ("one", "other", "slips"),
    [
        ("", "", 0),
        ("", "abc", 3),
        ("kitten", "sitting", 3),  # V. I. Levenshtein's distance; the usual example
        ("ca", "ac", 1),  # neighbours swapped count once, as F. J. Damerau has it
        ("ca", "abc", 3),  # … but not what was swapped and then parted
        ("lavendar", "lavender", 1),
    ],
)
def test_slips(one: str, other: str, slips: int) -> None:
    assert slips_apart(one, other) == slips_apart(other, one) == slips


WORDS = st.text("abc", max_size=6)


@given(WORDS, WORDS)
def test_slips_keep_to_their_bounds(one: str, other: str) -> None:
    """No fewer than the letters that are too many, no more than the longer word has."""
    slips = slips_apart(one, other)
    assert abs(len(one) - len(other)) <= slips <= max(len(one), len(other))
    assert (slips == 0) == (one == other)


@given(st.text(max_size=20), st.lists(st.text(max_size=20), max_size=4))
def test_whatever_is_typed_is_answered(asked: str, texts: list[str]) -> None:
    it = found(asked, texts)
    assert not (it.hits and it.nearest)
    assert set(it.hits) | set(it.nearest) <= set(range(len(texts)))


def test_words_are_plain() -> None:
    assert plain_words("Rosé PB15:3 forget-me_not") == ("rose", "pb15:3", "forget", "me", "not")


def test_every_flower_is_found_by_its_name_and_plural() -> None:
    demo = read_catalogue()
    for flower in demo.flowers.values():
        assert flower in flowers_with(demo, flower.name)
        first = plain_words(flower.name)[0]
        assert flower in flowers_with(demo, f"{first}s")


def test_every_flower_is_found_with_a_letter_too_few() -> None:
    """Of each name of five letters or more, any letter but the first left out."""
    demo = read_catalogue()
    for flower in demo.flowers.values():
        name = plain_words(flower.name)[0]
        for place in range(1, len(name)) if len(name) >= 5 else ():
            asked = name[:place] + name[place + 1 :]
            it = searched_flowers(demo, asked)
            assert flower in it.things or (it.things and not it.read_as), asked
