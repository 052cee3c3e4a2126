"""How much paint a picture takes, against sums by hand; the sum stands beside each."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.matching import Match
from fewtubes.mixing.recipes import BARE_PAPER, Recipe
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.shopping.paint_use import (
    PaintedPuddle,
    mixed_cm2,
    paint_taken,
    painted_areas,
    painted_puddles,
)
from fewtubes.shopping.puddles import Puddle

DEMO = read_catalogue().tubes
TUBES: dict[str, Tube] = {
    "lemon": replace(DEMO["lemon"], cm2_per_ml=100.0),
    "blue": replace(DEMO["middle-blue"], cm2_per_ml=400.0),
}
NO_WASTE = PictureWish(waste=0, least_puddle_cm2=0)


def test_one_colour_of_one_tube() -> None:
    # 40 cm² at half strength: 20 cm² of stroke; half as much again: 30; 100 cm² a ml: 0.3 ml.
    puddle = PaintedPuddle(("lemon",), (1,), ((40.0, 0.5),))
    picture = PictureWish(waste=0.5, least_puddle_cm2=10)
    assert mixed_cm2(puddle, picture) == pytest.approx(30)
    assert paint_taken([puddle], TUBES, picture) == pytest.approx({"lemon": 0.3})


def test_a_part_is_the_same_area_of_either_tube() -> None:
    # 3 lemon : 1 blue, 80 cm² in full strength: 60 cm² ÷ 100 = 0.6 ml, and 20 cm² ÷ 400 = 0.05 ml.
    puddle = PaintedPuddle(("lemon", "blue"), (3, 1), ((80.0, 1.0),))
    taken = paint_taken([puddle], TUBES, NO_WASTE)
    assert taken == pytest.approx({"lemon": 0.6, "blue": 0.05})


def test_a_stamen_takes_a_whole_puddle() -> None:
    # 0.5 cm² at 0.8 would be 0.4 cm² of stroke; a puddle for 10 cm² of that wash is 8: 0.08 ml.
    stamen = PaintedPuddle(("lemon",), (1,), ((0.5, 0.8),))
    picture = PictureWish(waste=0.5, least_puddle_cm2=10)
    assert paint_taken([stamen], TUBES, picture) == pytest.approx({"lemon": 0.08})


def test_a_puddle_for_two_washes_is_counted_once() -> None:
    # 20 cm² at 0.5 and 40 cm² at 0.1: 14 cm², with half as much again 21; 10 × 0.5 is less.
    puddle = PaintedPuddle(("lemon",), (1,), ((20.0, 0.5), (40.0, 0.1)))
    assert mixed_cm2(puddle, PictureWish(waste=0.5, least_puddle_cm2=10)) == pytest.approx(21)
    # For 60 cm² of the stronger wash at least: 30.
    assert mixed_cm2(puddle, PictureWish(waste=0.5, least_puddle_cm2=60)) == pytest.approx(30)


def test_units() -> None:
    """A layer of 0.05 mm: 200 cm² × 0.005 cm = 1 cm³, which is a millilitre by definition."""
    tubes = {"lemon": replace(TUBES["lemon"], cm2_per_ml=200.0)}
    puddle = PaintedPuddle(("lemon",), (1,), ((200.0, 1.0),))
    assert paint_taken([puddle], tubes, NO_WASTE) == pytest.approx({"lemon": 200 * 0.005})


def sample(flower: str, name: str, weight: int) -> Sample:
    return Sample(flower, name, (50.0, 0.0, 0.0), weight)


def test_areas_are_divided_as_importance_is() -> None:
    samples = (sample("iris", "fall", 3), sample("iris", "leaf", 1), sample("sky", "own colour", 9))
    scenario = Scenario(
        budget=9,
        currency="EUR",
        flowers=[FlowerWish("iris", importance=5)],
        own_colours=[OwnColour.from_hex("sky", "#a0c0e0")],
        picture=PictureWish(flower_cm2=40, colour_cm2=7),
    )
    assert painted_areas(scenario, samples) == (30.0, 10.0, 7.0)  # 40 × 3 ÷ 4, 40 × 1 ÷ 4, 7
    larger = replace(
        scenario,
        flowers=(FlowerWish("iris", area_cm2=8),),
        own_colours=(OwnColour.from_hex("sky", "#a0c0e0"),),
    )
    assert painted_areas(larger, samples) == (6.0, 2.0, 7.0)
    assert sum(painted_areas(scenario, samples)[:2]) == 40


def test_washes_come_from_the_recipes_and_bare_paper_takes_nothing() -> None:
    recipe = Recipe(("lemon",), (1,), 0.25)
    matches = [Match(BARE_PAPER, (95.0, 0.0, 0.0), 1.0), Match(recipe, (90.0, 0.0, 0.0), 1.0), None]
    mixed = [Puddle("iris", False, 1, ("lemon",), (1,), 80.0, (1,), None)]
    (painted,) = painted_puddles(mixed, matches, [5.0, 6.0, 7.0])
    assert painted == PaintedPuddle(("lemon",), (1,), ((6.0, 0.25),))


puddles = st.lists(
    st.builds(
        PaintedPuddle,
        tubes=st.just(("lemon", "blue")),
        parts=st.tuples(st.integers(1, 6), st.integers(1, 6)),
        colours=st.lists(
            st.tuples(st.floats(0.1, 500), st.floats(0.01, 1)), min_size=1, max_size=5
        ).map(tuple),
    ),
    min_size=1,
    max_size=6,
)
pictures = st.builds(
    PictureWish, waste=st.floats(0, 3), least_puddle_cm2=st.sampled_from([0.0, 10.0])
)


@given(mixed=puddles, picture=pictures, times=st.floats(1, 20))
def test_paint_is_linear_in_the_area(
    mixed: list[PaintedPuddle], picture: PictureWish, times: float
) -> None:
    """All areas, the least puddle's too, times x take x times as much."""
    larger = [
        replace(puddle, colours=tuple((area * times, wash) for area, wash in puddle.colours))
        for puddle in mixed
    ]
    least = picture.least_puddle_cm2 * times
    found = paint_taken(larger, TUBES, replace(picture, least_puddle_cm2=least))
    expected = {id_: ml * times for id_, ml in paint_taken(mixed, TUBES, picture).items()}
    assert found == pytest.approx(expected)


@given(mixed=puddles, picture=pictures)
def test_what_tubes_give_adds_up_to_what_is_mixed(
    mixed: list[PaintedPuddle], picture: PictureWish
) -> None:
    """Nothing is lost between tube and puddle: Σ V_i c_i = Σ M_p, whatever the parts."""
    taken = paint_taken(mixed, TUBES, picture)
    given_by = sum(ml * (TUBES[id_].cm2_per_ml or 0) for id_, ml in taken.items())
    assert given_by == pytest.approx(sum(mixed_cm2(puddle, picture) for puddle in mixed))


@given(mixed=puddles, picture=pictures, further=st.floats(1, 10))
def test_paint_that_goes_further_is_used_less(
    mixed: list[PaintedPuddle], picture: PictureWish, further: float
) -> None:
    better = {**TUBES, "lemon": replace(TUBES["lemon"], cm2_per_ml=100 * further)}
    before, after = (paint_taken(mixed, tubes, picture) for tubes in (TUBES, better))
    assert after["lemon"] == pytest.approx(before["lemon"] / further)
    assert after["blue"] == before["blue"]


@given(mixed=puddles, waste=st.floats(0, 3), more=st.floats(0, 3))
def test_more_waste_never_takes_less(mixed: list[PaintedPuddle], waste: float, more: float) -> None:
    one, other = (
        paint_taken(mixed, TUBES, PictureWish(waste=share)) for share in (waste, waste + more)
    )
    assert all(one[id_] <= other[id_] + 1e-12 for id_ in TUBES)
