"""Light told by bare paper."""

import numpy as np
import pytest

from fewtubes.card.evening import light_field


def patches(count: int, seed: int = 2) -> np.ndarray:
    return np.random.default_rng(seed).uniform(0, 1000, (count, 2))


def falling(places: np.ndarray) -> np.ndarray:
    """Return light whose logarithm is a polynomial of second order."""
    x, y = (places / 1000).T
    logarithm = -0.1 - 0.3 * x + 0.1 * y - 0.15 * x * y + 0.2 * y**2
    return np.asarray(np.exp(logarithm)[:, None] * np.array([1.05, 1.0, 0.86]))


@pytest.mark.parametrize("count", [12, 40])
def test_light_of_low_order_is_met_exactly(count: int) -> None:
    places = patches(count)
    field = light_field(places, falling(places))
    assert field.order == 2
    anywhere = patches(30, seed=3)
    assert np.allclose(field.at(anywhere), falling(anywhere), rtol=1e-6)


def test_paint_on_a_fifth_of_the_paper_counts_for_nothing() -> None:
    places = patches(40)
    light = falling(places)
    light[::5] *= [0.9, 0.5, 0.3]
    field = light_field(places, light)
    assert field.outliers == pytest.approx(0.2)
    assert np.allclose(field.at(places), falling(places), rtol=1e-3)


def test_one_patch_is_light_everywhere() -> None:
    field = light_field(np.array([[10.0, 20.0]]), np.array([[0.5, 0.4, 0.3]]))
    assert np.allclose(field.at(np.array([[500.0, 700.0]])), [0.5, 0.4, 0.3])


def test_patches_on_a_line_say_nothing_across_it() -> None:
    places = np.stack([np.linspace(0, 1000, 6), np.full(6, 50.0)], axis=1)
    light = np.linspace(0.5, 0.8, 6)[:, None] * np.ones(3)
    field = light_field(places, light)
    assert np.allclose(field.at(places), light, rtol=0.05)
    beside = places + np.array([0, 200])
    assert np.allclose(field.at(beside), field.at(places), rtol=0.01)
