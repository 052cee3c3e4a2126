"""The small catalogue, and a sound scenario for it that a test may spoil."""

from collections.abc import Callable
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

SOUND = """\
title = "A window box"
shows = '''that every key
is read'''
currency = "EUR"
budget = 12.50
most_tubes = 3
tolerance = 3.5
paper = "plain"
light = "E"
owned = ["lemon"]
must_have = ["deep-blue"]
never = ["leaf-green"]
[[flower]]
name = "cornflower"
importance = 2
[[flower]]
name = "primrose"
[[colour]]
name = "my dahlia"
hex = "#c21e56"
importance = 0.5
[[colour]]
name = "my aster"
lab = [45, 30.5, -40]
[[colour]]
name = "my moss"
reflectance = "moss.csv"
[wishes]
lightfastness = "II"
transparency = "semi-transparent"
avoid_hazards = ["cadmium", "lead"]
millilitres = 5
thinnest_wash = 0.5
most_in_mix = 2
least_coverage = 0.9
"""

MOSS = "nm,reflectance\n" + "".join(f"{nm},{nm / 1000}\n" for nm in range(375, 736, 10))
"""Reflectance nm/1000, a straight line, every 10 nm from 375 to 735."""

Change = Callable[[str, str], Path]


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """Return the small catalogue."""
    return read_catalogue(SMALL)


@pytest.fixture
def sound(tmp_path: Path) -> Path:
    """Return the file of the sound scenario, with its reflectance beside it."""
    (tmp_path / "moss.csv").write_text(MOSS, encoding="utf-8")
    path = tmp_path / "box.toml"
    path.write_text(SOUND, encoding="utf-8")
    return path


@pytest.fixture
def change(sound: Path) -> Change:
    """Return a function that replaces the one place of a text in the scenario's file."""

    def replace_once(old: str, new: str) -> Path:
        assert SOUND.count(old) == 1, f"{old!r} must stand once in the scenario"
        sound.write_text(SOUND.replace(old, new), encoding="utf-8")
        return sound

    return replace_once
