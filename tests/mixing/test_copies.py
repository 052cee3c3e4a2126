"""Tubes that hold the very same paint are looked at once."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.errors import LimitError
from fewtubes.mixing import candidates
from fewtubes.mixing.candidates import Ranking, candidate_sets
from fewtubes.mixing.copies import same_paint, without_copies
from fewtubes.mixing.matching import best_matches
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import RecipeSpace


@pytest.fixture(scope="module")
def few() -> Mapping[str, Tube]:
    tubes = read_catalogue().tubes
    return {id_: tubes[id_] for id_ in ("magenta", "lemon", "ultramarine", "warm-red")}


@pytest.fixture(scope="module")
def optics() -> Optics:
    demo = read_catalogue()
    return Optics.of(demo.papers["cotton-white"], demo.lights["D65"])


def copied(tubes: Mapping[str, Tube], times: int) -> dict[str, Tube]:
    """Return each tube so many times, under other names; the first ones first."""
    return {
        f"{id_} {time}": replace(tube, id=f"{id_} {time}")
        for time in range(times)
        for id_, tube in tubes.items()
    }


def test_the_first_of_each_paint() -> None:
    K = np.array([[1.0, 2], [1, 2], [3, 4], [1, 2], [3, 4]])
    S = np.array([[0.0, 0], [0, 0], [0, 0], [0, 1], [0, 0]])
    assert same_paint(K, S).tolist() == [0, 0, 2, 3, 2]
    assert same_paint(K[:0], S[:0]).tolist() == []


def test_all_but_the_first_that_may_be_used_are_barred() -> None:
    paints = np.array([[1.0], [1], [2], [1]])
    barred = np.array([[False] * 4, [True, False, False, False], [True] * 4])
    found = without_copies(paints, paints, barred, 3)
    assert found is not None
    assert found.tolist() == [
        [False, True, False, True],
        [True, False, False, True],
        [True, True, True, True],
    ]
    assert without_copies(paints[1:3], paints[1:3], None, 3) is None


@pytest.mark.parametrize("most", [1, 4])
def test_copies_change_no_recipe(few: Mapping[str, Tube], optics: Optics, most: int) -> None:
    labs = np.array([[60.0, 40, -10], [45, -5, 20], [30, 10, -40]])
    plain, many = (
        best_matches(
            tubes, labs, optics=optics, space=RecipeSpace(), tolerance=4.0, most=most, burden=0.0
        )
        for tubes in (few, copied(few, 5))
    )
    for some, others in zip(plain, many, strict=True):
        assert [
            (tuple(f"{id_} 0" for id_ in match.recipe.tubes), match.recipe.parts, match.difference)
            for match in some
        ] == [(match.recipe.tubes, match.recipe.parts, match.difference) for match in others]


def test_so_many_copies_that_looking_at_all_would_never_end(
    few: Mapping[str, Tube], optics: Optics
) -> None:
    """1,200 tubes make 287 million sets of three; four paints make 14 sets of up to three."""
    tubes = copied(few, 300)
    K, S = (np.array([getattr(tube, name) for tube in tubes.values()]) for name in ("K", "S"))
    labs = np.array([[60.0, 40, -10], [45, -5, 20]])
    barred = np.zeros((2, len(tubes)), dtype=np.bool_)
    barred[0, ::4] = True  # every magenta
    barred[1] = True
    found = candidate_sets(
        K,
        S,
        labs,
        optics=optics,
        space=RecipeSpace(),
        ranking=Ranking(tolerance=np.inf, burden=0.0, most=1),
        barred=barred,
    )
    assert 1 <= len(found) <= 14
    assert all(set(tubes) <= {1, 2, 3} for tubes in found)
    assert all(colours == [0] for colours in found.values())


def test_paints_too_alike_to_be_told_apart_end_in_a_sentence(
    few: Mapping[str, Tube], optics: Optics, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(candidates, "MOST_KEPT", 100)
    tube = few["magenta"]
    alike = {
        f"nearly {number}": replace(tube, strength=tube.strength * (1 + 1e-9 * number))
        for number in range(12)
    }
    with pytest.raises(LimitError, match="12 tubes more than 100 come as near as the best"):
        best_matches(
            alike,
            np.array([[60.0, 40, -10]]),
            optics=optics,
            space=RecipeSpace(),
            tolerance=4.0,
            burden=0.0,
        )
