"""What the page remembers from run to run, in files of the painter's own, and what never."""

import json
import re
import threading
from pathlib import Path
from typing import Any, cast

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.page.painter import Opens, Painter
from tests.page.test_pages import photograph

from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError, OutputError
from fewtubes.page.at_home import HomeFile
from fewtubes.page.data_folder import usual_folder
from fewtubes.page.memory import MOST_BYTES, MOST_QUESTIONS, Memory, Question
from fewtubes.scenario.box_file import read_box

pytestmark = pytest.mark.usefixtures("_answers_alone")

Filled = dict[str, Any]

HALF = "owned 0.5"


def question(title: str, **more: tuple[str, ...]) -> Question:
    return Question("", {"title": (title,), **more})


def tab_of(painter: Painter) -> str:
    """Return the address of a new tab."""
    return str(painter.browser.get("/").url.path)


def ask(painter: Painter, form: Filled) -> str:
    tab = tab_of(painter)
    known = re.search(r'name="box-known" value="([^"]*)"', painter.browser.get(tab).text)
    painter.browser.post(f"{tab}ask", data={**form, "box-known": known[1] if known else ""})
    return tab


def keys(text: str) -> list[str]:
    return re.findall(r'name="question" value="([0-9a-f]{16})"', text)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return tmp_path / "painter's own"


def test_a_question_and_the_tubes_at_home_are_there_in_the_next_run(
    opens: Opens, data: Path, filled: Filled, demo: Catalogue
) -> None:
    asked = {**filled, "tube-magenta": HALF, "tube-lemon": "never", "budget": "9,50"}
    ask(opens(data=data), asked)
    assert read_box(data / "box.toml", demo).left("magenta") == 0.5
    later = opens(data=data)
    tab = tab_of(later)
    text = later.browser.get(tab).text
    assert f"in the folder {data}" in text.replace("&#39;", "'")
    assert f'<option value="{HALF}" selected>' in text
    assert '<option value="never" selected>' not in text
    (key,) = keys(text)
    opened = later.browser.post(f"{tab}earlier", data={"question": key}).text
    assert 'id="budget" value="9,50"' in opened
    assert re.search(r'value="cornflower" id="flower-\d+"[^>]* checked', opened)
    assert '<option value="never" selected>' in opened


def test_an_earlier_question_is_asked_of_the_tubes_at_home_now(
    opens: Opens, data: Path, filled: Filled
) -> None:
    painter = opens(data=data)
    ask(painter, {**filled, "tube-magenta": HALF})
    ask(painter, {**filled, "title": "Another", "tube-lemon": "owned 1.0"})
    tab = tab_of(painter)
    _, first = keys(painter.browser.get(tab).text)
    text = painter.browser.post(f"{tab}earlier", data={"question": first}).text
    marks = re.findall(r'<option value="(owned[^"]*)" selected>', text)
    assert marks == ["owned 1.0"]  # the form sent with the second question took magenta out


def test_the_same_question_stands_there_once_and_the_latest_first(data: Path) -> None:
    memory = Memory(data)
    for title in ("one", "two", "one"):
        memory.add(question(title))
    assert [one.values["title"] for one in memory.read().questions] == [("one",), ("two",)]


def test_only_so_many_are_remembered(data: Path) -> None:
    memory = Memory(data)
    for number in range(MOST_QUESTIONS + 3):
        memory.add(question(f"number {number}"))
    held = memory.read().questions
    assert len(held) == MOST_QUESTIONS
    assert held[0].values["title"] == (f"number {MOST_QUESTIONS + 2}",)


def test_a_question_too_long_for_the_file_takes_no_other_out(data: Path) -> None:
    memory = Memory(data)
    memory.add(question("one"))
    memory.add(question("two", budget=("9" * MOST_BYTES,)))
    assert [one.values["title"] for one in memory.read().questions] == [("one",)]


def test_a_box_that_is_a_link_to_itself_is_told(opens: Opens, data: Path) -> None:
    data.mkdir()
    (data / "box.toml").symlink_to("box.toml")
    assert "no box is remembered until" in opens(data=data).browser.get("/").text


def test_two_windows_lose_nothing(data: Path) -> None:
    threads = [
        threading.Thread(target=Memory(data).add, args=(question(f"window {number}"),))
        for number in range(4)  # each with a lock of its own, as in two runs
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    titles = {one.values["title"][0] for one in Memory(data).read().questions}
    assert titles == {f"window {number}" for number in range(4)}


def test_questions_of_another_catalogue_are_not_offered(
    opens: Opens, data: Path, filled: Filled, folder: Path
) -> None:
    ask(opens(data=data), filled)
    other = opens(data=data, catalogue=folder)
    assert not keys(other.browser.get("/").text)
    assert len(Memory(data).read().questions) == 1


@pytest.mark.parametrize(
    "content",
    [
        b"{",
        b"[]",
        b'{"fewtubes_questions": 99}',
        b'{"fewtubes_questions": 1, "remember": 1, "questions": []}',
        b'{"fewtubes_questions": 1, "remember": true, "questions": [7]}',
        b'{"fewtubes_questions": 1, "remember": true,'
        b' "questions": [{"catalogue": "", "values": {"title": [1]}}]}',
        b'{"fewtubes_questions": 1, "remember": true,'
        b' "questions": [{"catalogue": "", "values": {"title": ["half a sign: \\ud800"]}}]}',
        b"[" * 100_000,
        b"\xff",
    ],
)
def test_a_damaged_file_is_told_and_left_as_it_is(
    opens: Opens, data: Path, filled: Filled, content: bytes
) -> None:
    data.mkdir()
    path = data / "questions.json"
    path.write_bytes(content)
    painter = opens(data=data)
    tab = tab_of(painter)
    assert "is damaged, or was written by another program" in painter.browser.get(tab).text
    with pytest.raises(InputError):
        Memory(data).add(question("any"))
    assert path.read_bytes() == content
    painter.browser.post(f"{tab}forget")
    assert not path.exists()
    Memory(data).add(question("any"))


def test_what_is_no_file_is_told(data: Path) -> None:
    (data / "questions.json").mkdir(parents=True)
    with pytest.raises(InputError, match="cannot be read"):
        Memory(data).read()
    with pytest.raises(OutputError, match="stays"):
        Memory(data).forget()


def test_asking_goes_on_where_nothing_can_be_remembered(
    opens: Opens, data: Path, filled: Filled
) -> None:
    data.write_text("no folder", encoding="utf-8")
    painter = opens(data=data)
    tab = tab_of(painter)
    answer = painter.browser.post(f"{tab}ask", data=filled)
    assert answer.url.path == f"{tab}answer"
    assert "is not remembered" in answer.text
    assert data.read_text(encoding="utf-8") == "no folder"


def test_a_damaged_box_is_told_and_left_until_it_is_forgotten(
    opens: Opens, data: Path, filled: Filled
) -> None:
    data.mkdir()
    box = data / "box.toml"
    box.write_text("[tubes]\nno-such-tube = 7\n", encoding="utf-8")
    painter = opens(data=data)
    tab = ask(painter, {**filled, "tube-magenta": "owned"})
    assert "no box is remembered until" in painter.browser.get(tab).text
    assert "no-such-tube" in box.read_text(encoding="utf-8")
    text = painter.browser.post(f"{tab}forget").text
    assert "Forgotten" in text
    assert not box.exists()
    ask(painter, {**filled, "tube-magenta": HALF})
    assert "magenta" in box.read_text(encoding="utf-8")


def test_of_answers_still_open_it_is_told_that_they_stay(
    opens: Opens, data: Path, filled: Filled
) -> None:
    painter = opens(data=data)
    told = painter.browser.post(f"{tab_of(painter)}forget").text
    assert "Forgotten" in told
    assert "until fewtubes is ended" not in told
    tab = ask(painter, filled)
    told = painter.browser.post(f"{tab}forget").text
    assert "Your last answer:" in told
    assert "The answer open in a tab stays there, at most until fewtubes is ended." in told
    ask(painter, filled)
    told = painter.browser.post(f"{tab}forget").text
    assert "The answers open in tabs stay there, at most until fewtubes is ended." in told


def test_switched_off_nothing_further_is_remembered(
    opens: Opens, data: Path, filled: Filled
) -> None:
    painter = opens(data=data)
    tab = tab_of(painter)
    assert "Nothing further" in painter.browser.post(f"{tab}remember", data={"remember": "no"}).text
    ask(painter, {**filled, "tube-magenta": HALF})
    assert [path.name for path in data.iterdir()] == ["questions.json"]
    assert Memory(data).read().questions == ()
    painter.browser.post(f"{tab}forget")
    assert not Memory(data).read().on  # to forget is not to begin anew
    painter.browser.post(f"{tab}remember", data={"remember": "yes"})
    ask(painter, filled)
    assert len(Memory(data).read().questions) == 1


def test_all_is_forgotten_but_a_box_that_was_named(
    opens: Opens, data: Path, filled: Filled, box: Path
) -> None:
    painter = opens(data=data, box=box)
    tab = ask(painter, filled)
    before = box.read_bytes()
    painter.browser.post(f"{tab}forget")
    assert not Memory(data).read().questions
    assert box.read_bytes() == before
    assert not (data / "box.toml").exists()


def test_a_box_that_is_a_link_is_forgotten_and_what_it_leads_to_stays(
    opens: Opens, data: Path, tmp_path: Path, filled: Filled, demo: Catalogue
) -> None:
    data.mkdir()
    mine = tmp_path / "mine.toml"
    mine.write_text("[tubes] # mine\nmagenta = 0.5\n", encoding="utf-8")
    (data / "box.toml").symlink_to(mine)
    painter = opens(data=data)
    told = painter.browser.post(f"{tab_of(painter)}forget").text.replace("&#39;", "'")
    assert f"What a link led to stays as it is: {mine}." in told
    assert mine.read_text(encoding="utf-8") == "[tubes] # mine\nmagenta = 0.5\n"
    assert not (data / "box.toml").is_symlink()
    page = painter.browser.get(tab_of(painter)).text
    assert f'<option value="{HALF}" selected>' not in page
    ask(painter, {**filled, "tube-lemon": HALF})
    assert read_box(data / "box.toml", demo).left("lemon") == 0.5
    assert "lemon" not in mine.read_text(encoding="utf-8")


def test_questions_behind_a_link_are_kept_there_and_forgotten_there(
    opens: Opens, data: Path, tmp_path: Path, filled: Filled
) -> None:
    """As where a painter keeps the file in a folder that goes from machine to machine."""
    elsewhere = tmp_path / "shared" / "painting.json"
    Memory(elsewhere.parent).add(question("before"))
    (elsewhere.parent / "questions.json").rename(elsewhere)
    data.mkdir()
    (data / "questions.json").symlink_to(elsewhere)
    painter = opens(data=data)
    tab = ask(painter, {**filled, "title": "Behind a link"})
    assert (data / "questions.json").is_symlink()
    assert "Behind a link" in elsewhere.read_text(encoding="utf-8")
    assert [one.values["title"][0] for one in Memory(data).read().questions] == [
        "Behind a link",
        "before",
    ]
    told = painter.browser.post(f"{tab}forget").text
    assert "Forgotten: all questions" in told
    assert "stays as it is" not in told
    assert not elsewhere.exists()
    assert not (data / "questions.json").is_symlink()


def test_a_file_that_is_none_of_ours_stays_behind_its_link(
    opens: Opens, data: Path, tmp_path: Path
) -> None:
    notes = tmp_path / "notes.json"
    notes.write_text('{"of": "somebody"}', encoding="utf-8")
    data.mkdir()
    (data / "questions.json").symlink_to(notes)
    painter = opens(data=data)
    told = painter.browser.post(f"{tab_of(painter)}forget").text.replace("&#39;", "'")
    assert f"What a link led to stays as it is: {notes}." in told
    assert notes.read_text(encoding="utf-8") == '{"of": "somebody"}'
    assert not (data / "questions.json").is_symlink()
    assert not Memory(data).read().questions


@pytest.mark.parametrize("leads_to", ["questions.json", "nowhere.json"])
def test_a_link_that_leads_nowhere_is_forgotten(data: Path, leads_to: str) -> None:
    data.mkdir()
    (data / "questions.json").symlink_to(leads_to)
    memory = Memory(data)
    with pytest.raises(InputError, match="cannot be read"):
        memory.read()
    assert memory.forget() is None
    assert not list(data.iterdir())


def test_a_link_stays_while_what_it_leads_to_cannot_be_removed(
    data: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Memory(tmp_path / "shared").add(question("one"))
    data.mkdir()
    (data / "questions.json").symlink_to(tmp_path / "shared" / "questions.json")

    def refused(*_given: object, **_named: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "unlink", refused)
    with pytest.raises(OutputError, match=r"shared.questions\.json stays: Permission denied"):
        Memory(data).forget()
    assert (data / "questions.json").is_symlink()


def test_a_named_box_changes_only_when_it_is_saved(
    opens: Opens, data: Path, filled: Filled, box: Path
) -> None:
    before = box.read_bytes()
    ask(opens(data=data, box=box), {**filled, "tube-magenta": HALF})
    assert box.read_bytes() == before


def test_no_photograph_is_remembered(opens: Opens, data: Path, filled: Filled) -> None:
    painter = opens(data=data)
    tab = tab_of(painter)
    picture = photograph()
    form = {**filled, "photograph-colours": "4", "photograph-middle": "yes"}
    painter.browser.post(f"{tab}photograph", data=form, files={"photograph": ("a.png", picture)})
    painter.browser.post(f"{tab}ask", data={**form, "take": ["#c8286e"]})
    (path,) = [path for path in data.iterdir() if path.name == "questions.json"]
    (held,) = json.loads(path.read_text(encoding="utf-8"))["questions"]
    assert not [key for key in held["values"] if key.startswith(("photograph", "take"))]
    assert picture[:20] not in path.read_bytes()


def test_a_question_that_is_gone(opens: Opens, data: Path) -> None:
    painter = opens(data=data)
    tab = tab_of(painter)
    text = painter.browser.post(f"{tab}earlier", data={"question": "0" * 16}).text
    assert "is not remembered any more" in text


@pytest.mark.parametrize("place", ["earlier", "forget", "remember"])
def test_without_a_folder_there_is_nothing_to_ask(opens: Opens, place: str) -> None:
    painter = opens()
    tab = tab_of(painter)
    assert "Nothing is remembered from run to run" in painter.browser.get(tab).text
    assert painter.browser.post(f"{tab}{place}").status_code == 404


def test_hostile_content_of_the_file_is_escaped(opens: Opens, data: Path) -> None:
    Memory(data).add(question("<script>alert(1)</script>", budget=("<b>",), currency=("EUR",)))
    assert "<script>alert" not in opens(data=data).browser.get("/").text


def test_where_it_is_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("FEWTUBES_DATA", str(tmp_path))
    assert usual_folder() == tmp_path
    monkeypatch.delenv("FEWTUBES_DATA")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "share"))
    monkeypatch.setattr("sys.platform", "linux")
    usual = usual_folder()
    assert usual is None or usual.name == "fewtubes"


@pytest.mark.parametrize(("beneath", "said"), [("", "which"), ("/deep/er", "but '{}'")])
def test_a_file_in_its_place_is_told_at_once(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, beneath: str, said: str
) -> None:
    """Before anything is read or served; a folder that is not there yet is made when needed."""
    file = tmp_path / "notes.txt"
    file.write_text("mine", encoding="utf-8")
    monkeypatch.setenv("FEWTUBES_DATA", f"{file}{beneath}")
    with pytest.raises(InputError) as told:
        usual_folder()
    assert str(told.value) == (
        f"FEWTUBES_DATA: is '{file}{beneath}', {said.format(file)} is no folder; name a folder,"
        " there or to be made, or leave it unset."
    )
    monkeypatch.setenv("FEWTUBES_DATA", str(tmp_path / "not" / "yet"))
    assert usual_folder() == tmp_path / "not" / "yet"


def test_two_windows_put_tubes_into_one_box(data: Path, demo: Catalogue) -> None:
    ids = ["lemon", "magenta", "ultramarine"]
    homes = [HomeFile(data / "box.toml", demo, remembered=True) for _ in ids]
    threads = [
        threading.Thread(target=home.put, args=([id_], 0.5))
        for home, id_ in zip(homes, ids, strict=True)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert set(read_box(data / "box.toml", demo).at_hand) == set(ids)


def test_what_is_not_remembered_is_still_told_with_the_answer(
    stuck_browser: TestClient, filled: Filled
) -> None:
    tab = str(stuck_browser.get("/").url.path)
    held = cast(Starlette, stuck_browser.app).state.run.tabs.find(tab.split("/")[2])
    stuck_browser.post(f"{tab}ask", data=filled)
    held.notice = "This question is not remembered."
    assert held.notice in stuck_browser.get(f"{tab}work").text  # left again at once
    assert held.notice == "This question is not remembered."
    stuck_browser.post(f"{tab}stop")
