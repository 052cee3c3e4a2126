"""All scenarios answered: the same files as one by one, faults told apart, and what is resumed."""

import csv
import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest
from tests.timed_files import without_seconds

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.remembered import reach_of
from fewtubes.errors import LimitError
from fewtubes.report.plan_files import plan_files
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.shop import Answered, Limits, shop
from fewtubes.shopping.shop import answered as usual_answer
from fewtubes.tables.spreadsheet import Spreadsheet
from fewtubes.term import answering, run
from fewtubes.term.answering import Settings
from fewtubes.term.asked import Asked, read_folder
from fewtubes.term.findings import Batch

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

Write = Callable[..., Path]

MOST_MIXED = 1
"""Colours: fewer than one of the two flowers has, as many as the other."""

pytestmark = pytest.mark.usefixtures("alone")


def answered(
    asked: Sequence[Asked],
    out: Path | None,
    cache: Cache,
    *,
    again: bool = False,
    settings: Settings | None = None,
) -> Batch:
    return run.answer_all(
        asked,
        settings=settings or Settings(),
        out=out,
        again=again,
        cache=cache,
        progress=lambda _stage: None,
    )


def all_files(out: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(out)): path.read_bytes()
        for path in sorted(out.rglob("*"))
        if path.is_file()
    }


def test_each_has_the_files_of_shop_to_the_byte(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    write("one")
    write("two", budget="4.00", flower="primrose")
    asked = read_folder(folder, SMALL)
    out = tmp_path / "out"
    found = answered(asked, out, shared_cache)
    assert not found.failed
    for one in asked:
        assert one.catalogue is not None
        assert one.scenario is not None
        plan = shop(one.catalogue, one.scenario, cache=shared_cache)
        alone = {name: text.encode() for name, text in plan_files(plan).items()}
        together = {path.name: path.read_bytes() for path in (out / one.name).iterdir()}
        assert {name: without_seconds(data) for name, data in together.items()} == {
            name: without_seconds(data) for name, data in alone.items()
        }
        row = next(row for row in found.rows if row.name == one.name)
        assert (row.coverage, row.cost) == (plan.coverage, plan.cost)
        assert row.bought == tuple(tube.tube.name for tube in plan.bought)
        assert row.out_of_reach == sum(not sample.covered for sample in plan.samples)


def test_faults_of_one_keep_nothing_back(
    folder: Path,
    write: Write,
    tmp_path: Path,
    shared_cache: Cache,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    write("clash", budget="1.00", more='must_have = ["lemon"]')
    write("one")
    write("short of memory")
    write("unknown", flower="no such flower")
    write(run.ANSWERS)  # its folder would stand in the place of the table

    usual = usual_answer

    def short(catalogue: Catalogue, scenario: Scenario, **more: Any) -> Answered:
        if scenario.title == "Week short of memory":
            raise MemoryError
        return usual(catalogue, scenario, **more)

    monkeypatch.setattr(answering, "answered", short)
    out = tmp_path / "out"
    found = answered(read_folder(folder, SMALL), out, shared_cache)
    assert [row.name for row in found.failed] == [
        "answers.csv",
        "clash",
        "short of memory",
        "unknown",
    ]
    told = {row.name: row.fault for row in found.failed}
    assert "give it another name" in told["answers.csv"]
    assert "must-have" in told["clash"]
    assert "too little memory" in told["short of memory"]
    assert "no such flower" in told["unknown"]
    assert {path.name for path in out.iterdir()} == {"one", ".done", "answers.csv", "answers.html"}
    with (out / "answers.csv").open(encoding="utf-8", newline="") as file:
        rows = {Path(row["file"]).stem: row for row in csv.DictReader(file)}
    assert [name for name, row in rows.items() if row["results"]] == ["one"]
    assert list(rows) == ["answers.csv", "clash", "one", "short of memory", "unknown"]
    assert rows["one"]["fault"] == ""
    assert rows["one"]["proven"] == "yes"
    assert rows["clash"]["fault"] == told["clash"]
    assert rows["clash"]["title"] == "Week clash"
    assert rows["clash"]["coverage"] == ""


def test_what_is_too_much_to_mix_together_is_mixed_alone(
    folder: Path, write: Write, shared_cache: Cache, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("one")
    write("two", flower="primrose")
    from fewtubes.shopping import mixed_together as together

    usual, tried = reach_of, []

    def little_room(K: Any, S: Any, labs: Any, **more: Any) -> Any:
        tried.append(len(labs))
        if len(labs) > MOST_MIXED:
            raise LimitError("Too little memory for so many colours.")
        return usual(K, S, labs, **more)

    monkeypatch.setattr(together, "reach_of", little_room)
    found = answered(read_folder(folder, SMALL), None, Cache())
    cornflower, primrose = tried[1:]
    assert tried[0] == cornflower + primrose  # all together, and then each for itself
    assert [row.failed for row in found.rows] == [
        cornflower > MOST_MIXED,
        primrose > MOST_MIXED,
    ]
    assert [row.failed for row in found.rows].count(True) == 1
    assert found.failed[0].fault == "Too little memory for so many colours."


def done(found: Batch) -> dict[str, bool]:
    return {row.name: row.done_before for row in found.rows}


def test_what_is_done_and_unchanged_is_not_done_again(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    write("one")
    write("two")
    out = tmp_path / "out"
    first = answered(read_folder(folder, SMALL), out, shared_cache)
    before = all_files(out)
    second = answered(read_folder(folder, SMALL), out, shared_cache)
    assert done(first) == {"one": False, "two": False}
    assert done(second) == {"one": True, "two": True}
    assert all_files(out) == before  # seconds and all: nothing was written anew
    frames = first.answers(), second.answers()
    assert frames[0].equals(frames[1])
    third = answered(read_folder(folder, SMALL), out, shared_cache, again=True)
    assert done(third) == {"one": False, "two": False}


@pytest.mark.parametrize("changed", ["scenario", "catalogue", "settings", "file", "gone", "record"])
def test_what_has_changed_is_done_again(
    changed: str, folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    tables = tmp_path / "tables"
    tables.mkdir()
    for path in SMALL.glob("*.csv"):
        (tables / path.name).write_bytes(path.read_bytes())
    write("one")
    write("two")
    out = tmp_path / "out"
    answered(read_folder(folder, tables), out, shared_cache)
    settings, both = Settings(), False
    if changed == "scenario":
        write("two", budget="5.00")
    elif changed == "catalogue":
        offers = (tables / "offers.csv").read_text(encoding="utf-8").replace("3.50", "3.60")
        (tables / "offers.csv").write_text(offers, encoding="utf-8")
        both = True
    elif changed == "settings":
        settings, both = Settings(Limits(), Spreadsheet.SEMICOLON), True
    elif changed == "file":
        (out / "two" / "recipes.csv").write_text("changed by hand", encoding="utf-8")
    elif changed == "gone":
        (out / "two" / "puddles.csv").unlink()
    else:
        (out / ".done" / "two.json").write_text('{"row": [', encoding="utf-8")
    found = answered(read_folder(folder, tables), out, shared_cache, settings=settings)
    assert done(found) == {"one": not both, "two": False}


def test_what_cannot_be_written_is_told_and_nothing_of_it_is_there(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    write("one")
    write("two")
    out = tmp_path / "out"
    out.mkdir()
    (out / "two").write_text("a file in the way", encoding="utf-8")
    found = answered(read_folder(folder, SMALL), out, shared_cache)
    (failed,) = found.failed
    assert failed.name == "two"
    assert "cannot be written" in failed.fault
    assert not (out / ".done" / "two.json").exists()
    assert (out / "two").read_text(encoding="utf-8") == "a file in the way"


def test_without_a_folder_nothing_is_written(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    write("one")
    before = all_files(tmp_path)
    found = answered(read_folder(folder, SMALL), None, shared_cache)
    assert [row.failed for row in found.rows] == [False]
    after = {name: data for name, data in all_files(tmp_path).items() if "mixed" not in name}
    assert after == before


def test_reports_are_those_of_shop(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    write("one")
    out = tmp_path / "out"
    answered(read_folder(folder, SMALL), out, shared_cache, settings=Settings(reports=True))
    page = (out / "one" / "report.html").read_text(encoding="utf-8")
    assert "Week one" in page
    assert "Coverage against cost" in page
    assert "report.html" in (out / "one" / "plan.json").read_text(encoding="utf-8")
    assert "one/report.html" in (out / "answers.html").read_text(encoding="utf-8")


def test_every_file_that_the_page_leads_to_of_a_class_is_there(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache
) -> None:
    path = write("one")
    text = path.read_text(encoding="utf-8").replace(
        "[[flower]]", '[class]\npainters = 3\ntubes = "pans"\n\n[[flower]]'
    )
    path.write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    answered(read_folder(folder, SMALL), out, shared_cache, settings=Settings(reports=True))
    page = (out / "answers.html").read_text(encoding="utf-8")
    links = re.findall(r'href="(one/[^"]+)"', page)
    assert "one/hand-out.html" in links
    assert {f"one/{path.name}" for path in (out / "one").iterdir()} == set(links)
