"""How much alike two tubes look once the stronger one is thinned."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.colour.difference import delta_e_2000
from fewtubes.mixing.likeness import TWINS, likeness, twins, wash_labs
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import STRENGTHS


@pytest.fixture(scope="module")
def tubes() -> Mapping[str, Tube]:
    return read_catalogue().tubes


@pytest.fixture(scope="module")
def optics() -> Optics:
    demo = read_catalogue()
    return Optics.of(demo.papers["cotton-white"], demo.lights["D65"])


def test_a_paint_is_like_itself(tubes: Mapping[str, Tube], optics: Optics) -> None:
    found = likeness(tubes["magenta"], tubes["magenta"], optics)
    assert (found.difference, found.thinning, found.first_is_stronger) == (0.0, 1.0, False)


@pytest.mark.parametrize("strength", [2**-0.5, 0.5, 2**-1.5])
def test_the_same_paint_at_another_strength_is_found_with_its_strength(
    tubes: Mapping[str, Tube], optics: Optics, strength: float
) -> None:
    """By definition: K and S grow with the strength, so that the washes are the same."""
    strong = tubes["magenta"]
    weak = replace(strong, strength=strength * strong.strength)
    found = likeness(strong, weak, optics)
    assert found.difference == pytest.approx(0, abs=1e-9)
    assert found.thinning == pytest.approx(strength)
    assert found.first_is_stronger
    other_way = likeness(weak, strong, optics)
    assert not other_way.first_is_stronger
    assert other_way.thinning == found.thinning


def test_it_is_the_largest_difference_at_the_best_thinning(
    tubes: Mapping[str, Tube], optics: Optics
) -> None:
    """Against a plain search over 1,000 thinnings either way."""
    first, second = tubes["ultramarine"], tubes["cobalt-blue"]

    def largest(weak: Tube, strong: Tube, thinning: float) -> float:
        thinned = replace(strong, strength=thinning * strong.strength)
        labs = wash_labs([weak, thinned], optics)
        return float(delta_e_2000(labs[0], labs[1]).max())

    best = min(
        largest(*pair, float(thinning))
        for pair in ((first, second), (second, first))
        for thinning in np.geomspace(0.25, 1, 1000)
    )
    assert best <= likeness(first, second, optics).difference + 1e-9
    assert likeness(first, second, optics).difference == pytest.approx(best, abs=0.2)


def test_the_table_holds_every_pair(tubes: Mapping[str, Tube], optics: Optics) -> None:
    """The table looks closely at few pairs only; here every pair is looked at."""
    table = twins(tubes, optics)
    assert table.diagonal().all()
    few = [*list(tubes.values())[::3], tubes["ultramarine-study"], tubes["soft-rose"]]
    places = [list(tubes).index(tube.id) for tube in few]
    for i, first in zip(places, few, strict=True):
        for j, second in zip(places, few, strict=True):
            assert table[i, j] == (likeness(first, second, optics).difference <= TWINS)
    assert table.sum() > len(tubes)


def test_copies_of_a_tube_are_its_twins(tubes: Mapping[str, Tube], optics: Optics) -> None:
    few = {id_: tubes[id_] for id_ in ("magenta", "turquoise")}
    copied = few | {f"copy-{id_}": replace(tube, id=f"copy-{id_}") for id_, tube in few.items()}
    assert twins(copied, optics).tolist() == [
        [True, False, True, False],
        [False, True, False, True],
        [True, False, True, False],
        [False, True, False, True],
    ]


def test_study_paints_are_twins_and_neighbours_are_not(
    tubes: Mapping[str, Tube], optics: Optics
) -> None:
    """Some pairs of the demo catalogue are one paint at two strengths, as its README says."""
    for strong, weak in (
        ("ultramarine", "ultramarine-study"),
        ("warm-red", "warm-red-study"),
        ("rose", "soft-rose"),
        ("green-leaning-blue", "green-leaning-blue-study"),
        ("arylide-yellow", "middle-yellow-study"),
    ):
        found = likeness(tubes[strong], tubes[weak], optics)
        assert found.difference < 0.2
        assert found.first_is_stronger
        assert found.thinning == pytest.approx(
            tubes[weak].strength / tubes[strong].strength, rel=0.02
        )
    for first, second in (("rose", "magenta"), ("warm-red", "scarlet"), ("rose", "pale-pink")):
        assert likeness(tubes[first], tubes[second], optics).difference > TWINS


def test_washes_are_those_of_the_tube_alone(tubes: Mapping[str, Tube], optics: Optics) -> None:
    labs = wash_labs([tubes["magenta"], tubes["rose"]], optics)
    assert labs.shape == (2, len(STRENGTHS), 3)
    assert (np.diff(labs[..., 0], axis=1) > 0).all()  # thinner is lighter
    assert wash_labs([], optics).shape == (0, len(STRENGTHS), 3)
