"""Bare paper in words, tables and pictures: it is a recipe, and nothing is mixed for it."""

import csv
import io
import json
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from rich.console import Console
from tests.remixed import with_samples

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.mixes import best_mixes
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.recipes import BARE_PAPER
from fewtubes.report.illustrated.page import illustrated_report
from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.sentences.palette import nothing_words
from fewtubes.report.sentences.reasons import bare_paper_words
from fewtubes.report.terminal.mixes import print_mixes
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.plan_tables import recipes
from fewtubes.words.recipes import recipe_words

Printed = Callable[..., str]
Flat = Callable[[str], str]


@pytest.fixture
def white(plan: Plan) -> Plan:
    """Return the plan with its first colour, and its missed one, left to the paper."""
    covered, missed, step = plan.samples
    return with_samples(
        plan, left_bare(covered, 1.13), left_bare(missed, 6.12), replace(step, bare_paper=1.6)
    )


def left_bare(planned: PlannedSample, match: float) -> PlannedSample:
    """Return a colour for which the paper is left bare."""
    return replace(
        planned,
        recipe=BARE_PAPER,
        mix_lab=(95.7, -0.3, 2.4),
        match=match,
        match_if_unsteady=match,
        bare_paper=match,
    )


def test_the_recipe_is_called_by_its_name() -> None:
    assert recipe_words(BARE_PAPER, {}) == "bare paper"


def test_the_text_names_it_and_says_what_to_do(white: Plan, printed: Printed, flat: Flat) -> None:
    text = flat(printed(white))
    assert "petal bare paper ΔE00 1.1, hardly different throat out" in text
    assert "out of reach — nearest is bare paper: ΔE00 6.1, clearly different." in text
    assert "paint around it (reserving the white)" in text
    lines = [line.strip() for line in printed(white).splitlines()]
    assert any(line.startswith("Or leave the paper bare: ") for line in lines)
    # Only where something else is taken is the paper offered as another way.
    assert text.count("Or leave the paper bare") == 1
    assert bare_paper_words(white.samples[0], white.scenario) == ""


def test_nothing_is_said_of_it_where_it_is_not_used(
    plan: Plan, printed: Printed, flat: Flat
) -> None:
    assert "reserving" not in flat(printed(plan))


def test_files_hold_a_recipe_without_tubes(white: Plan) -> None:
    row = next(csv.DictReader(io.StringIO(recipes(white).csv_text())))
    assert (row["recipe"], row["strength"], row["wash"]) == ("bare paper", "0", "bare paper")
    assert (row["tube_1"], row["parts_1"], row["tube_3"]) == ("", "", "")
    assert (row["covered"], row["match"], row["match_if_unsteady"]) == ("yes", "1.13", "1.13")
    sample = json.loads(plan_json(white))["samples"][0]
    assert sample["recipe"] == {"tubes": [], "strength": 0}
    assert sample["match"] == sample["bare_paper"] == 1.13


def test_the_page_draws_no_wet_edge_around_it(white: Plan) -> None:
    demo = read_catalogue()
    page = illustrated_report(white, optics_for(demo, "cotton-white", "D65", Cache()))
    assert "bare paper." in page
    assert "reserving the white" in page
    assert "bare paper is clearly different" in page
    # The half of the petal in the flower and the dabs beside the two recipes: dashed outlines.
    assert page.count("stroke-dasharray") >= 4


def test_nothing_to_buy_has_a_reason(plan: Plan, white: Plan) -> None:
    (bare, *_), (mixed, *_) = white.samples, plan.samples
    unused = tuple(replace(tube, recipes=0) for tube in plan.tubes)
    by_paper = replace(plan, tubes=unused, samples=(bare,))
    assert nothing_words(by_paper) == "bare paper does for all of it."
    both = replace(plan, samples=(bare, mixed))
    assert nothing_words(both) == "bare paper and your own tubes do for all of it."
    assert nothing_words(replace(plan, samples=(mixed,))) == "your own tubes do for all of it."
    assert nothing_words(plan) == "no tube that budget and wishes allow would bring more."
    stopped = replace(plan, certificate=replace(plan.certificate, status=Status.STOPPED))
    assert nothing_words(stopped).endswith("that there is none is not proven.")


def test_mixes_for_a_colour_begin_with_the_paper_where_it_does() -> None:
    demo = read_catalogue()
    optics = optics_for(demo, "cotton-white", "D65", Cache())
    L, a, b = (paper_lab(optics) - np.array([1.0, 0.0, 0.0])).tolist()
    tubes = {id_: demo.tubes[id_] for id_ in ("lemon", "carbon-black")}
    mixes = best_mixes("white", (L, a, b), tubes, optics=optics, tolerance=4.0, most=3)
    assert mixes.rated[0].match.recipe == BARE_PAPER
    assert len(mixes.rated) == 3
    stream = io.StringIO()
    print_mixes(mixes, Console(file=stream, width=200, color_system=None, _environ={}))
    first = next(line for line in stream.getvalue().splitlines() if line.startswith("1."))
    assert first.startswith("1.  bare paper — ΔE00 0.")
    assert "unsteady" not in first
    far = best_mixes("red", (45.0, 60.0, 30.0), tubes, optics=optics, tolerance=4.0, most=3)
    assert all(rated.match.recipe.tubes for rated in far.rated[1:])
