"""The flower taken apart: every colour once, numbered, and no number on a colour."""

from dataclasses import replace

import numpy as np
import pytest
from matplotlib.path import Path as Outline

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Flower, Role, Tube
from fewtubes.colour.display import lab_to_hex
from fewtubes.coverage.samples import portions_of_flower, weighed
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import BARE_PAPER
from fewtubes.picture.brush import numbered
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.shapes import Area, Line, Picture, Words
from fewtubes.picture.sheet import MISSED, Sheet
from fewtubes.picture.split_flower import split_flower
from fewtubes.shopping.plan_parts import PlannedSample

LETTER_WIDTH = 0.6
"""Of a figure ÷ its size, in the widest type used."""


def planned(flower: Flower, like: PlannedSample) -> tuple[PlannedSample, ...]:
    return tuple(
        replace(like, sample=sample, covered=number % 3 != 0)
        for number, sample in enumerate(weighed(portions_of_flower(flower, 1.0))[0])
    )


def words_of(picture: Picture) -> list[Words]:
    return [shape for shape in picture.shapes if isinstance(shape, Words)]


def corners(words: Words) -> np.ndarray:
    """Return places all over the box of a text, shape (n, 2)."""
    half = LETTER_WIDTH * words.size * len(words.text) / 2
    assert words.anchor == "middle"
    xs = np.linspace(words.x - half, words.x + half, 7)
    ys = np.linspace(words.y - 0.72 * words.size, words.y, 5)
    return np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)


FLOWERS = list(read_catalogue(None).flowers.values())


@pytest.mark.parametrize("flower", FLOWERS, ids=[flower.name for flower in FLOWERS])
def test_every_demo_flower_shows_each_colour_with_a_number_beside_it(
    flower: Flower, covered: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    samples = planned(flower, covered)
    picture = split_flower(numbered(samples), tubes, optics, sheet, name=flower.name)
    fills = [shape.fill for shape in picture.shapes if isinstance(shape, Area)]
    for item in samples:
        assert lab_to_hex(np.array(item.sample.lab)) in fills
    assert fills.count(lab_to_hex(np.array(covered.mix_lab))) >= len(samples)

    words = words_of(picture)
    numbers = [int(word.text.rstrip(f"† {MISSED}")) for word in words]
    assert sorted(numbers) == list(range(1, len(samples) + 1))
    marked = {n for n, word in zip(numbers, words, strict=True) if MISSED in word.text}
    assert marked == {n for n, item in enumerate(samples, start=1) if not item.covered}

    outlines = [Outline(shape.points) for shape in picture.shapes if isinstance(shape, Area)]
    boxes = [corners(word) for word in words]
    for word, box in zip(words, boxes, strict=True):
        assert not any(outline.contains_points(box).any() for outline in outlines), word.text
        assert (box >= 0).all(), word.text
        assert (box <= (picture.width, picture.height)).all(), word.text
    for one, box in enumerate(boxes):
        for other in boxes[one + 1 :]:
            apart = (box.min(axis=0) > other.max(axis=0)) | (other.min(axis=0) > box.max(axis=0))
            assert apart.any()


def test_petals_go_clockwise_from_light_to_deep(
    covered: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    labs = [(40.0, 30.0, 0.0), (80.0, 10.0, 0.0), (60.0, 20.0, 0.0)]
    samples = [replace(covered, sample=replace(covered.sample, lab=lab)) for lab in labs]
    picture = split_flower(numbered(samples), tubes, optics, sheet, name="three")
    words = {word.text.rstrip("†"): word for word in words_of(picture)}
    # Lightest first: 2 on top, then 3 to the lower right, then 1 to the lower left.
    assert words["2"].y == min(word.y for word in words.values())
    assert words["3"].x > words["2"].x > words["1"].x


def test_a_colour_without_a_recipe_shows_bare_paper_in_a_dashed_line(
    missed: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    bare = replace(missed, recipe=None, mix_lab=(95.0, 0.0, 0.0))
    picture = split_flower(numbered([bare]), {}, optics, sheet, name="bare")
    assert any(getattr(shape, "dashed", False) for shape in picture.shapes)


@pytest.mark.parametrize("role", [*Role, None])
def test_every_part_of_a_plant_has_a_place(
    role: Role | None,
    covered: PlannedSample,
    tubes: dict[str, Tube],
    optics: Optics,
    sheet: Sheet,
) -> None:
    one = replace(covered, sample=replace(covered.sample, role=role))
    for count in (1, 2, 5):
        picture = split_flower(numbered([one] * count), tubes, optics, sheet, name="x")
        assert len(words_of(picture)) == count
        for shape in picture.shapes:
            if isinstance(shape, Area):
                ys = [y for _, y in shape.points]
                assert -1 <= min(ys) <= max(ys) <= picture.height + 1


def test_what_is_not_painted_has_no_wet_edge(
    covered: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    bare = replace(covered, recipe=BARE_PAPER, mix_lab=tuple(paper_lab(optics).tolist()))
    unmixed = replace(bare, recipe=None)  # as where there is no tube at all
    for sample, dashed in ((covered, False), (bare, True), (unmixed, True)):
        dab = pair_picture(sample, tubes, optics, sheet)
        flower = split_flower(numbered([sample]), tubes, optics, sheet, name="one")
        for picture in (dab, flower):
            edges = [shape for shape in picture.shapes if isinstance(shape, Line)]
            assert [edge.dashed for edge in edges] == [dashed]
        assert (edges[0].colour == sheet.soft_ink) == dashed
