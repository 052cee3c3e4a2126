"""How far paint from a tube goes where nothing is told of it; the rule is ours, c₀ √(K ÷ K₀)."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.defaults import CM2_PER_ML
from fewtubes.mixing.covering_power import FURTHEST, MIDDLING, covering_power

MAGENTA = read_catalogue().tubes["magenta"]


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def of_absorption(tube: Tube, largest: float) -> Tube:
    """Return a tube of one pigment with a given largest K, and no figure of its own."""
    pigment, _ = tube.pigments[0]
    K = np.full_like(pigment.K, largest)
    return replace(tube, strength=1.0, pigments=((replace(pigment, K=K), 1.0),), cm2_per_ml=None)


@pytest.mark.parametrize(
    ("largest", "goes"),
    [
        (2.4, 200.0),  # a middling paint
        (5.4, 300.0),  # √(5.4 ÷ 2.4) = 1.5
        (0.6, 100.0),  # √(0.6 ÷ 2.4) = 0.5, the least
        (0.0, 100.0),
        (9.6, 400.0),  # √(9.6 ÷ 2.4) = 2, the most
        (100.0, 400.0),
    ],
)
def test_by_hand(demo: Catalogue, largest: float, goes: float) -> None:
    assert covering_power(of_absorption(demo.tubes["magenta"], largest)) == pytest.approx(goes)


def test_what_the_catalogue_tells_goes_before(demo: Catalogue) -> None:
    told = replace(demo.tubes["magenta"], cm2_per_ml=123.0)
    assert covering_power(told) == 123.0


@given(weak=st.floats(0, 50), more=st.floats(0, 50))
def test_a_stronger_tinter_never_goes_less_far(weak: float, more: float) -> None:
    one, other = (covering_power(of_absorption(MAGENTA, K)) for K in (weak, weak + more))
    assert CM2_PER_ML / FURTHEST <= one <= other <= CM2_PER_ML * FURTHEST


def test_middling_is_the_middle_of_the_demo(demo: Catalogue) -> None:
    """Half of the demo's tubes are stronger tinters and half weaker, within a twentieth."""
    median = float(np.median([tube.K.max() for tube in demo.tubes.values()]))
    assert pytest.approx(median, rel=0.05) == MIDDLING


def test_painters_know_which_go_far(demo: Catalogue) -> None:
    """Phthalocyanines and pyrroles are strong tinters, earths and whites weak.

    Common practice, no source.
    """
    strong = [covering_power(demo.tubes[id_]) for id_ in ("middle-blue", "pyrrole-orange")]
    weak = [covering_power(demo.tubes[id_]) for id_ in ("green-earth", "titanium-white")]
    assert min(strong) > CM2_PER_ML > max(weak)


def test_the_same_paint_told_in_two_ways_goes_equally_far(demo: Catalogue) -> None:
    """Strength 0.6 of a profile, or a profile of 0.6 times the K: one paint, one answer."""
    study = demo.tubes["warm-red-study"]
    pigment, _ = study.pigments[0]
    weaker = replace(pigment, K=study.strength * pigment.K, S=study.strength * pigment.S)
    other = replace(study, strength=1.0, pigments=((weaker, 1.0),))
    assert covering_power(other) == pytest.approx(covering_power(study))
