"""Sets mixed once for many palettes give each palette what it gets by itself."""

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.reached import mixes_reaching
from fewtubes.mixing.reached_sets import ReachedSets
from fewtubes.mixing.recipes import RecipeSpace

SPACE = RecipeSpace.no_thinner_than(0.0)
TOLERANCE = 4.0

NAMES = (
    "lemon",
    "arylide-yellow",
    "magenta",
    "ultramarine",
    "ultramarine-study",
    "middle-blue",
    "titanium-white",
)


@pytest.fixture(scope="module")
def optics(shared_cache: Cache) -> Optics:
    return optics_for(read_catalogue(), "cotton-white", "D65", shared_cache)


@pytest.mark.parametrize("copied", [False, True])
def test_as_by_itself(optics: Optics, *, copied: bool) -> None:
    """`mixes_reaching` tries all mixes of a palette anew; a copy of a tube is passed over alike."""
    demo = read_catalogue()
    tubes: list[Tube] = [demo.tubes[name] for name in NAMES]
    if copied:
        tubes[4] = tubes[3]
    flowers = ("pansy", "crocus", "fern frond")
    labs = np.array([one.lab for flower in flowers for one in demo.flowers[flower].swatches])
    sets = ReachedSets.of(tubes, labs, optics=optics, space=SPACE, tolerance=TOLERANCE)
    for numbers in ((0, 2, 3), (0, 2, 3, 4, 6), (1,), (), (2, 3, 5), (0, 2, 3)):
        held = {f"{number} {tubes[number].id}": tubes[number] for number in numbers}
        own = mixes_reaching(held, labs, optics=optics, space=SPACE, tolerance=TOLERANCE)
        found = sets.reached(numbers)
        plain = [(tuple(id_.split()[1] for id_ in mix), parts) for mix, parts in own.mixes]
        assert plain == list(found.mixes)
        assert own.pairs.mix.tolist() == found.pairs.mix.tolist()
        assert own.pairs.colour.tolist() == found.pairs.colour.tolist()
        assert own.pairs.step.tolist() == found.pairs.step.tolist()
        np.testing.assert_allclose(own.pairs.difference, found.pairs.difference, atol=1e-9)
        np.testing.assert_allclose(own.pairs.labs, found.pairs.labs, atol=1e-9)
    assert sets.reached((0, 2, 3)).pairs.mix.size > 0
