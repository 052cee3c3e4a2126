"""Strokes and dabs hold the colours of the film model, and signs where a screen falls short."""

from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.records import Tube
from fewtubes.colour.display import lab_to_hex
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import STRENGTHS, Recipe
from fewtubes.picture.pair import pair_picture
from fewtubes.picture.shapes import Area, Grade, Line, Words
from fewtubes.picture.sheet import BEYOND, FALLBACK_GROUND, Sheet, screen_colour
from fewtubes.picture.tube_dabs import tube_dabs
from fewtubes.picture.wash_strip import beyond_steps, strip_picture
from fewtubes.picture.washes import rim_lab, washes_of
from fewtubes.shopping.plan_parts import PlannedSample

SURFACE_LIGHTNESS = 23.67
"""L* of 4 % reflectance, all that a black line sends back: 116 × 0.04^(1/3) − 16."""


def test_washes_are_those_of_single_recipes(tubes: dict[str, Tube], optics: Optics) -> None:
    washes = washes_of(tubes["magenta"], optics)
    for strength, lab in zip(STRENGTHS, washes.inside, strict=True):
        expected = recipe_lab(Recipe(("magenta",), (1,), strength), tubes, optics)
        np.testing.assert_allclose(lab, expected, atol=1e-9)


def test_a_tube_that_scatters_nothing_leaves_a_black_line_black(
    tubes: dict[str, Tube], optics: Optics
) -> None:
    pigment, _ = tubes["magenta"].pigments[0]
    clear = replace(
        tubes["magenta"], pigments=((replace(pigment, S=np.zeros_like(pigment.S)), 1.0),)
    )
    washes = washes_of(clear, optics)
    assert washes.black[0] == pytest.approx(SURFACE_LIGHTNESS, abs=0.01)
    np.testing.assert_allclose(washes.over_black, np.tile(washes.black, (12, 1)), atol=1e-6)


def test_a_tube_that_scatters_more_hides_the_line_more(
    tubes: dict[str, Tube], optics: Optics
) -> None:
    pigment, _ = tubes["magenta"].pigments[0]
    lightness = [
        washes_of(
            replace(
                tubes["magenta"],
                pigments=((replace(pigment, S=np.full_like(pigment.S, scatter)), 1.0),),
            ),
            optics,
        ).over_black[0, 0]
        for scatter in (0.01, 0.1, 1.0)
    ]
    assert lightness == sorted(lightness)
    assert lightness[-1] > SURFACE_LIGHTNESS + 10


def test_the_rim_holds_more_paint_and_is_darker(tubes: dict[str, Tube], optics: Optics) -> None:
    recipe = Recipe(("magenta", "yellow"), (2, 1), 0.25)
    assert rim_lab(recipe, tubes, optics)[0] < recipe_lab(recipe, tubes, optics)[0] - 1


def test_the_stroke_is_graded_by_all_strengths_and_ends_in_paper(
    tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    picture = strip_picture(tubes["yellow"], optics, sheet, name="yellow")
    stroke = next(s for s in picture.shapes if isinstance(s, Area) and isinstance(s.fill, Grade))
    assert isinstance(stroke.fill, Grade)
    inside = washes_of(tubes["yellow"], optics).inside
    assert [hex_ for _, hex_ in stroke.fill.stops] == [*map(lab_to_hex, inside), sheet.paper]
    places = [x for x, _ in stroke.fill.stops]
    # Twelve even steps: the strengths are a geometric series.
    assert np.ptp(np.diff(places[:12])) == pytest.approx(0, abs=1e-9)


def test_strengths_that_the_screen_cannot_show_are_marked(
    tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    steps = beyond_steps(washes_of(tubes["turquoise"], optics))
    picture = strip_picture(tubes["turquoise"], optics, sheet, name="turquoise")
    marks = [s for s in picture.shapes if isinstance(s, Words) and s.text == BEYOND]
    assert len(marks) == len(steps) > 0


def test_a_colour_beyond_the_screen_keeps_lightness_and_hue() -> None:
    inside, outside = screen_colour((60.0, 20.0, 20.0)), screen_colour((60.0, -90.0, 0.0))
    assert (inside.inside, inside.mark) == (True, "")
    assert (outside.inside, outside.mark) == (False, BEYOND)


def test_a_pair_shows_the_colour_wanted_left_and_the_mix_right_with_a_wet_edge(
    covered: PlannedSample, tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    picture = pair_picture(covered, tubes, optics, sheet)
    whole, left = (shape for shape in picture.shapes if isinstance(shape, Area))
    assert whole.fill == lab_to_hex(np.array(covered.mix_lab))
    assert left.fill == lab_to_hex(np.array(covered.sample.lab))
    middle = picture.width / 2
    assert max(x for x, _ in left.points) == pytest.approx(middle)
    (rim,) = (shape for shape in picture.shapes if isinstance(shape, Line))
    assert min(x for x, _ in rim.points) >= middle
    # The rim follows the outside from the middle around to the middle, in one sweep.
    steps = np.hypot(*np.diff(np.array(rim.points), axis=0).T)
    assert steps.max() < 6


def test_a_dark_paper_is_shown_but_not_written_on(optics: Optics) -> None:
    dark = Sheet.of(replace(optics, ground=np.full_like(optics.ground, 0.05)))
    light = Sheet.of(optics)
    assert light.ground == light.paper
    assert dark.paper != dark.ground == FALLBACK_GROUND


def test_a_white_paint_gets_an_outline_and_others_do_not(
    tubes: dict[str, Tube], optics: Optics, sheet: Sheet
) -> None:
    pigment, share = tubes["magenta"].pigments[0]
    colourless = replace(pigment, K=np.full_like(pigment.K, 0.02), S=np.full_like(pigment.S, 3.0))
    white = replace(tubes["magenta"], pigments=((colourless, share),))
    for tube, outlined in ((white, True), (tubes["magenta"], False)):
        (dab,) = tube_dabs([tube], optics, sheet).shapes
        assert isinstance(dab, Area)
        assert (dab.rim == sheet.soft_ink) == outlined
        strip = strip_picture(tube, optics, sheet, name=tube.name)
        stroke = next(shape for shape in strip.shapes if isinstance(shape, Area))
        assert (stroke.rim == sheet.soft_ink) == outlined
