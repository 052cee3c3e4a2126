"""``fewtubes shop --chart``: written with the other files or not at all."""

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]


def test_the_chart_is_written_with_the_tables_and_named_in_the_plan(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    chart, out = tmp_path / "c" / "chart.html", tmp_path / "out"
    told = run("shop", scenario, *small, "--chart", chart, "--out", out)
    assert told.code == 0, told.err
    assert f"Written: '{chart}', the sheet to paint." in told.out
    page = chart.read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>")
    assert "Puddle 1:" in page
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert "../c/chart.html" in plan["fellow_files_sha256"]


def test_where_the_chart_cannot_be_written_nothing_is(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: object
) -> None:
    (tmp_path / "chart.html").mkdir()
    chart, out = tmp_path / "chart.html", tmp_path / "out"
    told = run("shop", scenario, *small, "--chart", chart, "--out", out)
    assert told.code == 2
    assert "nothing was changed" in told.err
    assert not out.exists()


@pytest.mark.parametrize(("name", "said"), [("c.pdf", "the ending .pdf"), ("c", "no ending")])
def test_a_chart_that_is_no_page_is_refused_before_anything_is_computed(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    fake_shop: Any,
    *,
    name: str,
    said: str,
) -> None:
    told = run("shop", scenario, *small, "--chart", tmp_path / name)
    assert told.code == 2
    assert told.err.strip() == (
        f"--chart: '{tmp_path / name}' has {said}; the chart is a page, so its name must end in"
        " .html or .htm."
    )
    assert not fake_shop.questions


def test_chart_and_report_are_two_files(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: Any
) -> None:
    page, same = tmp_path / "page.html", tmp_path / "." / "x" / ".." / "page.html"
    told = run("shop", scenario, *small, "--report", page, "--chart", same)
    assert told.code == 2
    assert told.err.strip() == (
        f"--chart: '{same}' is where the report is to go; give the chart a name of its own."
    )
    assert not fake_shop.questions
    assert not page.exists()
