"""Finer points of a question: folded away while all is as usual, open where something is not."""

import re
from typing import Any

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.page.test_pages import new_tab

from fewtubes.catalogue.records import Catalogue, Hazard
from fewtubes.page.fields import LABELS
from fewtubes.page.finer_points import FINER_FIELDS, finer_words, opens_finer
from fewtubes.page.form import first_values

pytestmark = pytest.mark.usefixtures("_answers_alone")

OPEN = '<details id="finer" open>'


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("tolerance", ["3"], "tolerance"),
        ("tolerance", [""], "tolerance"),
        ("paper", ["rough-cream"], "paper"),
        ("most_tubes", ["4"], "most tubes to buy"),
        ("puddling", ["sitting"], "puddles"),
        ("prefer", ["cheapest"], "of equally good choices"),
        ("avoid", ["any"], "hazards to avoid"),
        ("avoid", ["lead", "zinc"], "hazards to avoid"),
    ],
)
def test_what_is_not_as_usual_is_told(
    demo: Catalogue, field: str, typed: list[str], words: str
) -> None:
    first = first_values(demo)
    values = {**first, field: typed}
    assert finer_words(values, first) == words
    assert opens_finer(values, first, [])


def test_nothing_is_told_of_what_was_left_alone(demo: Catalogue) -> None:
    first = first_values(demo)
    sent = {field: [""] for field in FINER_FIELDS if field != "avoid"}
    values = {**sent, **first, "puddling": ["flower"], "budget": ["9"], "flower": ["pansy"]}
    assert finer_words(values, first) == ""
    assert not opens_finer(values, first, ["budget", "flowers"])
    assert opens_finer(values, first, ["budget", "light"])


def test_every_finer_point_has_its_words() -> None:
    assert set(FINER_FIELDS) < set(LABELS)


def test_money_and_flowers_come_first_and_the_rest_is_folded(browser: TestClient) -> None:
    text = browser.get("/").text
    places = [text.index(f'id="{place}"') for place in ("budget", "flower-0", "finer", "tolerance")]
    assert places == sorted(places)
    assert '<details id="finer">' in text
    for field in FINER_FIELDS:
        assert text.index(f'id="{field}"') > text.index('id="finer"')


def test_a_changed_or_faulty_finer_point_unfolds_them(
    browser: TestClient, filled: dict[str, Any]
) -> None:
    tab = new_tab(browser)
    refused = browser.post(f"{tab}ask", data={**filled, "tolerance": "none"})
    assert refused.status_code == 422
    assert OPEN in refused.text
    browser.post(f"{tab}ask", data={**filled, "most_tubes": "3"})
    again = browser.get(tab).text
    assert OPEN in again
    assert "(changed: most tubes to buy)" in again
    browser.post(f"{tab}ask", data=filled)
    assert OPEN not in browser.get(tab).text


def test_any_hazard_is_one_tick(
    browser: TestClient, app: Starlette, filled: dict[str, Any]
) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data={**filled, "avoid": "any"})
    wishes = app.state.run.tabs.find(tab.split("/")[2]).last.answer.plan.scenario.wishes
    assert set(wishes.avoid_hazards) == set(Hazard)
    assert re.search(r'value="any" id="avoid-any" checked', browser.get(tab).text)
