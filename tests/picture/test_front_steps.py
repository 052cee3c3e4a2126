"""Coverage against cost, drawn."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.picture.front_steps import Step, cost_marks, front_steps
from fewtubes.picture.shapes import Area, Line, Picture, Words
from fewtubes.picture.sheet import Sheet

STEPS = (Step(0, 0.0, proven=True), Step(280, 0.3, proven=True), Step(1790, 1.0, proven=False))


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return Sheet.of(optics_for(read_catalogue(), "cotton-white", "D65", Cache()))


def drawn(sheet: Sheet, budget: int) -> Picture:
    return front_steps(
        STEPS, sheet, budget=budget, chosen=STEPS[1], currency="EUR", description="Steps."
    )


@given(dearest=st.floats(1, 1e8))
def test_marks_are_few_round_and_within(dearest: float) -> None:
    marks = cost_marks(dearest)
    assert 2 <= len(marks) <= 8
    assert marks[0] == 0
    assert marks[-1] <= dearest
    step = marks[1]
    assert all(later - earlier == step for earlier, later in pairwise(marks))
    assert f"{step:e}"[0] in "125"


def test_every_step_has_its_dab_and_unproven_ones_a_sign(sheet: Sheet) -> None:
    picture = drawn(sheet, 1200)
    dabs = [shape for shape in picture.shapes if isinstance(shape, Area)]
    places = [
        tuple(sum(axis) / len(axis) for axis in zip(*dab.points, strict=True)) for dab in dabs
    ]
    assert len(places) == len(STEPS)
    assert all(a[0] < b[0] and a[1] > b[1] for a, b in pairwise(places)), "right and up"
    signs = [shape for shape in picture.shapes if isinstance(shape, Words) and shape.text == "?"]
    assert len(signs) == 1
    assert picture.description == "Steps."


@pytest.mark.parametrize(("budget", "told"), [(1200, True), (1_000_000, False)])
def test_budget_is_drawn_where_it_fits(sheet: Sheet, budget: int, told: bool) -> None:
    words = [shape.text for shape in drawn(sheet, budget).shapes if isinstance(shape, Words)]
    assert ("budget" in words) == told


def test_the_plan_is_ringed(sheet: Sheet) -> None:
    ring = drawn(sheet, 1200).shapes[-1]
    assert isinstance(ring, Line)
    assert ring.points[0] == ring.points[-1]
