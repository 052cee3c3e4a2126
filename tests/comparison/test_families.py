"""Families by complete linkage: against linking by hand, and against SciPy."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest
from scipy.cluster.hierarchy import fcluster, linkage
from scipy.spatial.distance import squareform

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.comparison.families import families, linked
from fewtubes.mixing.likeness import NEAR, likeness, unlikeness
from fewtubes.mixing.mixture import Optics


@pytest.fixture(scope="module")
def tubes() -> Mapping[str, Tube]:
    return read_catalogue().tubes


@pytest.fixture(scope="module")
def optics() -> Optics:
    demo = read_catalogue()
    return Optics.of(demo.papers["cotton-white"], demo.lights["D65"])


def drawn(seed: int, count: int = 12) -> FloatArray:
    """Return how unlike some are, all numbers different, symmetric."""
    rng = np.random.default_rng(seed)
    pairs = rng.permutation(count * (count - 1) // 2) / 10.0 + 0.1
    return np.asarray(squareform(pairs))


@pytest.mark.parametrize("limit", [0.05, 0.5, 2.0, 4.0, 100.0])
@pytest.mark.parametrize("seed", range(8))
def test_they_are_those_of_scipy(seed: int, limit: float) -> None:
    """Independent library: SciPy's complete linkage, cut at the limit."""
    unlike = drawn(seed)
    found = linked(unlike, limit)
    other = fcluster(linkage(squareform(unlike), "complete"), limit, "distance")
    assert (found[:, None] == found).tolist() == (other[:, None] == other).tolist()
    assert all(found[first] == first for first in found)


def test_a_chain_is_no_family() -> None:
    """By hand: 0–1 are 1 apart, 1–2 are 2, 0–2 are 3; and nothing is near 3."""
    unlike = np.array(
        [[0, 1, 3, np.inf], [1, 0, 2, np.inf], [3, 2, 0, np.inf], [np.inf, np.inf, np.inf, 0]]
    )
    assert linked(unlike, 2.5).tolist() == [0, 0, 2, 3]
    assert linked(unlike, 3.0).tolist() == [0, 0, 0, 3]
    assert linked(unlike, 0.5).tolist() == [0, 1, 2, 3]
    assert linked(np.zeros((0, 0)), 1.0).tolist() == []
    assert linked(np.zeros((1, 1)), 1.0).tolist() == [0]


def test_unlikeness_is_that_of_every_pair(tubes: Mapping[str, Tube], optics: Optics) -> None:
    few = {id_: tubes[id_] for id_ in [*tubes][::5]} | {
        id_: tubes[id_] for id_ in ("rose", "soft-rose", "magenta", "deep-magenta")
    }
    table = unlikeness(few, optics, limit=NEAR)
    assert (table == table.T).all()
    for i, first in enumerate(few.values()):
        for j, second in enumerate(few.values()):
            apart = likeness(first, second, optics).difference
            if apart > NEAR:
                assert table[i, j] == np.inf
            else:
                assert table[i, j] == pytest.approx(apart, abs=1e-9)


def test_every_two_of_a_family_come_near(tubes: Mapping[str, Tube], optics: Optics) -> None:
    few = {id_: tubes[id_] for id_ in ("lemon", "bismuth-yellow", "green-yellow", "warm-yellow")}
    weaker = replace(few["lemon"], id="weaker", strength=0.5 * few["lemon"].strength)
    table = families(few | {"weaker": weaker}, optics)
    assert table.diagonal().all()
    assert table[0, 4]
    every = [*few.values(), weaker]
    for i, j in np.argwhere(table):
        assert likeness(every[i], every[j], optics).difference <= NEAR
    assert families({}, optics).shape == (0, 0)
