"""What is compared: coverage against cost beside an answer, and one answer beside another."""

import json
import re
from dataclasses import replace
from typing import Any

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.compare import compare
from fewtubes.coverage.cache import Cache
from fewtubes.page.differences import differences
from fewtubes.page.form import scenario_of
from fewtubes.page.run_state import MOST_PROCESSES
from fewtubes.page.settings import Settings
from fewtubes.words.money import money

Filled = dict[str, Any]


def new_tab(client: TestClient) -> str:
    """Open a tab and return its address."""
    return client.get("/").url.path


def test_coverage_against_cost_is_that_of_the_library(
    browser: TestClient, settings: Settings, demo: Catalogue, filled: Filled
) -> None:
    tab = new_tab(browser)
    page = browser.post(f"{tab}ask", data=filled).text
    values = {key: value if isinstance(value, list) else [value] for key, value in filled.items()}
    scenario = scenario_of(values, demo)
    found = compare(demo, scenario, cache=Cache(settings.cache))
    costs = browser.get(f"{tab}costs")
    assert costs.status_code == 200
    assert costs.text.strip() in page
    assert "Proven: none covers more for as little money" in costs.text
    assert len(found.sizes) > 2  # else there is little to see
    for size in found.sizes[1:]:
        assert money(size.palette.cost, "EUR") in costs.text.replace("\u00a0", " ")


def test_coverage_against_cost_comes_after_the_answer(
    comparing_browser: TestClient, filled: Filled, comparing: list[Any]
) -> None:
    tab = new_tab(comparing_browser)
    page = comparing_browser.post(f"{tab}ask", data=filled).text
    assert "are being compared" in page
    assert f'<noscript><p><a href="{tab}answer">Look again</a>' in page
    assert comparing_browser.get(f"{tab}costs").status_code == 202
    comparing[0].costs = "<p>compared</p>"
    assert comparing_browser.get(f"{tab}costs").text.strip() == "<p>compared</p>"
    assert "<noscript>" not in comparing_browser.get(f"{tab}answer").text


def test_a_comparison_that_breaks_off_leaves_the_answer(
    comparing_browser: TestClient, filled: Filled, comparing: list[Any]
) -> None:
    tab = new_tab(comparing_browser)
    comparing_browser.post(f"{tab}ask", data=filled)
    comparing[0].ended.set()
    assert "could not be compared" in comparing_browser.get(f"{tab}costs").text
    page = comparing_browser.get(f"{tab}answer").text
    assert "are being compared" not in page
    assert "comes when all is compared" not in page
    report = comparing_browser.get(f"{tab}last/report.html")
    assert report.status_code == 200
    assert comparing_browser.get(f"{tab}last/shopping-list.csv").status_code == 200


def test_room_is_made_for_those_who_wait(
    comparing_browser: TestClient, filled: Filled, comparing: list[Any]
) -> None:
    for _ in range(MOST_PROCESSES + 2):
        comparing_browser.post(f"{new_tab(comparing_browser)}ask", data=filled)
    assert [job.stops for job in comparing] == [1, 1, *[0] * MOST_PROCESSES]


def test_answers_that_were_never_looked_at_make_room_too(
    comparing_browser: TestClient, filled: Filled, comparing: list[Any]
) -> None:
    for _ in range(MOST_PROCESSES + 2):
        asked = comparing_browser.post(
            f"{new_tab(comparing_browser)}ask", data=filled, follow_redirects=False
        )
        assert asked.status_code == 303
    assert [job.stops for job in comparing] == [1, 1, *[0] * MOST_PROCESSES]


def test_no_costs_before_there_is_an_answer(browser: TestClient) -> None:
    assert browser.get(f"{new_tab(browser)}costs").status_code == 404
    assert browser.get("/tab/none/costs").status_code == 404


def test_only_what_can_be_looked_at_goes_on_being_compared(
    comparing_browser: TestClient, filled: Filled, comparing: list[Any]
) -> None:
    tab = new_tab(comparing_browser)
    stops = []
    for keep in (False, True, False, True):
        comparing_browser.post(f"{tab}ask", data=filled)
        if keep:
            comparing_browser.post(f"{tab}keep")
        stops.append([job.stops for job in comparing])
    assert stops == [[0], [1, 0], [1, 0, 0], [1, 1, 1, 0]]


def test_two_answers_side_by_side(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data={**filled, "budget": "4.00"})
    kept = browser.post(f"{tab}keep")
    assert "Kept as A" in kept.text
    assert "A beside B</a>" not in kept.text  # nothing beside it yet
    browser.post(f"{tab}ask", data={**filled, "budget": "20.00"})
    page = browser.get(f"{tab}compare").text
    assert "EUR 4.00" in page
    assert "EUR 20.00" in page
    assert "in B only" in page
    assert "Colours that come out differently" in page
    assert "covered by B only" in page
    a = json.loads(browser.get(f"{tab}kept/plan.json").text)
    b = json.loads(browser.get(f"{tab}last/plan.json").text)
    pairs = zip(a["samples"], b["samples"], strict=True)
    assert ("out the same" in page) == any(x["recipe"] == y["recipe"] for x, y in pairs)
    assert a["scenario"]["budget"] == "4.00"
    assert b["scenario"]["budget"] == "20.00"


def test_tubes_of_one_name_are_two(browser: TestClient, app: Starlette, filled: Filled) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data=filled)
    answer = app.state.run.tabs.find(tab.split("/")[2]).last.answer
    assert len(answer.plan.tubes) > 1
    tubes = [replace(item, tube=replace(item.tube, name="blue")) for item in answer.plan.tubes]
    same = replace(answer, plan=replace(answer.plan, tubes=tuple(tubes)))
    assert [row.label for row in differences(same, same).tubes] == ["blue"] * len(tubes)


def test_equal_answers_side_by_side(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data=filled)
    browser.post(f"{tab}keep")
    browser.post(f"{tab}ask", data=filled)
    page = browser.get(f"{tab}compare").text
    assert "Every colour comes out the same" in page
    assert "<summary>8 colours that come out the same</summary>" in page
    assert 'class="differs"' not in page


def test_wishes_stand_side_by_side(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data=filled)
    browser.post(f"{tab}keep")
    page = browser.post(f"{tab}ask", data={**filled, "lightfastness": "I"}).text
    assert "Wished: lightfastness I." in page
    rows = browser.get(f"{tab}compare").text
    assert re.search(r"<th scope=\"row\">Wishes <span[^>]*>in B only</span></th>", rows)
    assert "lightfastness I" in rows
    page = browser.post(f"{tab}ask", data={**filled, "trials": "steadiest-near"}).text
    assert "the steadiest within 1" in browser.get(f"{tab}compare").text


@pytest.mark.usefixtures("_answers_alone")
def test_all_files_of_either_answer_can_be_taken_from_beside_the_other(
    browser: TestClient, filled: Filled
) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data=filled)
    browser.post(f"{tab}keep")
    asked = {**filled, "budget": "20", "class_painters": "3", "class_pupils": "grown-ups"}
    browser.post(f"{tab}ask", data=asked)
    page = browser.get(f"{tab}compare").text
    places = re.findall(rf'href="({tab}(?:kept|last)/[^"]+)"', page)
    assert f"{tab}last/handout.html" in places
    assert f"{tab}kept/handout.html" not in places
    assert len(places) == len(set(places)) == 12
    of_class = [place for place in places if "class" in place or "handout" in place]
    assert len(of_class) == 2
    assert {browser.get(place).status_code for place in of_class} == {200}
    assert "paints for 3 grown-ups" in page or "1 paint for 3 grown-ups" in page
