"""Files beyond the limits are refused with a sentence, at once, and the limits are documented."""

from pathlib import Path

import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue import collector, sizes, tables
from fewtubes.errors import Fault

ROOT = Path(__file__).parents[2]

FLOWER_ROWS = "flower,swatch,role,L,a,b,importance\n"


def test_a_huge_file_is_refused_unread(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # Sparse: the size is told by the system, and no byte is written or read.
    with (folder / "flowers.csv").open("r+b") as file:
        file.truncate(sizes.LARGEST_TABLE + 1)
    read = Path.read_bytes
    monkeypatch.setattr(Path, "read_bytes", lambda path: read(path) if path.stem[0] != "f" else 0)
    assert faults_of_catalogue(folder) == (
        Fault(
            "flowers.csv",
            "has 5,000,001 bytes; at most 5,000,000 are allowed, so shorten it.",
        ),
    )


@pytest.mark.parametrize("more", [0, 1])
def test_the_rows_of_a_table_are_limited(folder: Path, more: int) -> None:
    rows = "".join(
        f"flower {number},face,petal,50,10,-50,1\n\n" for number in range(sizes.MOST_ROWS + more)
    )
    (folder / "flowers.csv").write_text(FLOWER_ROWS + rows, encoding="utf-8")
    what = "has more than 10,000 rows, which is the most allowed; shorten it."
    assert faults_of_catalogue(folder) == ((Fault("flowers.csv", what),) if more else ())


def test_the_columns_of_a_table_are_limited(folder: Path) -> None:
    (folder / "flowers.csv").write_text("," * 1_000_000, encoding="utf-8")
    assert faults_of_catalogue(folder) == (
        Fault(
            "flowers.csv, row 1",
            "has 1,000,001 columns; at most 100 are allowed, so remove some.",
        ),
    )


def test_the_documents_tell_the_limits_of_tables() -> None:
    told = " ".join((ROOT / "catalogue" / "README.md").read_text(encoding="utf-8").split())
    assert (
        f"A table has at most {sizes.LARGEST_TABLE:,} bytes, {sizes.MOST_ROWS:,} rows and"
        f" {sizes.MOST_COLUMNS} columns, a name at most {sizes.LONGEST_NAME} characters, a note"
        f" {sizes.LONGEST_NOTE:,}:"
    ) in told


def test_the_documents_tell_the_limits_of_scenarios() -> None:
    told = " ".join((ROOT / "scenarios" / "README.md").read_text(encoding="utf-8").split())
    assert (
        f"A scenario's file has at most {sizes.LARGEST_SCENARIO:,} bytes,"
        f" {sizes.MOST_WISHED:,} flowers, {sizes.MOST_WISHED:,} tubes in each list and"
        f" {sizes.MOST_OWN_COLOURS} colours of your own; a key has at most"
        f" {sizes.DEEPEST_KEY} parts; a file of measured reflectance has at most"
        f" {sizes.LARGEST_MEASUREMENT:,} bytes and {sizes.MOST_MEASURED:,} rows."
    ) in told


def test_names_are_looked_up_for_the_first_of_very_many_faults_only(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(collector, "MOST_COMPARED", 30)
    faults, known = collector.FaultCollector(), [f"name {number}" for number in range(10)]
    told = [faults.suggestion("name 1x", known) for _ in range(5)]
    assert [bool(text) for text in told] == [True, True, True, False, False]


def test_a_table_may_be_held_to_less(folder: Path) -> None:
    faults = collector.FaultCollector()
    size = tables.TableSize(most_bytes=1000, most_rows=1)
    table = tables.read_table(
        folder / "offers.csv", ["tube", "ml", "price", "currency"], faults, size=size
    )
    assert not table.readable
