"""Which colours of a flower grade into each other."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.records import Catalogue, Role, Swatch
from fewtubes.coverage.steps import PETAL_ROLES, grade_into_each_other, graded_pairs

Lab = tuple[float, float, float]


def lch(lightness: float, chroma: float, hue: float) -> Lab:
    """Return CIELAB from L*, C* and h [degrees]."""
    turn = math.radians(hue)
    return (lightness, chroma * math.cos(turn), chroma * math.sin(turn))


def names(swatches: list[Swatch]) -> list[tuple[str, str]]:
    return [(light.name, deep.name) for light, deep in graded_pairs(swatches)]


@pytest.mark.parametrize(
    ("light", "deep"),
    [
        (lch(80, 20, 350), lch(60, 40, 350)),  # one pink, paler and deeper
        (lch(80, 20, 2), lch(60, 40, 350)),  # hues on both sides of 0°, 12° apart
        (lch(76, 62, 66), lch(62, 74, 50)),  # a flame tulip's orange deepens to red by 16°
        (lch(95, 4, 90), lch(70, 40, 350)),  # white paper, thinly tinted, runs into pink
        (lch(82, 4, 110), lch(70, 6, 80)),  # greys, whose hue nobody sees
    ],
)
def test_one_petal(light: Lab, deep: Lab) -> None:
    assert grade_into_each_other(light, deep)
    assert not grade_into_each_other(deep, light)


@pytest.mark.parametrize(
    ("light", "deep"),
    [
        (lch(84, 72, 90), lch(52, 40, 308)),  # a pansy's yellow and its violet
        (lch(47, 66, 10), lch(40, 50, 318)),  # a fuchsia's sepals and its skirt
        (lch(60, 40, 350), lch(59, 40, 350)),  # the same depth
        (lch(80, 20, 350), lch(60, 40, 14)),  # 24° apart: ΔH* = 2 √800 sin 12° = 11.8
        (lch(70, 6, 210), lch(50, 9, 90)),  # ΔH* = 2 √54 sin 60° = 12.7, though almost grey
    ],
)
def test_two_petals(light: Lab, deep: Lab) -> None:
    assert not grade_into_each_other(light, deep)
    assert not grade_into_each_other(deep, light)


def test_two_kinds_of_petals_get_a_course_each() -> None:
    swatches = [
        Swatch("gold", Role.PETAL, lch(80, 70, 85), 1),
        Swatch("plum fold", Role.PETAL_SHADE, lch(30, 35, 315), 1),
        Swatch("amber fold", Role.PETAL_SHADE, lch(60, 60, 75), 1),
        Swatch("plum", Role.PETAL_LIGHT, lch(50, 40, 310), 1),
        Swatch("leaf", Role.LEAF, lch(40, 30, 310), 1),
    ]
    assert names(swatches) == [("gold", "amber fold"), ("plum", "plum fold")]


def test_what_grows_at_the_top_and_at_the_foot_is_not_one_petal() -> None:
    """A pea's standard and its fall, were it called so, in one hue; what tells nothing joins."""
    standard, fall = lch(60, 40, 310), lch(40, 45, 310)
    told = [Swatch("Standard", Role.PETAL, standard, 1), Swatch("lower fall", Role.PETAL, fall, 1)]
    assert names(told) == []
    assert names([told[0], replace(told[1], name="fold")]) == [("Standard", "fold")]
    assert names([told[0], replace(told[1], name="upper fall")]) == [("Standard", "upper fall")]


def test_depth_decides_and_not_the_role() -> None:
    """As from a photograph, where every colour may be called petal."""
    swatches = [
        Swatch("deep", Role.PETAL, lch(40, 50, 350), 1),
        Swatch("pale", Role.PETAL, lch(85, 15, 350), 1),
        Swatch("middle", Role.PETAL, lch(60, 40, 350), 1),
    ]
    assert names(swatches) == [("pale", "middle"), ("middle", "deep")]


def test_steps_of_the_demo_that_a_painter_looked_for(catalogue: Catalogue) -> None:
    """Each looked at in the picture of the flower; the tables are our own inventions."""
    expected = {
        "pansy": [("upper petal", "violet shade")],
        "fuchsia": [("outer light", "outer petal"), ("skirt", "skirt shadow")],
        "iris, bearded violet": [("light fall", "fall"), ("fall", "fall shadow")],
        "lavender": [("light floret", "floret")],  # the calyx is no petal
        "delphinium": [("light petal", "petal"), ("petal", "petal shadow")],
        "hydrangea, blue": [("light sepal", "sepal"), ("sepal", "sepal shadow")],
        "lily, white": [("lit petal", "grey shadow"), ("lit petal", "warm shadow")],
        "snowdrop": [("lit petal", "blue shadow"), ("lit petal", "green shadow")],
        "tulip, purple-black": [
            ("glint", "light edge"),
            ("light edge", "petal"),
            ("petal", "petal fold"),
        ],
    }
    flowers = catalogue.flowers
    assert {name: names(list(flowers[name].swatches)) for name in expected} == expected
    for name, flower in flowers.items():
        petals = [swatch for swatch in flower.swatches if swatch.role in PETAL_ROLES]
        several = {"pansy", "fuchsia", "delphinium", "hydrangea, blue", "iris, bearded violet"}
        if name not in several:
            assert len(graded_pairs(flower.swatches)) == max(0, len(petals) - 1), name


swatches = st.lists(
    st.builds(
        Swatch,
        name=st.text(min_size=1, max_size=3),
        role=st.sampled_from(Role),
        lab=st.tuples(st.floats(0, 100), st.floats(-90, 90), st.floats(-90, 90)),
        importance=st.just(1.0),
    ),
    max_size=8,
)


@given(swatches)
def test_each_colour_has_at_most_one_that_is_paler(drawn: list[Swatch]) -> None:
    pairs = graded_pairs(drawn)
    deeper = [id(deep) for _, deep in pairs]
    assert len(set(deeper)) == len(deeper)
    for light, deep in pairs:
        assert {light.role, deep.role} <= PETAL_ROLES
        assert grade_into_each_other(light.lab, deep.lab)
        between = [
            one
            for one in drawn
            if one.role in PETAL_ROLES and light.lab[0] > one.lab[0] > deep.lab[0]
        ]
        assert not any(grade_into_each_other(one.lab, deep.lab) for one in between)
