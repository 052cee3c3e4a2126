"""The answer in short: what is shown before anything is unfolded, and what is folded away."""

import re
from itertools import pairwise
from typing import Any

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.page.test_pages import new_tab

from fewtubes.page.folded import INSIDE
from fewtubes.page.short_answer import ShortAnswer
from fewtubes.report.illustrated.page import COSTS
from fewtubes.shopping.plan import Plan
from fewtubes.words.shares import percent

pytestmark = pytest.mark.usefixtures("_answers_alone")

Filled = dict[str, Any]


def asked(browser: TestClient, app: Starlette, form: Filled) -> tuple[Plan, ShortAnswer, str]:
    """Return plan, short answer and page of a question."""
    tab = new_tab(browser)
    text = browser.post(f"{tab}ask", data=form).text
    answer = app.state.run.tabs.find(tab.split("/")[2]).last.answer
    return answer.plan, answer.short, text


def in_sight(text: str) -> str:
    """Return a page without what is folded away."""
    return re.sub(r"<details.*?</details>", "", text, flags=re.S)


def test_every_flower_puddle_and_missed_colour_is_shown(
    browser: TestClient, app: Starlette, filled: Filled
) -> None:
    form = {**filled, "flower": ["cornflower", "rose, red"], "budget": "6"}
    plan, short, text = asked(browser, app, form)
    shown = in_sight(text)
    assert [row.name for row in short.covered] == [one.name for one in plan.flowers]
    assert [row.covered for row in short.covered] == [percent(it.coverage) for it in plan.flowers]
    puddles = [line for subject in short.subjects for line in subject.puddles]
    assert len(puddles) == len(plan.mixed.mixed) > 1
    missed = [one for one in plan.samples if not one.covered and not one.sample.is_step]
    assert len(short.missed) == len(missed) > 1
    for line in (*short.missed, *(f"<b>{puddle.mix}</b>" for puddle in puddles)):
        assert line in shown
    weights = [one.sample.weight for one in missed]
    names = [line.split(" (")[0] for line in short.missed]
    wanted = {f"{one.sample.flower} / {one.sample.name}": one.sample.weight for one in missed}
    assert [wanted[name] for name in names] == sorted(weights, reverse=True)


def test_every_colour_of_a_puddle_has_its_wash(
    browser: TestClient, app: Starlette, filled: Filled
) -> None:
    plan, short, _ = asked(browser, app, filled)
    lines = " ".join(p.colours for subject in short.subjects for p in subject.puddles)
    bare = " ".join(subject.bare for subject in short.subjects)
    for planned in plan.samples:
        if planned.covered and not planned.sample.is_step:
            name = planned.sample.name
            assert f"{name} " in (bare if planned.is_bare_paper else lines)
    assert "ΔE00" not in lines


def test_cautions_of_the_tubes_bought_stay_in_sight(
    browser: TestClient, app: Starlette, filled: Filled
) -> None:
    tubes = app.state.run.catalogue.tubes.values()
    hazardous = next(tube.id for tube in tubes if tube.hazards and tube.offers)
    form = {**filled, f"tube-{hazardous}": "must_have", "budget": "30"}
    plan, short, text = asked(browser, app, form)
    shown = in_sight(text)
    about = [caution for caution in plan.cautions if caution.tubes]
    assert about
    for caution in about:
        assert (caution.short or caution.text).replace("'", "&#39;") in shown
    assert "qualified advice decide" in short.care
    assert "brush in the mouth" in shown


def test_many_colours_out_of_reach_are_folded(
    browser: TestClient, app: Starlette, filled: Filled, monkeypatch: pytest.MonkeyPatch
) -> None:
    most = 2
    monkeypatch.setattr("fewtubes.page.short_answer.MOST_MISSED", most)
    form = {**filled, "flower": ["cornflower", "rose, red"], "budget": "1"}
    _, short, text = asked(browser, app, form)
    assert len(short.missed) == most
    assert short.further_missed
    assert short.missed[-1] in in_sight(text)
    assert short.further_missed[-1] not in in_sight(text)
    assert f"{len(short.further_missed)} more colours out of reach" in text


def test_what_is_folded_says_what_is_inside(browser: TestClient, filled: Filled) -> None:
    tab = new_tab(browser)
    text = browser.post(f"{tab}ask", data=filled).text
    assert text.index('id="puddles"') < text.index('id="tubes"')
    for id_ in ("tubes", "flowers", "reach", "trade-offs", COSTS, "sure", "colours"):
        words = INSIDE[id_].replace("{counted}", "1 flower, ")
        part = text[text.index(f'<h2 id="{id_}">') :]
        summary = re.search(r"<details>\s*<summary>(.*?)</summary>", part, re.S)
        assert summary is not None
        assert summary[1].startswith(words.split(":")[0].split(", ")[0])
    assert "<details open" not in text
    levels = [int(level) for level in re.findall(r"<h([1-6])[ >]", text)]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    ids = re.findall(r' id="([^"]+)"', text)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("puddling", ["sitting", "colour"])
def test_other_puddles_are_short_too(
    browser: TestClient, app: Starlette, filled: Filled, puddling: str
) -> None:
    form = {**filled, "flower": ["cornflower", "rose, red"], "puddling": puddling}
    plan, short, text = asked(browser, app, form)
    shown = sum(len(subject.puddles) for subject in short.subjects)
    assert shown == len(plan.mixed.mixed)
    assert ("all in one sitting" in text) == (puddling == "sitting")


def test_how_steady_mixes_are_stands_beside_them(
    browser: TestClient, app: Starlette, filled: Filled
) -> None:
    _, short, _ = asked(browser, app, {**filled, "trials": "tell"})
    assert "stays " in " ".join(p.colours for it in short.subjects for p in it.puddles)
