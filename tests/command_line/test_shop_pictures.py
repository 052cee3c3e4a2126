"""``fewtubes shop --report`` and ``--pictures``: all files or none, and clear words."""

import json
import subprocess
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from fewtubes.colour.light import tristimulus_weights
from fewtubes.coverage.reach import find_reach
from fewtubes.coverage.remembered import reach_of
from fewtubes.picture.hue_plane import hue_plane
from fewtubes.picture.split_flower import split_flower
from fewtubes.shopping.question import pose

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
    assert len(list(out.iterdir())) == 4
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
    assert len(list(out.iterdir())) == 4 + 1 + 6


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


@pytest.fixture
def done(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """Return how often each long step has been done."""
    counts: Counter[str] = Counter()

    def counted(name: str, work: Any) -> Any:
        def do(*args: Any, **given: Any) -> Any:
            counts[name] += 1
            return work(*args, **given)

        return do

    for place, work in {
        "fewtubes.shopping.question.reach_of": reach_of,
        "fewtubes.coverage.remembered.find_reach": find_reach,
        "fewtubes.coverage.optics.tristimulus_weights": tristimulus_weights,
        "fewtubes.shopping.shop.pose": pose,
        "fewtubes.comparison.compare.pose": pose,
        "fewtubes.report.illustrated.basis.hue_plane": hue_plane,
        "fewtubes.report.illustrated.basis.split_flower": split_flower,
    }.items():
        monkeypatch.setattr(place, counted(work.__name__, work))
    return counts


def test_nothing_is_done_twice_for_the_report_and_the_pictures(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path, done: Counter[str]
) -> None:
    """Nothing is remembered here, so that a second question would mix a second time."""
    drawn = ("--report", tmp_path / "page.html", "--pictures", tmp_path / "pictures")
    told = run("shop", scenario, *small, "--no-cache", *drawn)
    assert told.code == 0, told.err
    mixed = ("pose", "reach_of", "find_reach", "tristimulus_weights")
    assert done == dict.fromkeys((*mixed, "hue_plane", "split_flower"), 1)


def test_templates_are_loaded_for_the_report_alone(
    scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    code = (
        "import sys; from fewtubes.command_line.main import app;"
        "app(sys.argv[1:], standalone_mode=False); print('jinja2' in sys.modules)"
    )
    for report, loaded in (((), "False"), (("--report", tmp_path / "page.html"), "True")):
        words = [str(word) for word in ("shop", scenario, *small, *report)]
        told = subprocess.run(  # noqa: S603  # this very interpreter
            [sys.executable, "-c", code, *words],
            capture_output=True,
            text=True,
            encoding="utf-8",
            check=True,
        )
        assert told.stdout.splitlines()[-1] == loaded
