"""What is counted as a flower's colours, and how much each counts."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.exact import exact
from fewtubes.catalogue.records import Catalogue, Flower, Role, Swatch
from fewtubes.coverage.samples import (
    Sample,
    lab_table,
    portion_of_colour,
    portions_of_flower,
    weighed,
)
from fewtubes.coverage.steps import graded_pairs


def swatch(name: str, role: Role, lightness: float, importance: float = 1.0) -> Swatch:
    """Return a swatch of a made-up flower."""
    return Swatch(name, role, (lightness, 10.0, -4.0), importance)


def samples_of(flower: Flower) -> tuple[Sample, ...]:
    """Return the samples of a flower that is asked for alone."""
    samples, is_exact = weighed(portions_of_flower(flower, 1.0))
    assert is_exact
    return samples


FLOWER = Flower(
    "made-up",
    (
        swatch("fold", Role.PETAL_SHADE, 40, 2),
        swatch("edge", Role.PETAL_LIGHT, 80, 1),
        swatch("middle", Role.PETAL, 60, 3),
        swatch("eye", Role.CENTRE, 30, 1),
        swatch("leaf", Role.LEAF, 45, 1),
        swatch("leaf fold", Role.LEAF_SHADE, 25, 1),
    ),
)


def test_a_flower_by_hand() -> None:
    """Six swatches, importances 2 1 3 1 1 1 = 9, and two steps of half the mean of their ends.

    Edge to middle (1 + 3) ÷ 2 × 0.5 = 1, middle to fold (3 + 2) ÷ 2 × 0.5 = 1.25; in all 11.25.
    """
    samples = samples_of(FLOWER)
    assert [sample.name for sample in samples] == [
        "fold",
        "edge",
        "middle",
        "eye",
        "leaf",
        "leaf fold",
        "between edge and middle",
        "between middle and fold",
    ]
    # Times 4 all are whole, and 1 divides 4 and 5 alone: 8 4 12 4 4 4 4 5 of 45.
    assert [sample.weight for sample in samples] == [8, 4, 12, 4, 4, 4, 4, 5]
    shares = [portion.importance for portion in portions_of_flower(FLOWER, 0.1)]
    assert shares == [Fraction(weight, 450) for weight in (8, 4, 12, 4, 4, 4, 4, 5)]
    assert samples[6].lab == (70.0, 10.0, -4.0)  # half-way from L* 80 to 60
    assert samples[7].lab == (50.0, 10.0, -4.0)
    assert [sample.is_step for sample in samples] == [False] * 6 + [True] * 2
    assert samples[0].role is Role.PETAL_SHADE
    assert samples[6].role is None
    assert {sample.flower for sample in samples} == {"made-up"}


def test_every_flower_of_the_demo(catalogue: Catalogue) -> None:
    for flower in catalogue.flowers.values():
        samples = samples_of(flower)
        swatches, steps = samples[: len(flower.swatches)], samples[len(flower.swatches) :]
        assert [s.lab for s in swatches] == [s.lab for s in flower.swatches]
        assert sum(part.importance for part in portions_of_flower(flower, 1.0)) == 1
        labs = {s.name: s.lab for s in flower.swatches}
        assert [step.between for step in steps] == [
            (light.name, deep.name) for light, deep in graded_pairs(flower.swatches)
        ]
        for step in steps:
            assert step.is_step
            assert step.between is not None
            light, deep = step.between
            assert step.name == f"between {light} and {deep}"
            np.testing.assert_allclose(2 * np.array(step.lab), np.add(labs[light], labs[deep]))


flowers = st.lists(
    st.builds(
        Swatch,
        name=st.text(min_size=1, max_size=3),
        role=st.sampled_from(Role),
        lab=st.tuples(st.floats(0, 100), st.floats(-90, 90), st.floats(-90, 90)),
        importance=st.floats(0.1, 10),
    ),
    min_size=1,
    max_size=8,
).map(lambda swatches: Flower("drawn", tuple(swatches)))


@given(flowers, st.floats(0.01, 100))
def test_a_flower_weighs_its_importance(flower: Flower, importance: float) -> None:
    portions = portions_of_flower(flower, importance)
    assert min(portion.importance for portion in portions) > 0
    assert sum(portion.importance for portion in portions) == exact(importance)


@given(flowers)
def test_a_step_weighs_half_the_mean_of_its_ends(flower: Flower) -> None:
    portions = portions_of_flower(flower, 1.0)
    steps = portions[len(flower.swatches) :]
    pairs = graded_pairs(flower.swatches)
    assert len(steps) == len(pairs)
    weight = {id(s): p.importance for s, p in zip(flower.swatches, portions, strict=False)}
    for step, (one, other) in zip(steps, pairs, strict=True):
        assert step.importance == (weight[id(one)] + weight[id(other)]) / 4


def test_an_own_colour() -> None:
    portion = portion_of_colour("vase", (50.0, 1.0, 2.0), 0.1)
    assert (portion.flower, portion.name) == ("vase", "own colour")
    assert portion.lab == (50.0, 1.0, 2.0)
    assert portion.importance == Fraction(1, 10)  # not the float nearest to it
    assert portion.between is None


def test_all_are_counted_in_one_unit() -> None:
    """A flower of 2/3 in shares of 8 4 12 4 4 4 4 5 of 45, and a colour of 1/10."""
    portions = [
        *portions_of_flower(FLOWER, Fraction(2, 3)),
        portion_of_colour("vase", (50.0, 1.0, 2.0), 0.1),
    ]
    samples, is_exact = weighed(portions)
    assert is_exact
    # 2/3 ÷ 45 = 2/135; its multiples and 1/10 over 270: 4 × (8 4 12 4 4 4 4 5), and 27.
    assert [s.weight for s in samples] == [32, 16, 48, 16, 16, 16, 16, 20, 27]
    assert [s.lab for s in samples] == [portion.lab for portion in portions]
    assert [s.role for s in samples] == [portion.role for portion in portions]


def test_the_table_of_colours() -> None:
    samples = samples_of(FLOWER)
    table = lab_table(samples)
    assert table.shape == (8, 3)
    assert table.dtype == np.float64
    assert table[2].tolist() == [60.0, 10.0, -4.0]
    assert lab_table(()).shape == (0, 3)


@pytest.mark.parametrize("importance", [0.5, 1.0, 3.0, 0.1])
def test_importance_scales_all_colours_alike(importance: float) -> None:
    plain = portions_of_flower(FLOWER, 1)
    for one, other in zip(plain, portions_of_flower(FLOWER, importance), strict=True):
        assert other.importance == exact(importance) * one.importance
        assert other.lab == one.lab
