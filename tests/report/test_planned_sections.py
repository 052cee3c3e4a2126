"""What the illustrated report says of a class and of planned pictures: as the terminal, no less."""

import re
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.page import illustrated_page, plan_sections
from fewtubes.report.illustrated.planned import class_section, paint_section
from fewtubes.report.sentences.paint import paint_cells, paint_words, planned_words
from fewtubes.report.sentences.painters import class_share_words, class_tube_cells, leader_words
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.shop import Limits, shop

FIRST_SET = Path(__file__).parents[2] / "scenarios" / "first-set.toml"
HOSTILE = "<script>alert(1)</script>"


def said(markup: str) -> str:
    """Return the words of some markup, as they are read."""
    bare = re.sub(r"<svg.*?</svg>", " ", markup, flags=re.DOTALL)
    text = unescape(re.sub(r"<[^>]+>", " ", bare)).replace("\u00a0", " ")
    return " ".join(text.split())


TUBES = ("lemon", "warm-red-study", "ultramarine-study", "violet-mixed", "green-leaning-blue-study")
"""Enough for two flowers, and mixed in no time."""


@pytest.fixture(scope="module")
def basis(shared_cache: Cache) -> Basis:
    """Return the answer for five grown-ups who share the tubes, three pictures each."""
    demo = read_catalogue()
    catalogue = replace(demo, tubes={id_: demo.tubes[id_] for id_ in demo.tubes if id_ in TUBES})
    asked = read_scenario(FIRST_SET, demo)
    group = ClassWish(5, TubesFor.SHARED, Pupils.GROWN_UPS, pictures=3)
    scenario = Scenario(
        budget=40, currency=asked.currency, flowers=asked.flowers[:2], title=HOSTILE, group=group
    )
    plan = shop(catalogue, scenario, limits=Limits(seconds=20), cache=shared_cache)
    return Basis(plan, optics_for(catalogue, scenario.paper, scenario.light, shared_cache))


def test_the_class_is_told_as_in_the_terminal(basis: Basis) -> None:
    share = basis.plan.class_share
    assert share is not None
    text = said(str(class_section(basis)))
    for tube in share.tubes:
        assert " ".join(class_tube_cells(tube)) in text
    for sentence in class_share_words(share, basis.plan.scenario.currency):
        assert sentence in text
    assert leader_words(Pupils.GROWN_UPS) in text
    assert str(class_section(basis)).count('class="dab"') == len(share.tubes)


def test_paint_is_told_as_in_the_terminal(basis: Basis) -> None:
    paint = basis.plan.paint
    assert paint is not None
    text = said(str(paint_section(basis)))
    assert planned_words(basis.plan) in text
    assert "15 pictures" in text
    for tube in paint.tubes:
        assert " ".join(paint_cells(tube, paint)) in text
    for sentence in paint_words(basis.plan):
        assert sentence in text


def test_both_stand_behind_the_shopping_list(basis: Basis) -> None:
    sections = plan_sections(basis, class_section(basis))
    assert [section.id for section in sections[:3]] == ["shopping", "class", "paint"]
    assert sections[1].heading == "For 5 grown-ups"
    page = illustrated_page(basis, sections)
    assert 'href="#class"' in page
    assert HOSTILE not in page


def test_there_is_neither_without_class_and_pictures(basis: Basis) -> None:
    alone = replace(basis.plan.scenario, group=None, picture=None)
    plan = Basis(replace(basis.plan, scenario=alone, paint=None), basis.optics)
    ids = [section.id for section in plan_sections(plan, class_section(plan))]
    assert "class" not in ids
    assert "paint" not in ids
