"""Tables typed in from outside are whole: each says how many rows it has."""

import re
from pathlib import Path

import pandas as pd
import pytest

TABLES = sorted(Path(__file__).parent.glob("*.csv"))


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_a_table_names_its_source_and_has_its_rows(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    head = " ".join(line for line in lines if line.startswith("#"))
    assert re.search(r"\b(19|20)\d\d\b|Fogra", head), "a source has a year or is Fogra's"
    told = re.search(r"(\d+) rows", head)
    assert told is not None
    table = pd.read_csv(path, comment="#")
    assert len(table) == int(told[1])
    assert not table.isna().to_numpy().any()


def test_all_tables_are_here() -> None:
    # Labelled regression pin: a table that is moved away would take its tests along.
    assert [path.stem for path in TABLES] == [
        "ciede2000_pairs",
        "film_reflectances",
        "press_sets",
        "press_uncoated",
        "surface_reflectances",
        "thick_films",
    ]
