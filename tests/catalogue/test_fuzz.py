"""Whatever bytes a table holds, the reader gives a catalogue or a list of faults, nothing else."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.faults import faults_of_catalogue
from tests.fitted_tables import fit

from fewtubes.catalogue.reading import LIKELY_TABLE, TABLE_COLUMNS

SMALL = Path(__file__).parent / "small_catalogue"

TABLES = [*TABLE_COLUMNS, LIKELY_TABLE]

SCRAPS = (
    *('"', ",", "\n", "\r", "\0", ";", "-", "nan", "1e999", "9" * 400, "\ufeff", "é", "\ud7ff"),
    *("EUR", "blue", "lemon", "K", "I", "petal", "0.5", " ", "=1+1", "", "380", "1e-320"),
)
"""What is put into tables: separators, odd numbers and words that have a meaning elsewhere."""


@pytest.fixture(scope="module")
def spoilt() -> Iterator[Path]:
    """Return a copy of the small catalogue for all examples; each puts back what it changed."""
    with TemporaryDirectory() as home:
        folder = Path(shutil.copytree(SMALL, Path(home) / "small"))
        fit(folder, "yellow")
        yield folder


@st.composite
def mutations(draw: st.DrawFn, original: bytes) -> bytes:
    """Return the bytes with a few pieces cut out and scraps put in."""
    data = original
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(data)))
        length = draw(st.integers(0, 12))
        scrap = draw(st.sampled_from(SCRAPS).map(str.encode) | st.binary(max_size=3))
        data = data[:start] + scrap + data[start + length :]
    return data


@settings(max_examples=200, deadline=None)
@given(data=st.data(), table=st.sampled_from(TABLES))
def test_mutated_tables(spoilt: Path, data: st.DataObject, table: str) -> None:
    original = (spoilt / table).read_bytes()
    (spoilt / table).write_bytes(data.draw(mutations(original)))
    try:
        faults = faults_of_catalogue(spoilt)
    finally:
        (spoilt / table).write_bytes(original)
    assert all(fault.where and fault.what.endswith((".", "?")) for fault in faults)
    assert all(str(fault).isprintable() for fault in faults)


@settings(max_examples=100, deadline=None)
@given(content=st.binary(max_size=200), table=st.sampled_from(TABLES))
def test_random_bytes(spoilt: Path, content: bytes, table: str) -> None:
    original = (spoilt / table).read_bytes()
    (spoilt / table).write_bytes(content)
    try:
        assert faults_of_catalogue(spoilt)
    finally:
        (spoilt / table).write_bytes(original)


@settings(max_examples=100, deadline=None)
@given(cell=st.text(max_size=30), column=st.integers(0, 9))
def test_random_cells(spoilt: Path, cell: str, column: int) -> None:
    original = (SMALL / "pigments.csv").read_text(encoding="utf-8")
    lines = original.splitlines()
    cells = lines[3].split(",")
    cells[column] = '"' + cell.replace('"', '""') + '"'
    lines[3] = ",".join(cells)
    text = "\n".join(lines).encode("utf-8", "surrogatepass")
    (spoilt / "pigments.csv").write_bytes(text)
    try:
        faults = faults_of_catalogue(spoilt)
    finally:
        (spoilt / "pigments.csv").write_text(original, encoding="utf-8")
    assert all(str(fault).isprintable() for fault in faults)
