"""Which clean hues need a tube of their own, against trying every recipe."""

from collections.abc import Mapping
from itertools import combinations, product

import numpy as np
import pytest

from fewtubes.catalogue.records import Tube
from fewtubes.colour.difference import delta_e_2000
from fewtubes.comparison.hues import hue_word, hues_of, one_hue
from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.comparison.unmixable import mixed_tubes
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS, STRENGTHS, Recipe

FEW = ("magenta", "soft-rose", "lemon", "yellow-ochre", "ultramarine", "titanium-white")


@pytest.fixture(scope="module")
def ranked(tubes: Mapping[str, Tube], optics: Optics) -> dict[str, MixedTube]:
    mixed = mixed_tubes({id_: tubes[id_] for id_ in FEW}, optics, cache=Cache())
    return {item.tube.id: item for item in mixed}


def test_a_hue_is_that_of_the_most_vivid_wash() -> None:
    washes = np.array([[30.0, 30.0, -2.0], [50.0, 60.0, -10.0], [90.0, 9.0, 20.0]])
    assert hue_word(washes) == "pink"
    for grey_or_brown in ([50.0, 1.0, 2.0], [95.0, 1.0, 2.0], [10.0, 1.0, 2.0], [35.0, 20.0, 20.0]):
        assert hue_word(np.array([grey_or_brown])) == ""


def test_what_has_no_hue_is_left_out_for_itself_alone() -> None:
    # pink, none, none, pink
    assert one_hue(["pink", "", "", "pink"]).astype(int).tolist() == [
        [1, 0, 0, 1],
        [0, 1, 0, 0],
        [0, 0, 1, 0],
        [1, 0, 0, 1],
    ]


def test_hues_of_a_few_tubes(ranked: dict[str, MixedTube]) -> None:
    assert {id_: item.hue for id_, item in ranked.items()} == {
        "magenta": "pink",
        "soft-rose": "pink",
        "lemon": "yellow",
        "yellow-ochre": "yellow",
        "ultramarine": "violet",
        "titanium-white": "",
    }
    hues = hues_of([*ranked.values()])
    assert [len(hue.members) for hue in hues if hue.word in {"pink", "yellow"}] == [2, 2]
    farthest = [hue.members[0].other_hues for hue in hues]
    assert farthest == sorted(farthest, reverse=True)


@pytest.mark.parametrize("id_", ["soft-rose", "yellow-ochre"])
def test_the_nearest_mix_of_other_hues_is_that_of_trying_every_recipe(
    ranked: dict[str, MixedTube], tubes: Mapping[str, Tube], optics: Optics, id_: str
) -> None:
    others = [
        other
        for other in FEW
        if other != id_ and (not ranked[other].hue or ranked[other].hue != ranked[id_].hue)
    ]
    labs = np.array(
        [
            recipe_lab(Recipe(chosen, parts, strength), tubes, optics)
            for size, all_parts in PARTS.items()
            for chosen in combinations(others, size)
            for parts, strength in product(all_parts, STRENGTHS)
        ]
    )
    wanted = np.array(ranked[id_].labs)
    nearest = [delta_e_2000(labs, lab).min() for lab in wanted]
    assert len(nearest) == len(STRENGTHS)
    assert ranked[id_].other_hues == pytest.approx(max(nearest), abs=1e-6)
