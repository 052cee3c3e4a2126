"""Which mixes reach which colours, against mixing and comparing every recipe one by one."""

from itertools import combinations

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.reached import mixes_reaching
from fewtubes.mixing.reached_sets import ReachedSets
from fewtubes.mixing.recipes import PARTS, Recipe, RecipeSpace


@pytest.mark.parametrize(("most", "more_than"), [(3, 20), (2, 5), (1, 0)])
def test_every_mix_and_its_nearest_wash_is_found(
    shared_cache: Cache, most: int, more_than: int
) -> None:
    demo = read_catalogue()
    tubes = {id_: demo.tubes[id_] for id_ in ("soft-rose", "dioxazine-violet", "leaf-green-mixed")}
    optics = optics_for(demo, "cotton-white", "D65", shared_cache)
    space = RecipeSpace(most_tubes=most)
    labs = np.array([s.lab for s in demo.flowers["foxglove"].swatches])
    reached = mixes_reaching(tubes, labs, optics=optics, space=space, tolerance=5.0)
    expected = {}
    for size, table in PARTS.items():
        if size > most:
            continue
        for ids in combinations(tubes, size):
            for parts in table:
                mixed = np.array(
                    [recipe_lab(Recipe(ids, parts, s), tubes, optics) for s in space.strengths]
                )
                differences = delta_e_2000(mixed[:, None], labs)
                for colour in np.flatnonzero(differences.min(axis=0) <= 5.0).tolist():
                    step = int(differences[:, colour].argmin())
                    expected[ids, parts, colour] = (step, float(differences[step, colour]))
    pairs = reached.pairs
    found = {
        (*reached.mixes[p], c): (int(pairs.step[k]), float(pairs.difference[k]))
        for k, (p, c) in enumerate(zip(pairs.mix.tolist(), pairs.colour.tolist(), strict=True))
    }
    assert len(expected) > more_than
    assert found.keys() == expected.keys()
    for key, (step, difference) in expected.items():
        assert found[key][0] == step
        assert abs(found[key][1] - difference) < 1e-9  # rounding of sums in another order
    match = reached.match(0, space)
    assert np.allclose(match.lab, recipe_lab(match.recipe, tubes, optics))


def test_of_the_very_same_paint_the_first_stands_for_all(shared_cache: Cache) -> None:
    demo = read_catalogue()
    tube = next(iter(demo.tubes.values()))
    optics = optics_for(demo, "cotton-white", "D65", shared_cache)
    lab = recipe_lab(Recipe((tube.id,), (1,), 0.5), demo.tubes, optics)
    found = mixes_reaching(
        {"one": tube, "other": tube},
        lab[None],
        optics=optics,
        space=RecipeSpace(),
        tolerance=1.0,
    )
    assert found.mixes == ((("one",), (1,)),)


def test_without_tubes_nothing_is_reached(shared_cache: Cache) -> None:
    optics = optics_for(read_catalogue(), "cotton-white", "D65", shared_cache)
    found = mixes_reaching(
        {}, np.array([[50.0, 0, 0]]), optics=optics, space=RecipeSpace(), tolerance=4.0
    )
    assert found.mixes == ()
    assert len(found.pairs.mix) == 0


@pytest.mark.parametrize("most", [1, 2, 3])
def test_sets_that_are_mixed_once_hold_as_few_tubes_as_are_wished(
    shared_cache: Cache, most: int
) -> None:
    """Origin: `mixes_reaching`, held against single recipes above."""
    demo = read_catalogue()
    tubes = {id_: demo.tubes[id_] for id_ in ("soft-rose", "dioxazine-violet", "leaf-green-mixed")}
    optics = optics_for(demo, "cotton-white", "D65", shared_cache)
    space = RecipeSpace(most_tubes=most)
    labs = np.array([s.lab for s in demo.flowers["foxglove"].swatches])
    known = ReachedSets.of([*tubes.values()], labs, optics=optics, space=space, tolerance=5.0)
    plain = mixes_reaching(tubes, labs, optics=optics, space=space, tolerance=5.0)
    found = known.reached([0, 1, 2])
    assert max(len(ids) for ids, _ in found.mixes) == most
    assert {(*mix,) for mix in found.mixes} == {(*mix,) for mix in plain.mixes}
    assert len(found.pairs.mix) == len(plain.pairs.mix)
