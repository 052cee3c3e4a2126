"""How near one further tube brings a colour, against the best recipes of palette and tube."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.mixing.matching import best_matches
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.one_more import Paints, mix_count, nearest_with_one_more
from fewtubes.mixing.recipes import RecipeSpace

SPACE = RecipeSpace.no_thinner_than(0.0)


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def optics(demo: Catalogue) -> Optics:
    return Optics.of(demo.papers["cotton-white"], demo.lights["D65"])


def paints_of(tubes: Sequence[Tube], optics: Optics, space: RecipeSpace = SPACE) -> Paints:
    K, S = (np.array([getattr(tube, name) for tube in tubes]) for name in "KS")
    return Paints(K, S, optics, space)


@pytest.mark.parametrize(("seed", "most"), [*((seed, 3) for seed in range(6)), (2, 2), (3, 1)])
def test_the_nearest_is_the_one_of_trying_each_tube(
    demo: Catalogue, optics: Optics, seed: int, most: int
) -> None:
    """Origin: `best_matches` of the palette with each tube in turn, which has a way of its own."""
    rng, space = np.random.default_rng(seed), replace(SPACE, most_tubes=most)
    ids = rng.permutation(list(demo.tubes))[:9].tolist()
    tubes = [demo.tubes[id_] for id_ in ids]
    palette, further = list(range(seed % 4)), list(range(seed % 4, len(ids)))
    labs = rng.uniform([20, -60, -60], [95, 60, 60], (5, 3))
    labs[0] = (30.0, -0.5, 0.4)  # near grey, where hues are opposite
    found = nearest_with_one_more(
        paints_of(tubes, optics, space),
        labs,
        np.full(len(labs), 200.0),
        palette=palette,
        further=further,
    )

    def nearest(numbers: list[int]) -> list[float]:
        held = {ids[number]: tubes[number] for number in numbers}
        matches = best_matches(
            held, labs, optics=optics, space=space, tolerance=1e-6, bare_paper=False
        )
        return [best[0].difference if best else np.inf for best in matches]

    alone = nearest(palette) if palette else [np.inf] * len(labs)
    tried = np.array([nearest([*palette, number]) for number in further])
    for colour in range(len(labs)):
        least = found[:, colour].min()
        if tried[:, colour].min() < alone[colour]:
            assert least == pytest.approx(tried[:, colour].min(), abs=1e-9)
            at = np.isclose(found[:, colour], least, rtol=0, atol=1e-9)
            expected = np.isclose(tried[:, colour], tried[:, colour].min(), rtol=0, atol=1e-9)
            assert (at == expected).all()
        else:  # the palette itself comes nearer than any mix with a further tube
            assert least >= alone[colour] - 1e-9


def test_what_is_not_nearer_than_the_limit_is_none(demo: Catalogue, optics: Optics) -> None:
    tubes = list(demo.tubes.values())[:4]
    paints = paints_of(tubes, optics)
    labs = np.array([[50.0, 0.0, -60.0]])

    def best(limit: float) -> float:
        found = nearest_with_one_more(
            paints, labs, np.array([limit]), palette=[0, 1], further=[2, 3]
        )
        return float(found.min())

    least = best(200.0)
    assert best(least + 1e-6) == least
    assert best(least) == np.inf
    assert best(-1.0) == np.inf


def test_mixes_are_counted() -> None:
    # By hand: alone 1 set of 1 recipe; with one of 2 tubes 2 x 11; with both 1 x 16; 12 washes.
    assert mix_count(2, 3, SPACE) == 3 * 12 * (1 + 2 * 11 + 16)
