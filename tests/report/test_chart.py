"""The sheet to paint: which boxes it holds, in which colours, numbered as in the report."""

from dataclasses import replace
from math import comb

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS, STRENGTHS
from fewtubes.picture.sheet import screen_colour
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.chart import (
    MOST_TUBES_IN_ALL_PAIRS,
    PAIR_PARTS,
    WASH,
    pair_rows,
    puddle_rows,
    tube_rows,
)
from fewtubes.report.illustrated.chart_page import chart_page, chart_words
from fewtubes.report.sentences.puddles import puddle_words
from fewtubes.shopping.plan import Plan

BOX = '<span class="box"></span>'


def test_every_pair_is_there_once_in_steps_of_the_recipes_in_full_and_in_a_wash(
    plan: Plan, optics: Optics
) -> None:
    rows = pair_rows(Basis(plan, optics))
    assert len(rows) == comb(len(plan.tubes), 2)
    assert len({frozenset(row.lines[0][0].recipe.tubes) for row in rows}) == len(rows)
    assert set(PAIR_PARTS) <= set(PARTS[2])
    for row in rows:
        assert [[box.recipe.parts for box in line] for line in row.lines] == 2 * [[*PAIR_PARTS]]
        assert [{box.recipe.strength for box in line} for line in row.lines] == [{1.0}, {WASH}]


def test_a_wash_of_a_pair_is_a_quarter_and_washes_of_tubes_halve(
    plan: Plan, optics: Optics
) -> None:
    assert pytest.approx(0.25) == WASH
    for row in tube_rows(Basis(plan, optics)):
        (line,) = row.lines
        strengths = [box.recipe.strength for box in line]
        assert np.divide(strengths[1:], strengths[:-1]) == pytest.approx(0.5)


def kubelka_munk_lab(tubes: list[Tube], loads: list[float], optics: Optics) -> FloatArray:
    """Return CIELAB of a mixture as the sources have it, written down independently.

    K and S add up (Duncan, Proc. Phys. Soc. 52, 390, 1940). A film of thickness 1 over a ground
    Rg has R = (1 − Rg(a − b coth bS)) / (a − Rg + b coth bS), a = 1 + K/S, b = √(a² − 1) (Kubelka,
    JOSA 38, 448, 1948, after Kubelka and Munk 1931). The surface: Saunderson, JOSA 32, 727, 1942,
    with 0.04 and 0.596 for an index of 1.5. CIELAB: CIE 15, f(t) = t^⅓ above (6/29)³.
    """
    K = sum(load * tube.K for load, tube in zip(loads, tubes, strict=True))
    S = sum(load * tube.S for load, tube in zip(loads, tubes, strict=True))
    a = 1 + K / S
    b = np.sqrt(a**2 - 1)
    coth = np.cosh(b * S) / np.sinh(b * S)
    inner = (1 - optics.ground * (a - b * coth)) / (a - optics.ground + b * coth)
    seen = 0.04 + (1 - 0.04) * (1 - 0.596) * inner / (1 - 0.596 * inner)
    t = (seen @ optics.weights) / optics.white
    f = np.where(t > (6 / 29) ** 3, np.cbrt(t), t * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def test_colours_are_those_of_kubelka_and_munk(plan: Plan, optics: Optics) -> None:
    demo = list(read_catalogue(None).tubes.values())[: len(plan.tubes)]
    planned = [replace(it, tube=tube) for it, tube in zip(plan.tubes, demo, strict=True)]
    basis = Basis(replace(plan, tubes=tuple(planned), mixed=replace(plan.mixed, mixed=())), optics)
    boxes = [
        box for row in (*pair_rows(basis), *tube_rows(basis)) for ln in row.lines for box in ln
    ]
    for box in boxes:
        tubes = [basis.tubes[id_] for id_ in box.recipe.tubes]
        parts = box.recipe.parts
        loads = [box.recipe.strength * part / sum(parts) for part in parts]
        lab = kubelka_munk_lab(tubes, loads, optics)
        assert recipe_lab(box.recipe, basis.tubes, optics) == pytest.approx(lab, abs=1e-6)
        assert box.shown == screen_colour(recipe_lab(box.recipe, basis.tubes, optics))
    assert len({box.shown.hex for box in boxes}) > len(boxes) / 2


def test_puddles_stand_as_in_the_report_each_with_its_washes(plan: Plan, optics: Optics) -> None:
    """By hand: magenta and gold in 2 : 1 at half strength for the petal, and for the step."""
    basis = Basis(plan, optics)
    ((flower, (row,)),) = puddle_rows(basis)
    (puddle,) = plan.mixed.mixed
    assert (flower, row.title) == ("rose", f"Puddle 1: {puddle_words(puddle, basis.names)}")
    (line,) = row.lines
    assert [(box.recipe.strength, box.use) for box in line] == [
        (STRENGTHS[0], ""),
        (0.5, "petal and between petal and fold"),
    ]
    assert {box.recipe.parts for box in line} == {(2, 1)}


def test_the_page_has_an_empty_box_and_a_colour_for_each(plan: Plan, optics: Optics) -> None:
    basis = Basis(plan, optics)
    page = chart_page(basis)
    boxes = 3 * 5 + 3 * 2 * 5 + 2  # three tubes, three pairs in two lines, one puddle
    assert page.count(BOX) == boxes
    assert page.count('class="chip"') == boxes
    assert chart_words(basis) == "3 tubes, 3 pairs and 1 puddle"
    for words in (chart_words(basis), "golden yellow", "approximate", "Wash hands.", "100 mm"):
        assert words in page


def test_names_that_mean_harm_do_none(hostile: tuple[str, Plan], optics: Optics) -> None:
    _, plan = hostile
    named = replace(plan.tubes[0], tube=replace(plan.tubes[0].tube, name="<script>x</script>"))
    page = chart_page(Basis(replace(plan, tubes=(named, *plan.tubes[1:])), optics))
    assert "<script" not in page
    assert "&lt;script&gt;" in page
    assert "\x1b" not in page


def test_without_tubes_there_is_nothing_to_paint(empty_plan: Plan, optics: Optics) -> None:
    page = chart_page(Basis(empty_plan, optics))
    assert "There is no tube to paint with." in page
    assert BOX not in page
    assert "Wash hands." in page


def test_of_very_many_tubes_only_pairs_in_puddles_are_painted(plan: Plan, optics: Optics) -> None:
    first = plan.tubes[0]
    more = [
        replace(first, tube=replace(first.tube, id=f"more-{number}"))
        for number in range(MOST_TUBES_IN_ALL_PAIRS)
    ]
    basis = Basis(replace(plan, tubes=(*plan.tubes, *more)), optics)
    (row,) = pair_rows(basis)
    assert set(row.lines[0][0].recipe.tubes) == {"magenta", "gold"}
    assert "Only the pairs that a puddle holds" in chart_page(basis)
    assert "Only the pairs" not in chart_page(Basis(plan, optics))
