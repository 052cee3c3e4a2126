"""The way through the pages, and what they say when something is wrong."""

import io
import json
import re
import tempfile
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from PIL import Image
from starlette.applications import Starlette
from starlette.testclient import TestClient

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.compare import compare
from fewtubes.comparison.sold_out import if_sold_out
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.page.form import scenario_of
from fewtubes.page.job import State
from fewtubes.page.run_state import MOST_PHOTOGRAPHS
from fewtubes.page.settings import Settings
from fewtubes.page.tabs import Tab
from fewtubes.report.illustrated.page import illustrated_report
from fewtubes.report.plan_files import plan_files
from fewtubes.report.sentences.proof import proof_words, standing_sentence
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import shop
from fewtubes.words.unparted import FIXED_BLANK

Filled = dict[str, Any]

HOSTILE = "<script>alert(1)</script>"
FORMULA = "=1+1"


def new_tab(client: TestClient) -> str:
    """Open a tab and return its address."""
    return client.get("/").url.path


def photograph(*, noise: bool = False) -> bytes:
    """Return a PNG file: pink, or noise that does not compress."""
    pixels = np.full((20, 20, 3), (200, 40, 110), dtype=np.uint8)
    if noise:
        pixels = np.random.default_rng(0).integers(0, 256, (1200, 1200, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG")
    return out.getvalue()


def csv_rows(text: str) -> list[str]:
    return text.split("\r\n")


def test_the_question_shows_every_flower_and_tube(browser: TestClient, demo: Catalogue) -> None:
    text = browser.get("/").text
    assert text.count('name="flower"') == len(demo.flowers) == 48
    assert len(re.findall('<select name="tube-', text)) == len(demo.tubes)
    for field in re.findall(r'<(?:input|select)[^>]* id="([^"]+)"', text):
        assert f'for="{field}"' in text  # every field has a label


def test_from_a_question_to_an_answer(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    answer = browser.post(f"{tab}ask", data=filled)
    assert answer.url.path == f"{tab}answer"
    assert "1 tube for" in answer.text or "tubes for" in answer.text
    assert "Proven best: no choice within EUR 12.00 covers more" in answer.text
    for heading in ("To buy", "The flowers, wanted and mixed", "Out of reach", "Take care"):
        assert f">{heading}</h2>" in answer.text


def test_a_reload_shows_the_last_answer(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    first = browser.post(f"{tab}ask", data=filled).text
    assert browser.get(f"{tab}answer").text == first
    again = browser.get(tab).text
    assert "Your last answer" in again
    assert re.search(r'value="cornflower" id="flower-\d+"[^>]* checked', again)
    assert 'id="budget" value="12.00"' in again


def test_files_are_those_of_the_library(
    browser: TestClient, app: Starlette, settings: Settings, demo: Catalogue, filled: Filled
) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data=filled)
    plan = app.state.run.tabs.find(tab.split("/")[2]).last.answer.plan
    files = plan_files(plan)
    assert set(files) == {"shopping-list.csv", "recipes.csv", "puddles.csv", "plan.json"}
    for name, text in files.items():
        got = browser.get(f"{tab}last/{name}")
        assert got.content == text.encode()
        assert got.headers["content-disposition"] == f'attachment; filename="{name}"'
    optics = optics_for(demo, "cotton-white", "D65", Cache(settings.cache))
    comparison = compare(demo, plan.scenario, cache=Cache(settings.cache))
    report = browser.get(f"{tab}last/report.html")
    sold_out = if_sold_out(comparison.question, plan, seconds=20)
    page = illustrated_report(plan, optics, comparison=comparison, sold_out=sold_out)
    assert sold_out
    assert report.content == page.encode()


@pytest.mark.parametrize("longer", [0.0, 3.0])
def test_the_answer_is_that_of_the_library(
    browser: TestClient,
    app: Starlette,
    demo: Catalogue,
    filled: Filled,
    longer: float,
) -> None:
    tab, cache = new_tab(browser), Cache(app.state.run.settings.cache)
    page = browser.post(f"{tab}ask", data=filled).text
    values = {key: value if isinstance(value, list) else [value] for key, value in filled.items()}
    plan = _taking(shop(demo, scenario_of(values, demo), cache=cache), longer)
    shown = app.state.run.tabs.find(tab.split("/")[2]).last.answer.plan
    same = _taking(plan, shown.certificate.seconds)  # the one thing in which two runs may differ
    for name, text in plan_files(same).items():
        assert browser.get(f"{tab}last/{name}").content == text.encode()
    page = page.replace(FIXED_BLANK, " ")
    assert proof_words(same) in page
    assert page.index(standing_sentence(plan)) < page.index("Take it with you")


def _taking(plan: Plan, seconds: float) -> Plan:
    """Return a plan as if its proof had taken so long."""
    return replace(plan, certificate=replace(plan.certificate, seconds=seconds))


def test_a_fading_tube_is_told_and_can_be_done_without(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    # One tube brings the pink of the petunia, and it fades.
    asked = {**filled, "flower": ["petunia, neon pink"], "budget": "6.00"}
    page = browser.post(f"{tab}ask", data=asked).text
    assert "In light this one fades" in page
    before = json.loads(browser.get(f"{tab}last/plan.json").text)
    assert before["lightfastness"]["worst"] in {"III", "IV", "V"}
    page = browser.post(f"{tab}lasting").text
    assert "In light th" not in page
    assert "Wished: lightfastness II or better." in page
    after = json.loads(browser.get(f"{tab}last/plan.json").text)
    assert after["lightfastness"]["worst"] in {"I", "II"}
    assert browser.post("/tab/none/lasting").status_code == 404


def test_lasting_tubes_are_asked_for_what_the_answer_was_asked_for(
    browser: TestClient, filled: Filled
) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data={**filled, "flower": ["petunia, neon pink"], "budget": "6"})
    half_typed = {**filled, "title": "Half typed", "budget": "40", "flower": ["gentian"]}
    browser.post(f"{tab}colours", data=half_typed)
    page = browser.post(f"{tab}lasting").text
    assert "One flower" in page
    assert "at most EUR 6.00" in page
    browser.post(f"{tab}ask", data={**filled, "budget": "abc"})
    assert "at most EUR 6.00" in browser.post(f"{tab}lasting").text


@pytest.mark.parametrize("forged", ["zzz", "\x00", "#12345", "#12345g"])
def test_a_colour_that_was_never_found(browser: TestClient, filled: Filled, forged: str) -> None:
    answer = browser.post(f"{new_tab(browser)}colours", data={**filled, "take": forged})
    assert answer.status_code == 422
    assert "is no colour that was found" in answer.text


def test_how_paint_and_hand_vary_is_asked_for(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    page = browser.post(f"{tab}ask", data={**filled, "trials": "tell"}).text
    assert "Expected coverage:" in page
    plan = json.loads(browser.get(f"{tab}last/plan.json").text)
    assert plan["steadiness"]["draws"] == 200
    refused = browser.post(f"{tab}ask", data={**filled, "trials": "dice"})
    assert refused.status_code == 422
    assert "dice" in refused.text


def test_faults_are_told_at_their_fields(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    answer = browser.post(f"{tab}ask", data={**filled, "budget": "much", "tolerance": "99"})
    assert answer.status_code == 422
    assert '<a href="#budget">Budget</a>' in answer.text
    assert 'id="budget" value="much" aria-describedby="fault-budget-1" aria-invalid="true"' in (
        answer.text
    )
    assert answer.text.count("it must be a number from 0.01 to 20") == 2


def test_a_clash_is_told(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    clashing = {**filled, "budget": "0.50", "tube-lemon": "must_have"}
    answer = browser.post(f"{tab}ask", data=clashing)
    assert answer.url.path == tab
    notice = re.search(r'<p class="notice" role="status">([^<]*)', answer.text)
    assert notice is not None
    assert "budget of EUR 0.50" in notice[1]


def test_two_tabs_do_not_disturb_each_other(browser: TestClient, filled: Filled) -> None:
    one, other = new_tab(browser), new_tab(browser)
    assert one != other
    browser.post(f"{one}ask", data=filled)
    browser.post(f"{other}ask", data={**filled, "title": "Other", "flower": ["daffodil"]})
    assert "One flower" in browser.get(f"{one}answer").text
    assert "Other" in browser.get(f"{other}answer").text
    assert "daffodil" not in browser.get(f"{one}answer").text.partition("<main")[2]


def test_a_tab_that_is_not_there(browser: TestClient, filled: Filled) -> None:
    for path in ("", "answer", "work", "compare", "last/plan.json"):
        answer = browser.get(f"/tab/nosuch/{path}")
        assert answer.status_code == 404
        assert "Begin a new question" in answer.text
    for path in ("ask", "photograph", "colours", "stop", "keep"):
        assert browser.post(f"/tab/nosuch/{path}", data=filled).status_code == 404


def test_nothing_to_download_before_there_is_an_answer(browser: TestClient) -> None:
    tab = new_tab(browser)
    assert browser.get(f"{tab}last/plan.json").status_code == 404
    assert browser.get(f"{tab}answer").url.path == tab


def test_no_other_file_can_be_had(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    browser.post(f"{tab}ask", data=filled)
    for name in ("..%2f..%2fetc%2fpasswd", "page.css", "plan.json%00", "other/plan.json"):
        assert browser.get(f"{tab}last/{name}").status_code == 404
    assert browser.get("/static/..%2fapp.py").status_code == 404


@pytest.mark.parametrize("place", ["nowhere", "tab/none/nowhere", "answer"])
def test_an_address_that_leads_nowhere_leads_to_a_new_question(
    browser: TestClient, place: str
) -> None:
    page = browser.get(f"/{place}")
    assert page.status_code == 404
    assert '<a href="/">Begin a new question</a>' in page.text


def test_hostile_names_do_no_harm(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    hostile = {
        **filled,
        "title": HOSTILE,
        "colour-name": [HOSTILE, FORMULA, '"><img src=x onerror=alert(1)>'],
        "colour-hex": ["#112233", "#445566", "#778899"],
    }
    page = browser.post(f"{tab}ask", data=hostile)
    assert page.url.path == f"{tab}answer"
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page.text
    browser.post(f"{tab}keep")
    browser.post(f"{tab}ask", data={**hostile, "budget": "9.00"})
    for place in ("", "answer", "compare", "last/report.html"):
        text = browser.get(f"{tab}{place}").text
        assert HOSTILE not in text
        assert "<img" not in text
    recipes = browser.get(f"{tab}last/recipes.csv").text
    assert "'=1+1" in recipes  # a leading quote makes it text to a spreadsheet
    assert not [row for row in csv_rows(recipes) if row.startswith(("=", '"='))]


def test_a_name_without_end_is_refused_in_a_sentence(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    answer = browser.post(f"{tab}ask", data={**filled, "title": "a" * 10_000})
    assert answer.status_code == 422
    assert "has 10,000 characters; at most 200 are allowed" in answer.text


@pytest.mark.parametrize(
    "body", [b"\xff\xfe=1", b"&".join(b"a=1" for _ in range(3000)), b"%zz=%zz&title", b""]
)
def test_a_form_that_is_none(browser: TestClient, body: bytes) -> None:
    tab = new_tab(browser)
    answer = browser.post(
        f"{tab}ask", content=body, headers={"content-type": "application/x-www-form-urlencoded"}
    )
    assert answer.status_code == 422
    assert "Something is to be put right" in answer.text


def test_colours_from_a_photograph(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    files = {"photograph": ("petal.png", photograph(), "image/png")}
    page = browser.post(f"{tab}photograph", data=filled, files=files).text
    assert "1 main colour found" in page
    assert re.search(r'name="take" value="#c8286e" id="take-1"[^>]* checked', page)
    assert "pink (#c8286e), 100 % of the picture" in page
    assert re.search(r'value="cornflower" id="flower-\d+"[^>]* checked', page)  # nothing was lost
    page = browser.post(f"{tab}colours", data={**filled, "take": "#c8286e"}).text
    assert 'value="photo, pink"' in page
    assert 'value="#c8286e"' in page


def test_names_of_colours_from_photographs_are_free(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    given = {**filled, "colour-name": "photo, pink", "colour-hex": "#d02870"}
    page = browser.post(f"{tab}colours", data={**given, "take": ["#c8286e", "#c92a70"]}).text
    names = re.findall(r'name="colour-name"[^>]* value="([^"]+)"', page)
    assert names == ["photo, pink", "photo, pink 2", "photo, pink 3"]


def test_a_photograph_never_touches_the_disk(
    browser: TestClient, filled: Filled, monkeypatch: pytest.MonkeyPatch
) -> None:
    def rolled_over(_self: object) -> None:
        raise AssertionError("the photograph was written to the disk")

    monkeypatch.setattr(tempfile.SpooledTemporaryFile, "rollover", rolled_over)
    data = photograph(noise=True)
    assert len(data) > 4_000_000
    tab = new_tab(browser)
    files = {"photograph": ("petal.png", data, "image/png")}
    assert browser.post(f"{tab}photograph", data=filled, files=files).status_code == 200


def test_the_photograph_is_not_kept(browser: TestClient, app: Starlette, filled: Filled) -> None:
    tab = new_tab(browser)
    data = photograph()
    files = {"photograph": ("my-garden.png", data, "image/png")}
    browser.post(f"{tab}photograph", data=filled, files=files)
    held = app.state.run.tabs.find(tab.split("/")[2])
    assert "photograph" not in held.values
    assert "my-garden" not in repr(held)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "choose a file first"),
        (b"not a picture", "is not a whole JPEG, PNG or WebP picture"),
        (bytes(10 * 1024 * 1024 + 1), "more than 10 MB"),
    ],
    ids=["none", "no picture", "too large"],  # of the bytes, pytest would make 40 MB of a name
)
def test_a_photograph_that_is_none(
    browser: TestClient, filled: Filled, data: bytes, told: str
) -> None:
    tab = new_tab(browser)
    files = {"photograph": ("x.png", data, "image/png")}
    answer = browser.post(f"{tab}photograph", data=filled, files=files)
    assert answer.status_code == 422
    assert told in answer.text


def test_photographs_are_held_few_at_a_time(
    browser: TestClient, app: Starlette, filled: Filled
) -> None:
    tab, run = new_tab(browser), app.state.run
    files = {"photograph": ("petal.png", photograph(), "image/png")}
    for _ in range(MOST_PHOTOGRAPHS):
        assert run.photographs.acquire(blocking=False)
    refused = browser.post(f"{tab}photograph", data=filled, files=files)
    assert refused.status_code == 422
    assert "Others are being looked at; wait a moment, and try again." in refused.text
    run.photographs.release()
    for data in (photograph(), b"not a picture", photograph()):  # each gives its place back
        files = {"photograph": ("petal.png", data, "image/png")}
        answer = browser.post(f"{tab}photograph", data=filled, files=files)
        assert "Others are being looked at" not in answer.text
    assert answer.status_code == 200


def test_far_too_large_a_photograph(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    files = {"photograph": ("x.png", bytes(11 * 1024 * 1024), "image/png")}
    assert browser.post(f"{tab}photograph", data=filled, files=files).status_code == 413


def test_following_and_stopping(
    stuck_browser: TestClient, filled: Filled, endless: list[Any]
) -> None:
    tab = new_tab(stuck_browser)
    page = stuck_browser.post(f"{tab}ask", data=filled)
    assert page.url.path == f"{tab}work"
    assert "mixing 72 tubes for 8 colours" in page.text
    assert '<meta http-equiv="refresh"' in page.text  # without a script the page asks again
    told = stuck_browser.get(f"{tab}progress").json()
    assert told["state"] == "running"
    assert told["stages"][-1] == "mixing 72 tubes for 8 colours"
    page = stuck_browser.post(f"{tab}stop")
    assert page.url.path == tab
    assert "Stopped" in page.text
    assert endless[0].stops == 1
    assert stuck_browser.get(f"{tab}progress").json() == {"state": "none"}


def test_asking_again_stops_what_goes_on(
    stuck_browser: TestClient, filled: Filled, endless: list[Any]
) -> None:
    tab = new_tab(stuck_browser)
    stuck_browser.post(f"{tab}ask", data=filled)
    stuck_browser.post(f"{tab}ask", data=filled)
    assert [job.stops for job in endless] == [1, 0]


def test_work_is_limited(stuck_browser: TestClient, filled: Filled, endless: list[Any]) -> None:
    for _ in range(4):
        stuck_browser.post(f"{new_tab(stuck_browser)}ask", data=filled)
    page = stuck_browser.post(f"{new_tab(stuck_browser)}ask", data=filled)
    assert "Other tabs keep this machine busy" in page.text
    assert len(endless) == 4


def test_tabs_are_limited_and_their_work_stopped(
    stuck_browser: TestClient, filled: Filled, endless: list[Any]
) -> None:
    first = new_tab(stuck_browser)
    stuck_browser.post(f"{first}ask", data=filled)
    for _ in range(40):
        new_tab(stuck_browser)
    assert stuck_browser.get(first).status_code == 404
    assert endless[0].stops == 1


def test_closing_leaves_no_work_behind(
    app: Starlette, stuck_browser: TestClient, filled: Filled, endless: list[Any]
) -> None:
    stuck_browser.post(f"{new_tab(stuck_browser)}ask", data=filled)
    stuck_browser.__exit__(None, None, None)
    assert endless[0].stops == 1


def test_an_answer_that_comes_meanwhile_is_not_lost(
    comparing_browser: TestClient,
    stuck_browser: TestClient,
    filled: Filled,
    comparing: list[Any],
    endless: list[Any],
) -> None:
    comparing_browser.post(f"{new_tab(comparing_browser)}ask", data=filled)
    tab = new_tab(stuck_browser)
    stuck_browser.post(f"{tab}ask", data=filled)
    settle = Tab.settle

    def settled_just_before(self: Tab) -> None:
        settle(self)
        endless[0].answer, endless[0].state = comparing[0].answer, State.DONE

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Tab, "settle", settled_just_before)
        assert stuck_browser.get(f"{tab}work").url.path == f"{tab}answer"


def test_work_that_goes_on_can_be_found_again(stuck_browser: TestClient, filled: Filled) -> None:
    tab = new_tab(stuck_browser)
    stuck_browser.post(f"{tab}ask", data=filled)
    assert f'<a href="{tab}work">See how far it is</a>' in stuck_browser.get(tab).text
