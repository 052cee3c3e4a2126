"""What is counted as a flower's colours, and how much each counts."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.records import Catalogue, Flower, Role, Swatch
from fewtubes.coverage.samples import (
    WEIGHT_UNIT,
    lab_table,
    samples_of_colour,
    samples_of_flower,
)


def swatch(name: str, role: Role, lightness: float, importance: float = 1.0) -> Swatch:
    """Return a swatch of a made-up flower."""
    return Swatch(name, role, (lightness, 10.0, -4.0), importance)


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
    samples = samples_of_flower(FLOWER, 1.0)
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
    shares = [2, 1, 3, 1, 1, 1, 1, 1.25]
    assert [sample.weight for sample in samples] == [
        round(WEIGHT_UNIT * share / 11.25) for share in shares
    ]
    assert samples[6].lab == (70.0, 10.0, -4.0)  # half-way from L* 80 to 60
    assert samples[7].lab == (50.0, 10.0, -4.0)
    assert [sample.is_step for sample in samples] == [False] * 6 + [True] * 2
    assert samples[0].role is Role.PETAL_SHADE
    assert samples[6].role is None
    assert {sample.flower for sample in samples} == {"made-up"}


def test_every_flower_of_the_demo(catalogue: Catalogue) -> None:
    for flower in catalogue.flowers.values():
        samples = samples_of_flower(flower, 1.0)
        swatches, steps = samples[: len(flower.swatches)], samples[len(flower.swatches) :]
        assert [s.lab for s in swatches] == [s.lab for s in flower.swatches]
        # Each weight is rounded once, by half a unit at most.
        assert abs(sum(s.weight for s in samples) - WEIGHT_UNIT) <= len(samples) / 2
        petals = [
            s for s in flower.swatches if s.role in {Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE}
        ]
        assert len(steps) == max(0, len(petals) - 1)
        ends = np.array([s.lab for s in petals])
        for step in steps:
            assert step.is_step
            assert (ends.min(axis=0) <= step.lab).all()
            assert (step.lab <= ends.max(axis=0)).all()


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
    weights = [sample.weight for sample in samples_of_flower(flower, importance)]
    assert min(weights) >= 1
    assert abs(sum(weights) - importance * WEIGHT_UNIT) <= len(weights)
    assert all(isinstance(weight, int) for weight in weights)


@given(flowers)
def test_a_step_weighs_less_than_the_heavier_of_its_ends(flower: Flower) -> None:
    samples = samples_of_flower(flower, 1.0)
    petals = [
        sample.weight
        for role in (Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE)
        for sample in samples
        if sample.role is role
    ]
    steps = [sample.weight for sample in samples if sample.is_step]
    assert len(steps) == max(0, len(petals) - 1)
    for step, one, other in zip(steps, petals, petals[1:], strict=False):
        assert abs(step - (one + other) / 4) <= 2  # half of the mean, rounded three times


def test_an_own_colour() -> None:
    (sample,) = samples_of_colour("vase", (50.0, 1.0, 2.0), 0.25)
    assert (sample.flower, sample.name) == ("vase", "own colour")
    assert sample.lab == (50.0, 1.0, 2.0)
    assert sample.weight == WEIGHT_UNIT // 4
    assert not sample.is_step


def test_nothing_weighs_nothing() -> None:
    (sample,) = samples_of_colour("speck", (50.0, 1.0, 2.0), 1e-9)
    assert sample.weight == 1


def test_the_table_of_colours() -> None:
    samples = samples_of_flower(FLOWER, 1.0)
    table = lab_table(samples)
    assert table.shape == (8, 3)
    assert table.dtype == np.float64
    assert table[2].tolist() == [60.0, 10.0, -4.0]
    assert lab_table(()).shape == (0, 3)


@pytest.mark.parametrize("importance", [0.5, 1.0, 3.0])
def test_importance_scales_all_colours_alike(importance: float) -> None:
    plain = samples_of_flower(FLOWER, 1.0)
    for one, other in zip(plain, samples_of_flower(FLOWER, importance), strict=True):
        assert other.weight == pytest.approx(importance * one.weight, abs=2)
        assert other.lab == one.lab
