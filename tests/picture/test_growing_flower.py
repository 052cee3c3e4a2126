"""A flower as far as it can be painted: what is new is ringed, what cannot be painted is empty."""

from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Flower, Tube
from fewtubes.colour.display import lab_to_hex
from fewtubes.coverage.samples import portions_of_flower, weighed
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.brush import numbered
from fewtubes.picture.growing_flower import growing_flower
from fewtubes.picture.shapes import Area, Line, Words
from fewtubes.picture.sheet import Sheet
from fewtubes.shopping.plan_parts import PlannedSample

CATALOGUE = read_catalogue(None)
FLOWERS = [CATALOGUE.flowers[name] for name in ("daffodil", "cornflower", "foxglove", "fern frond")]


@pytest.mark.parametrize("flower", FLOWERS, ids=[flower.name for flower in FLOWERS])
def test_each_colour_is_painted_ringed_or_left_empty(
    flower: Flower, covered: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    """By its number: every third is not covered, every third is new, the rest was there before."""
    samples = [
        replace(covered, sample=sample, covered=number % 3 != 0)
        for number, sample in enumerate(weighed(portions_of_flower(flower, 1.0))[0], start=1)
    ]
    items = numbered(samples)
    new = frozenset(item.number for item in items if item.number % 3 == 1)
    picture = growing_flower(items, new, tubes, optics, sheet, name=flower.name)
    fills = [shape.fill for shape in picture.shapes if isinstance(shape, Area)]
    lines = [shape for shape in picture.shapes if isinstance(shape, Line)]
    rings = [line for line in lines if line.colour == sheet.ink]
    empty = [line for line in lines if line.dashed]
    assert len(rings) == len(new)
    assert len(empty) == sum(not item.planned.covered for item in items)
    mixed = lab_to_hex(np.array(covered.mix_lab))
    for item in items:
        wanted = lab_to_hex(np.array(item.planned.sample.lab))
        if item.planned.covered:
            assert wanted in fills
    assert fills.count(mixed) == sum(item.planned.covered for item in items)
    words = {w.text.rstrip("†"): w for w in picture.shapes if isinstance(w, Words)}
    assert {text for text, one in words.items() if one.bold} == {f"{number}" for number in new}
    assert set(words) == {f"{item.number}" for item in items}


def test_the_description_counts(
    covered: PlannedSample, missed: PlannedSample, tubes: dict[str, Tube], optics: Optics,
    sheet: Sheet,
) -> None:  # fmt: skip
    items = numbered([covered, missed])
    picture = growing_flower(items, frozenset({1}), tubes, optics, sheet, name="rose")
    assert picture.title == "rose, as far as it can be painted"
    assert "1 of 2 colours can be painted, 1 of them newly" in picture.description
