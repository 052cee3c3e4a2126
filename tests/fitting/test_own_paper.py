"""A paper of the colour seen."""

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.own_paper import paper_like
from fewtubes.fitting.sheet import SeenLab, SeenReflectance
from fewtubes.mixing.mixture import reflectance_lab

KNOWN = read_catalogue().papers
USUAL = KNOWN["cotton-white"]


@pytest.mark.parametrize("lab", [(93.0, 1.0, 9.0), (88.0, -2.0, 3.0), (96.0, 0.5, -4.0)])
def test_it_has_that_colour(grounds: Grounds, lab: tuple[float, float, float]) -> None:
    paper = paper_like(KNOWN, USUAL, SeenLab(lab), grounds.optics)
    assert paper.id == "swatch-paper"
    assert reflectance_lab(paper.reflectance, grounds.optics) == pytest.approx(lab, abs=0.05)
    assert (paper.reflectance <= 1).all()
    # It is a paper and no comb: neighbouring bands differ little.
    assert np.abs(np.diff(paper.reflectance)).max() < 0.05


def test_one_that_cannot_be_told_apart_is_the_usual_one(grounds: Grounds) -> None:
    L, a, b = reflectance_lab(USUAL.reflectance, grounds.optics).tolist()
    near = SeenLab((L - 0.5, a, b + 0.3))
    assert paper_like(KNOWN, USUAL, near, grounds.optics) is USUAL


def test_a_measured_one_is_taken_as_it_is(grounds: Grounds) -> None:
    measured = np.linspace(0.7, 0.9, 36)
    seen = SeenReflectance(measured)
    found = paper_like(KNOWN, USUAL, seen, grounds.optics)
    assert np.array_equal(found.reflectance, measured)


def test_a_second_one_has_a_name_of_its_own(grounds: Grounds) -> None:
    known = dict(KNOWN)
    for number, b in enumerate((9.0, 5.0, 12.0), start=1):
        paper = paper_like(known, USUAL, SeenLab((92.0, 1.0, b)), grounds.optics)
        assert paper.id == ("swatch-paper" if number == 1 else f"swatch-paper-{number}")
        assert paper.name not in {other.name for other in known.values()}
        known[paper.id] = paper
    # Seen again, a little off, it is the one that is known.
    again = paper_like(known, USUAL, SeenLab((92.3, 1.0, 5.2)), grounds.optics)
    assert again is known["swatch-paper-2"]
