"""``fewtubes shop --report`` and ``--pictures``: all files or none, and clear words."""

import json
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from fewtubes.coverage.reach import find_reach

Run = Callable[..., Any]


def test_page_pictures_and_tables_are_written_together(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: object
) -> None:
    page, pictures, out = tmp_path / "p" / "page.html", tmp_path / "pictures", tmp_path / "out"
    told = run("shop", scenario, *small, "--report", page, "--pictures", pictures, "--out", out)
    assert told.code == 0, told.err
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert sorted(path.name for path in pictures.iterdir()) == [
        "coverage-and-cost.png",
        "coverage-and-cost.svg",
        "flower-01-cornflower.png",
        "flower-01-cornflower.svg",
        "hue-and-chroma.png",
        "hue-and-chroma.svg",
    ]
    assert len(list(out.iterdir())) == 3
    assert f"Written: '{page}', the illustrated report." in told.out
    assert f"Written to '{pictures}': 3 pictures, as SVG and as PNG." in told.out


def test_the_plan_names_the_digest_of_every_file_of_its_run(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: object
) -> None:
    """By its path from the folder of the plan; as sha256sum(1) takes it of the file written."""
    page, pictures, out = tmp_path / "page.html", tmp_path / "out" / "drawn", tmp_path / "out"
    told = run("shop", scenario, *small, "--report", page, "--pictures", pictures, "--out", out)
    assert told.code == 0, told.err
    named = json.loads((out / "plan.json").read_text(encoding="utf-8"))["fellow_files_sha256"]
    written = {path for path in tmp_path.rglob("*.*") if path not in (scenario, out / "plan.json")}
    assert {(out / name).resolve() for name in named} == {path.resolve() for path in written}
    assert {"../page.html", "recipes.csv", "drawn/hue-and-chroma.svg"} <= set(named)
    for name, digest in named.items():
        assert sha256((out / name).read_bytes()).hexdigest() == digest


def test_all_may_lie_in_one_folder(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: object
) -> None:
    out = tmp_path / "out"
    told = run("shop", scenario, *small, "--report", out / "a.htm", "--pictures", out, "--out", out)
    assert told.code == 0, told.err
    assert len(list(out.iterdir())) == 3 + 1 + 6


@pytest.mark.parametrize(("name", "said"), [("plan.pdf", "the ending .pdf"), ("plan", "no ending")])
def test_a_report_that_is_no_page_is_refused_before_anything_is_computed(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    fake_shop: Any,
    *,
    name: str,
    said: str,
) -> None:
    told = run("shop", scenario, *small, "--report", tmp_path / name)
    assert told.code == 2
    assert told.err.strip() == (
        f"--report: '{tmp_path / name}' has {said}; the report is a page, so its name must end in"
        " .html or .htm."
    )
    assert not fake_shop.questions


def test_where_the_page_cannot_be_written_nothing_is(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, fake_shop: object
) -> None:
    (tmp_path / "page.html").mkdir()
    told = run(
        "shop", scenario, *small, "--report", tmp_path / "page.html", "--out", tmp_path / "out"
    )
    assert told.code == 2
    assert "there is a folder of that name" in told.err
    assert "nothing was changed" in told.err
    assert "Traceback" not in told.err
    assert [path.name for path in tmp_path.iterdir() if path.is_dir()] == ["page.html"]
    assert not list((tmp_path / "page.html").iterdir())


def test_what_is_mixed_for_the_plan_is_not_mixed_again_for_the_report(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Nothing is remembered here, so that a second question would mix a second time."""
    mixed = []

    def counting(*paints: Any, **given: Any) -> Any:
        mixed.append(paints)
        return find_reach(*paints, **given)

    monkeypatch.setattr("fewtubes.coverage.remembered.find_reach", counting)
    told = run("shop", scenario, *small, "--no-cache", "--report", tmp_path / "page.html")
    assert told.code == 0, told.err
    assert len(mixed) == 1
