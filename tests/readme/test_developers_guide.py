"""The developers' guide knows every folder of the package, and every file it names is there."""

import re
from pathlib import Path

import pytest

from fewtubes.coverage.reach import MANY_SETS
from fewtubes.keeping.kept_catalogue import KEPT_COLUMNS
from fewtubes.mixing.sets import set_count

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "optimiser" / "fewtubes"
FOLDERS = [ROOT / name for name in ("optimiser", "catalogue", "scenarios", "tests")]


@pytest.fixture(scope="module")
def guide() -> str:
    return (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_it_has_a_line_for_every_folder_of_the_package(guide: str) -> None:
    told = set(re.findall(r"^\| `([a-z_]+)` \|", guide, re.M))
    assert told == {path.parent.name for path in PACKAGE.glob("*/__init__.py")}


def test_every_file_it_names_is_there(guide: str) -> None:
    named = set(re.findall(r"`([a-z_/]+\.(?:py|csv|toml))`", guide))
    assert len(named) > 20  # the guide names about thirty
    for name in named:
        found = [path for folder in FOLDERS for path in folder.rglob(name.rsplit("/", 1)[-1])]
        below = any(path.as_posix().endswith(f"/{name}") for path in found)
        assert below or (ROOT / name).exists() or name in KEPT_COLUMNS, name


def test_it_tells_from_how_many_tubes_processes_mix(guide: str) -> None:
    told = re.search(r"From ([\d,]+) sets of three \((\d+) tubes\)", guide)
    assert told is not None
    sets, tubes = told.groups()
    assert int(sets.replace(",", "")) == MANY_SETS
    assert set_count(int(tubes) - 1, 3) < MANY_SETS <= set_count(int(tubes), 3)
