"""A cache carried along in memory: it holds what was asked of a folder, and stores into both."""

import pickle
from pathlib import Path

import numpy as np

from fewtubes.coverage.cache import Cache
from fewtubes.coverage.carried import CarriedCache

BASIS = {"a": np.arange(3)}
OTHER = {"a": np.arange(4)}
CONTENT = {"b": np.array([1.5, 2.5])}


def test_what_is_stored_is_held_without_a_folder() -> None:
    cache = CarriedCache()
    assert cache.load("kind", BASIS) is None
    cache.store("kind", BASIS, CONTENT)
    found = cache.load("kind", BASIS)
    assert found is not None
    assert found["b"].tolist() == [1.5, 2.5]
    assert cache.load("kind", OTHER) is None
    assert cache.load("other kind", BASIS) is None


def test_it_is_kept_in_the_folder_too_and_found_there(tmp_path: Path) -> None:
    CarriedCache(tmp_path).store("kind", BASIS, CONTENT)
    assert Cache(tmp_path).load("kind", BASIS) is not None
    later = CarriedCache(tmp_path)
    assert later.load("kind", BASIS) is not None
    # Carried elsewhere, where there is no such folder, it still holds what it was asked for.
    there = pickle.loads(pickle.dumps(later.alone()))  # noqa: S301  # of our own making
    assert there.folder is None
    found = there.load("kind", BASIS)
    assert found is not None
    assert found["b"].tolist() == [1.5, 2.5]
