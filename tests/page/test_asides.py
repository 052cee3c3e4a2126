"""Why these tubes, what is in the box, how to mix one colour: asked on the page, by the library."""

import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, cast

import pytest
from starlette.testclient import TestClient
from tests.page.conftest import ORIGIN, TOKEN, ComparingJob, InlineJob
from tests.page.test_pages import HOSTILE, new_tab

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.box import box as look_into_box
from fewtubes.comparison.mixes import mix
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.errors import FewtubesError
from fewtubes.page.app import make_app
from fewtubes.page.aside_job import AsideJob, start_aside
from fewtubes.page.aside_task import AsideTask, Found, MixAsked
from fewtubes.page.aside_work import aside_found
from fewtubes.page.assortment import Assortment
from fewtubes.page.form import scenario_of
from fewtubes.page.job import Job, State
from fewtubes.page.run_state import MOST_JOBS, MOST_PROCESSES
from fewtubes.page.settings import Settings
from fewtubes.page.worker import Task
from fewtubes.report.answer_files import box_files, mix_files, why_files
from fewtubes.report.terminal.box import addition_words
from fewtubes.report.terminal.why import reason_sentences
from fewtubes.tables.spreadsheet import Spreadsheet

pytestmark = pytest.mark.usefixtures("_answers_alone")

Filled = dict[str, Any]


class InlineAside:
    """Work that is done before it is begun."""

    def __init__(self, task: AsideTask) -> None:
        self.place = task.asked.place
        self.state = State.DONE
        self.stages = ["getting ready"]
        self.seconds = 0.0
        self.found: Found | None = None
        self.sentence = ""
        try:
            self.found = aside_found(task, progress=self.stages.append)
        except FewtubesError as error:
            self.state, self.sentence = State.FAILED, str(error)

    def stop(self) -> None:
        """Do nothing."""


class EndlessAside(InlineAside):
    """Work that goes on until it is stopped."""

    def __init__(self, task: AsideTask) -> None:
        self.place = task.asked.place
        self.state = State.RUNNING
        self.stages = ["mixing 3 tubes for one colour"]
        self.seconds = 1.0
        self.found = None

    def stop(self) -> None:
        """Stop."""
        self.state = State.STOPPED


def client(
    demo: Catalogue, settings: Settings, assortment: Assortment, kind: type[InlineAside]
) -> TestClient:
    app = make_app(
        settings,
        demo,
        assortment,
        begin=lambda task: cast(Job, InlineJob(task)),
        begin_aside=lambda task: cast(AsideJob, kind(task)),
    )
    return TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN})


@pytest.fixture
def painter(demo: Catalogue, settings: Settings, assortment: Assortment) -> Iterator[TestClient]:
    with client(demo, settings, assortment, InlineAside) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        yield browser


@pytest.fixture
def waiting(demo: Catalogue, settings: Settings, assortment: Assortment) -> Iterator[TestClient]:
    with client(demo, settings, assortment, EndlessAside) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        yield browser


def listed(filled: Filled) -> dict[str, list[str]]:
    return {key: value if isinstance(value, list) else [value] for key, value in filled.items()}


def escaped(text: str) -> str:
    return text.replace("&#39;", "'")


def test_why_these_tubes(
    painter: TestClient, demo: Catalogue, settings: Settings, filled: Filled
) -> None:
    tab = new_tab(painter)
    painter.post(f"{tab}ask", data=filled)
    page = painter.post(f"{tab}why")
    assert page.url.path == f"{tab}why"
    found = why(demo, scenario_of(listed(filled), demo), cache=Cache(settings.cache))
    for reason in found.tubes:
        assert " ".join(reason_sentences(reason, found)) in escaped(page.text)
    for name, text in why_files(found).items():
        assert painter.get(f"{tab}found/why/{name}").content == text.encode()
    assert painter.get(f"{tab}found/why/box-tubes.csv").status_code == 404


def test_why_there_is_nothing_to_ask_without_an_answer(painter: TestClient) -> None:
    tab = new_tab(painter)
    assert painter.post(f"{tab}why").status_code == 404
    assert painter.get(f"{tab}why").url.path == tab


def test_reasons_for_other_tubes_than_the_answer_has_are_called_so(
    painter: TestClient, filled: Filled
) -> None:
    tab = new_tab(painter)
    told = "These are the reasons for an earlier answer"
    painter.post(f"{tab}ask", data=filled)
    assert told not in painter.post(f"{tab}why").text
    painter.post(f"{tab}ask", data={**filled, "budget": "4"})
    assert told in painter.get(f"{tab}why").text
    assert told not in painter.post(f"{tab}why").text


def test_a_steady_answer_is_explained_and_not_the_first_in_rank(
    painter: TestClient, demo: Catalogue, settings: Settings, filled: Filled
) -> None:
    """What mixes a cornflower more steadily, within a hundredth of coverage, has other tubes."""
    tab = new_tab(painter)
    first = why(demo, scenario_of(listed(filled), demo), cache=Cache(settings.cache))
    painter.post(f"{tab}ask", data={**filled, "trials": "steadiest-near"})
    page = painter.post(f"{tab}why").text
    assert "These are the reasons for an earlier answer" not in page
    plan = painter.get(f"{tab}last/plan.json").json()
    bought = [tube["name"] for tube in plan["tubes"] if not tube["owned"]]
    assert set(bought) != {planned.tube.name for planned in first.plan.bought}
    headings = re.findall(r"<h3>(.*) \(EUR ", page)
    assert headings == bought


def test_reasons_are_refused_once_prices_are_others(
    demo: Catalogue, settings: Settings, assortment: Assortment, tmp_path: Path, filled: Filled
) -> None:
    """They would stand beside an answer that was paid otherwise."""
    folder = tmp_path / "catalogue"
    shutil.copytree(demo_catalogue_folder(), folder)
    changed = replace(settings, catalogue=folder)
    with client(demo, changed, assortment, InlineAside) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        tab = new_tab(browser)
        browser.post(f"{tab}ask", data=filled)
        offers = folder / "offers.csv"
        dearer = re.sub(r"(?m)(\d)\.\d\d,EUR$", r"\1.99,EUR", offers.read_text(encoding="utf-8"))
        offers.write_text(dearer, encoding="utf-8")
        page = browser.post(f"{tab}why")
    assert page.url.path == f"{tab}answer"
    assert "prices than this answer was found with; ask again." in page.text


def test_the_box_is_looked_into(
    painter: TestClient, demo: Catalogue, settings: Settings, filled: Filled
) -> None:
    tab = new_tab(painter)
    marks = {"tube-lemon": "owned", "tube-ultramarine": "owned", "tube-magenta": "must_have"}
    form = {**filled, **marks}
    page = painter.post(f"{tab}box", data=form)
    assert page.url.path == f"{tab}box"
    scenario = scenario_of(listed(form), demo)
    cache = Cache(settings.cache)
    found = look_into_box(demo, scenario, about_to_buy=["magenta"], cache=cache)
    assert addition_words(found) in escaped(page.text)
    assert "These are the tubes that must be bought." in page.text
    for name, text in box_files(found).items():
        assert painter.get(f"{tab}found/box/{name}").content == text.encode()


def test_a_box_without_flowers_is_shown_as_it_is(painter: TestClient, filled: Filled) -> None:
    tab = new_tab(painter)
    form = {**filled, "flower": [], "tube-ultramarine": "owned", "tube-lemon": "owned"}
    page = painter.post(f"{tab}box", data=form)
    assert page.url.path == f"{tab}box"
    assert "2 tubes: " in page.text
    assert "Tick flowers in the question" in page.text
    assert painter.get(f"{tab}found/box/box-tubes.csv").status_code == 404


@pytest.mark.parametrize("flowers", [["cornflower"], []])
def test_an_empty_box_says_what_to_do(
    painter: TestClient, filled: Filled, flowers: list[str]
) -> None:
    page = painter.post(f"{new_tab(painter)}box", data={**filled, "flower": flowers}).text
    assert "No tube is marked as at home." in page
    assert "Mark those you have under" in page
    assert "Doubles" not in page
    assert ("The next tube" in page) == bool(flowers)


def test_reasons_for_a_class_count_its_tubes(painter: TestClient, filled: Filled) -> None:
    tab = new_tab(painter)
    asked = {**filled, "budget": "60", "class_painters": "3", "class_pupils": "grown-ups"}
    painter.post(f"{tab}ask", data=asked)
    head = r'class="answer">(\d+) paints? for 3 grown-ups, (\d+) tubes in all, for EUR '
    found = re.search(head, painter.post(f"{tab}why").text)
    assert found is not None
    assert int(found[2]) == 3 * int(found[1])


def test_faults_of_the_question_are_told_there(painter: TestClient, filled: Filled) -> None:
    answer = painter.post(f"{new_tab(painter)}box", data={**filled, "budget": "much"})
    assert answer.status_code == 422
    assert '<a href="#budget">Budget</a>' in answer.text


@pytest.mark.parametrize(
    "form",
    [
        {"mix-by": "named", "mix-colour": "foxglove / bell"},
        {"mix-by": "picked", "mix-picked": "#8a5fb0", "mix-colour": "no such"},
    ],
)
def test_one_colour_is_mixed_from_the_answer(
    painter: TestClient,
    demo: Catalogue,
    settings: Settings,
    filled: Filled,
    form: Filled,
) -> None:
    colour = str(form.get("mix-picked") or form["mix-colour"])
    tab = new_tab(painter)
    painter.post(f"{tab}ask", data={**filled, "flower": ["cornflower", "rose, red"]})
    page = painter.post(f"{tab}mix", data={**form, "mix-from": "palette"})
    assert page.url.path == f"{tab}mix"
    assert f">{colour}</h2>" in page.text
    text = painter.get(f"{tab}last/shopping-list.csv").text
    names = {line.split(",")[0].strip('"') for line in text.split("\r\n")[1:] if line}
    assert names
    bought = painter.get(f"{tab}last/plan.json").json()["tubes"]
    tubes = [tube["id"] for tube in bought]
    found = mix(demo, colour, tubes=tubes, cache=Cache(settings.cache))
    assert page.text.count('class="beside-mix"') == len(found.rated)
    (name, table), *_ = mix_files(found).items()
    assert painter.get(f"{tab}found/mix/{name}").content == table.encode()


def test_one_colour_is_mixed_from_what_is_at_home(painter: TestClient, filled: Filled) -> None:
    tab = new_tab(painter)
    assert "the tubes marked as at home" not in painter.get(f"{tab}mix").text
    painter.post(f"{tab}box", data={**filled, "flower": [], "tube-ultramarine": "owned"})
    assert "the tubes marked as at home" in painter.get(f"{tab}mix").text
    asked = {"mix-by": "named", "mix-colour": "#3355aa", "mix-from": "home"}
    page = painter.post(f"{tab}mix", data=asked)
    assert "mixed from 1 tube." in re.sub(r"\s+", " ", page.text)


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ({}, "none is given"),
        ({"mix-colour": "pansi / petal"}, "pansy"),
        ({"mix-colour": "#12"}, "must be written as #rrggbb"),
        ({"mix-colour": HOSTILE}, "is not in the catalogue"),
        ({"mix-colour": "#112233", "mix-from": "home"}, "there are none of that kind"),
        ({"mix-colour": "#112233", "mix-from": "elsewhere"}, "there are none of that kind"),
    ],
)
def test_faults_of_a_colour(painter: TestClient, form: Filled, told: str) -> None:
    page = painter.post(f"{new_tab(painter)}mix", data=form)
    assert told in page.text
    assert HOSTILE not in page.text
    assert "Something is to be put right" in page.text


def test_a_colour_may_be_asked_for_in_the_address(painter: TestClient) -> None:
    text = painter.get(f"{new_tab(painter)}mix", params={"colour": '"><b>'}).text
    assert 'value="&#34;&gt;&lt;b&gt;"' in text


def test_tables_come_for_either_spreadsheet(
    painter: TestClient, demo: Catalogue, settings: Settings, filled: Filled
) -> None:
    tab = new_tab(painter)
    painter.post(f"{tab}ask", data=filled)
    painter.post(f"{tab}why")
    chosen = painter.post(f"{tab}spreadsheet/why", data={"spreadsheet": "semicolon"})
    assert chosen.url.path == f"{tab}why"
    assert "with commas and decimal points" in chosen.text
    found = why(demo, scenario_of(listed(filled), demo), cache=Cache(settings.cache))
    for name, text in why_files(found, Spreadsheet.SEMICOLON).items():
        assert painter.get(f"{tab}found/why/{name}").content == text.encode()
    assert ";" in painter.get(f"{tab}last/shopping-list.csv").text.split("\r\n")[0]
    painter.post(f"{tab}spreadsheet/answer", data={"spreadsheet": "comma"})
    assert ";" not in painter.get(f"{tab}last/shopping-list.csv").text.split("\r\n")[0]


@pytest.mark.parametrize(("place", "word"), [("why", "tab"), ("elsewhere", "comma")])
def test_no_other_spreadsheet(painter: TestClient, place: str, word: str) -> None:
    tab = new_tab(painter)
    asked = painter.post(f"{tab}spreadsheet/{place}", data={"spreadsheet": word})
    assert asked.status_code == 404


def test_what_cannot_be_answered_is_told_where_it_was_asked(
    painter: TestClient, filled: Filled
) -> None:
    tab = new_tab(painter)
    page = painter.post(f"{tab}box", data={**filled, "least_coverage": "100", "budget": "1"})
    assert page.url.path == tab
    assert 'class="notice" role="status"' in page.text
    assert "coverage" in page.text


def test_work_is_followed_stopped_and_limited(waiting: TestClient) -> None:
    asked = {"mix-colour": "#112233"}
    tab = new_tab(waiting)
    page = waiting.post(f"{tab}mix", data=asked)
    assert page.url.path == f"{tab}aside/work"
    assert "mixing 3 tubes for one colour" in page.text
    told = waiting.get(f"{tab}aside/progress").json()
    assert (told["state"], told["seconds"]) == ("running", 1)
    stopped = waiting.post(f"{tab}aside/stop")
    assert stopped.url.path == f"{tab}mix"
    assert "Stopped; nothing was changed." in stopped.text
    for _ in range(MOST_JOBS):
        waiting.post(f"{new_tab(waiting)}mix", data=asked)
    assert "keep this machine busy" in waiting.post(f"{tab}mix", data=asked).text


def test_comparisons_give_way_to_it(
    demo: Catalogue, settings: Settings, assortment: Assortment, filled: Filled
) -> None:
    jobs: list[ComparingJob] = []

    def begin(task: Task) -> Job:
        jobs.append(ComparingJob(task))
        return cast(Job, jobs[-1])

    app = make_app(
        settings,
        demo,
        assortment,
        begin=begin,
        begin_aside=lambda task: cast(AsideJob, EndlessAside(task)),
    )
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}) as browser:
        browser.get(f"/open/{TOKEN}", follow_redirects=False)
        for _ in range(MOST_PROCESSES):
            browser.post(f"{new_tab(browser)}ask", data=filled)
        assert not any(job.stops for job in jobs)
        browser.post(f"{new_tab(browser)}mix", data={"mix-colour": "#112233"})
        assert [job.stops for job in jobs] == [1, *[0] * (MOST_PROCESSES - 1)]


@pytest.mark.parametrize("place", ["why", "box", "mix", "aside/stop", "spreadsheet/why"])
def test_no_such_tab(painter: TestClient, place: str) -> None:
    assert painter.post(f"/tab/none/{place}", data={"x": "y"}).status_code == 404


def test_the_process_answers_and_can_be_stopped(settings: Settings) -> None:
    asked = MixAsked("#8a5fb0", ("magenta", "ultramarine"), 4.0, "cotton-white", "D65")
    job = start_aside(AsideTask(asked, settings.catalogue, settings.cache, 60.0))
    job._process.join(60)
    for _ in range(600):
        if job.state is not State.RUNNING:
            break
        job._process.join(0.1)
    assert job.state is State.DONE, job.sentence
    assert "reading the catalogue" in job.stages
    other = start_aside(AsideTask(replace(asked, tubes=()), settings.catalogue, None, 60.0))
    other.stop()
    assert other.state is State.STOPPED
    assert not other._process.is_alive()


def test_a_process_without_its_catalogue_ends_in_a_sentence(tmp_path: Path) -> None:
    asked = MixAsked("#8a5fb0", (), 4.0, "cotton-white", "D65")
    job = start_aside(AsideTask(asked, tmp_path / "gone", None, 60.0))
    job._process.join(60)
    for _ in range(600):
        if job.state is not State.RUNNING:
            break
        job._process.join(0.1)
    assert job.state is State.FAILED
    assert "gone" in job.sentence
