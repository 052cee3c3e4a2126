"""What the README shows to be copied works as it stands: scenario, Python, rows of a catalogue."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.fitting.fit import fit
from fewtubes.fitting.swatch_file import read_swatches
from fewtubes.mixing.matching import TUBE_BURDEN
from fewtubes.scenario.reading import read_scenario

ROOT = Path(__file__).parents[2]

ROW = re.compile(r"^([a-z_]+\.csv) +(.+)$", re.MULTILINE)
"""A table and a row to be added to it."""


@pytest.fixture(scope="module")
def readme() -> str:
    return (ROOT / "README.md").read_text(encoding="utf-8")


def block(readme: str, language: str) -> str:
    """Return the one block of a language."""
    (found,) = re.findall(rf"^```{language}\n(.*?)^```$", readme, re.M | re.S)
    return str(found)


def test_the_scenario_can_be_read(readme: str, tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    path.write_text(block(readme, "toml"), encoding="utf-8")
    scenario = read_scenario(path, read_catalogue())
    # As the comments in it say.
    assert [wish.importance for wish in scenario.flowers] == [2, 1, 1]
    assert [swatch.name for swatch in scenario.own_flowers[0].swatches] == ["bell", "leaf"]
    assert scenario.own_colours[0].lab is not None
    assert scenario.wishes.owned == ("ultramarine",)


def test_the_library_example_runs(readme: str) -> None:
    """In a process of its own: it needs nothing but what it imports."""
    code = block(readme, "python")
    assert len([line for line in code.splitlines() if line.strip()]) <= 10
    done = subprocess.run(  # noqa: S603  # our own program, text of our own README
        [sys.executable, "-c", code], capture_output=True, check=False, encoding="utf-8"
    )
    assert done.returncode == 0, done.stderr
    assert re.match(r"\d+\.\d% covered for \d+\.\d\d\n", done.stdout)
    assert "5.0" in done.stdout or "10.0" in done.stdout  # millilitres of some pack
    assert "..." not in done.stdout  # what pandas puts in the place of columns it leaves out
    assert "wash (" in done.stdout  # of some recipe


def test_the_swatches_make_a_tube(readme: str, tmp_path: Path) -> None:
    table = next(text for text in readme.split("```") if text.startswith("text\ntube,"))
    file = tmp_path / "swatches.csv"
    file.write_text(table.removeprefix("text\n"), encoding="utf-8")
    (rose,) = fit(read_swatches(file)).tubes
    assert rose.notes == ()  # nothing is odd about them, deep as their black line is
    assert rose.mean_off < 2


def test_the_rows_make_a_tube_and_a_flower(readme: str, tmp_path: Path) -> None:
    before, after = read_catalogue(), with_rows(ROW.findall(readme), tmp_path)
    (tube,) = set(after.tubes) - set(before.tubes)
    (flower,) = set(after.flowers) - set(before.flowers)
    assert after.tubes[tube].offers
    assert len(after.flowers[flower].swatches) == 3  # as the README says


def with_rows(rows: list[tuple[str, str]], folder: Path) -> Catalogue:
    """Return the demo catalogue with rows added to its tables."""
    assert len(rows) == 6  # three of a tube, three of a flower
    own = shutil.copytree(ROOT / "catalogue", folder / "own")
    for table, row in rows:
        with (own / table).open("a", encoding="utf-8") as file:
            file.write(f"{row}\n")
    return read_catalogue(own)


@pytest.mark.parametrize("option", ["--out", "--report", "--pictures", "--how-sure", "--budget"])
def test_what_the_main_job_gives_besides_is_met_in_the_readme(readme: str, option: str) -> None:
    assert option in readme


def test_it_tells_what_a_further_tube_must_better(readme: str) -> None:
    told = f"each further tube must better it by ΔE00 {TUBE_BURDEN:g}"
    assert told in " ".join(readme.split())
