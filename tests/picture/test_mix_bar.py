"""The bar of a mix: its fields are the shares, and it can be read without telling colours apart."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from fewtubes.catalogue.records import Tube
from fewtubes.colour.display import lab_to_hex
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS
from fewtubes.picture.mix_bar import BAR_HEIGHT, BAR_WIDTH, NUMBER_SIZE, mix_bar
from fewtubes.picture.shapes import Area, Line, Picture, Words
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.svg import svg_inline
from fewtubes.picture.washes import washes_of

IDS = ("magenta", "yellow", "turquoise")


def fields(picture: Picture) -> list[tuple[float, float]]:
    """Return the left and right end of each field."""
    areas = [shape for shape in picture.shapes if isinstance(shape, Area)]
    return [(min(x for x, _ in it.points), max(x for x, _ in it.points)) for it in areas]


@pytest.mark.parametrize("parts", [parts for all_ in PARTS.values() for parts in all_])
def test_fields_are_the_shares_of_every_recipe_there_is(
    parts: tuple[int, ...], tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    ids = IDS[: len(parts)]
    found = fields(mix_bar(ids, parts, tubes, optics, sheet))
    widths = [right - left for left, right in found]
    assert widths == pytest.approx([BAR_WIDTH * part / sum(parts) for part in parts])
    for (_, end), (begin, _) in pairwise(found):
        assert end == pytest.approx(begin)


def test_fields_are_masstones_in_the_order_of_the_mix(
    tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    picture = mix_bar(IDS, (3, 2, 1), tubes, optics, sheet)
    fills = [shape.fill for shape in picture.shapes if isinstance(shape, Area)]
    assert fills == [lab_to_hex(np.array(washes_of(tubes[id_], optics).inside[0])) for id_ in IDS]


def test_it_is_read_without_colours(tubes: dict[str, Tube], optics: Optics, sheet: Sheet) -> None:
    """A line in ink between two fields, and beneath each field's middle its parts."""
    picture = mix_bar(IDS, (3, 2, 1), tubes, optics, sheet)
    inked = [it for it in picture.shapes if isinstance(it, Line) and it.colour == sheet.ink]
    ends = fields(picture)
    assert [line.points[0][0] for line in inked] == pytest.approx([right for _, right in ends[:-1]])
    words = [shape for shape in picture.shapes if isinstance(shape, Words)]
    assert [word.text for word in words] == ["3", "2", "1"]
    assert [word.x for word in words] == pytest.approx([sum(field) / 2 for field in ends])
    assert all(BAR_HEIGHT + NUMBER_SIZE <= word.y <= picture.height + 1 for word in words)
    assert picture.description == (
        "From left to right: 3 parts magenta; 2 parts yellow; 1 part turquoise."
    )


def test_a_tube_alone_is_one_field_without_a_number(
    tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    picture = mix_bar(("yellow",), (1,), tubes, optics, sheet)
    assert len(fields(picture)) == 1
    assert not [shape for shape in picture.shapes if isinstance(shape, Words)]


def test_a_name_that_means_harm_is_escaped(
    tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    named = {**tubes, "yellow": replace(tubes["yellow"], name='"><script>')}
    drawn = svg_inline(mix_bar(("yellow",), (1,), named, optics, sheet), prefix="")
    assert "<script" not in drawn
