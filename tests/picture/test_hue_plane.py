"""The plane of hue and chroma: dots where they belong, a fence of the strongest mixes."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from fewtubes.catalogue.records import Role, Tube
from fewtubes.colour.cielab import lab_to_lch
from fewtubes.colour.display import lab_to_hex
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS, Recipe, RecipeSpace
from fewtubes.picture.hue_plane import DOT, SIDE, Group, hue_plane
from fewtubes.picture.shapes import Area, Line, Picture, Words
from fewtubes.picture.sheet import MISSED, Sheet
from fewtubes.picture.strongest import HUES, strongest_by_hue
from fewtubes.shopping.plan_parts import PlannedSample

SPACE = RecipeSpace.no_thinner_than(0.3)
NONE = np.full((HUES, 3), np.nan)


def centre(area: Area) -> tuple[float, float]:
    xs, ys = zip(*area.points, strict=True)
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def dots(picture: Picture) -> list[Area]:
    return [shape for shape in picture.shapes if isinstance(shape, Area) and shape.rim]


def test_strongest_colours_are_those_of_all_recipes_one_by_one(
    tubes: dict[str, Tube], optics: Optics
) -> None:
    labs = np.array(
        [
            recipe_lab(Recipe(ids, parts, strength), tubes, optics)
            for size in PARTS
            for ids in combinations(tubes, size)
            for parts in PARTS[size]
            for strength in SPACE.strengths
        ]
    )
    lch = lab_to_lch(labs)
    found = strongest_by_hue(list(tubes.values()), optics, SPACE)
    for step in range(HUES):
        inside = np.abs(lch[:, 2] - (step + 0.5) * 360 / HUES) < 180 / HUES - 0.05
        if inside.any():
            # A colour on the edge of a step may fall to either side in single precision.
            assert np.hypot(*found[step, 1:]) >= lch[inside, 1].max() - 0.05
        if not np.isnan(found[step, 0]):
            assert np.abs(labs - found[step]).max(axis=1).min() < 0.05


def test_without_tubes_nothing_is_reached(optics: Optics) -> None:
    assert np.isnan(strongest_by_hue([], optics, SPACE)).all()


def test_dots_lie_at_a_and_b_on_the_scale_of_the_rings(
    covered: PlannedSample, sheet: Sheet
) -> None:
    labs = [(50.0, 0.0, 0.0), (50.0, 40.0, 0.0), (50.0, 0.0, 20.0)]
    samples = tuple(replace(covered, sample=replace(covered.sample, lab=lab)) for lab in labs)
    picture = hue_plane([Group("A", samples)], NONE, sheet)
    grey, red, yellow = (centre(dot) for dot in dots(picture))
    assert grey == pytest.approx((SIDE / 2, SIDE / 2), abs=0.1)
    # Red lies to the right, yellow above, half as far.
    assert red[0] - SIDE / 2 == pytest.approx(2 * (SIDE / 2 - yellow[1]), abs=0.2)
    assert (red[1], yellow[0]) == pytest.approx((SIDE / 2, SIDE / 2), abs=0.1)
    rings = [s for s in picture.shapes if isinstance(s, Line) and s.dashed]
    radii = [max(x for x, _ in ring.points) - SIDE / 2 for ring in rings]
    assert red[0] - SIDE / 2 == pytest.approx(radii[1], abs=0.2)  # rings at 20, 40, …


def test_every_missed_colour_has_its_sign_and_every_flower_its_letter(
    covered: PlannedSample, missed: PlannedSample, sheet: Sheet
) -> None:
    picture = hue_plane([Group("A", (covered, missed)), Group("B", (covered,))], NONE, sheet)
    words = [shape.text for shape in picture.shapes if isinstance(shape, Words)]
    assert sum(MISSED in text for text in words) == 1
    assert sum("A" in text for text in words) == sum("B" in text for text in words) == 1
    fills = [dot.fill for dot in dots(picture)]
    assert fills.count(lab_to_hex(np.array(covered.sample.lab))) == 2


def test_words_over_dabs_have_a_seam_of_the_ground(
    covered: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    strongest = strongest_by_hue(list(tubes.values()), optics, SPACE)
    picture = hue_plane([Group("A", (covered,))], strongest, sheet)
    radius = SIDE / 2 - 34
    for words in (shape for shape in picture.shapes if isinstance(shape, Words)):
        if np.hypot(words.x - SIDE / 2, words.y - SIDE / 2) < radius:
            assert words.halo == sheet.ground, words.text


def test_a_line_joins_two_petals_that_have_a_step_between_them(
    covered: PlannedSample, sheet: Sheet
) -> None:
    light = replace(covered, sample=replace(covered.sample, lab=(80.0, 10.0, 0.0)))
    deep = replace(covered, sample=replace(covered.sample, lab=(40.0, 50.0, 10.0)))
    between = replace(
        covered,
        sample=replace(covered.sample, lab=(60.0, 30.0, 5.0), role=None, between=("petal", "fold")),
    )
    leaf = replace(covered, sample=replace(covered.sample, lab=(0.0, 0.0, 0.0), role=Role.LEAF))
    with_step = hue_plane([Group("A", (light, deep, leaf, between))], NONE, sheet)
    without = hue_plane([Group("A", (light, deep, leaf))], NONE, sheet)
    assert [
        len([s for s in p.shapes if isinstance(s, Line) and not s.dashed])
        for p in (with_step, without)
    ] == [1, 0]


def test_dots_are_large_enough_to_tell_their_colour() -> None:
    # 12 units across: at the width of a phone, 320 pixels for 560 units, still 7 pixels.
    assert 2 * DOT * 320 / SIDE > 6
