"""Tables as spreadsheets save them: line ends, byte order marks, encodings."""

from pathlib import Path

import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.reading import TABLE_COLUMNS
from fewtubes.errors import Fault


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_any_line_end_and_mark_will_do(folder: Path, line_end: str, mark: str) -> None:
    for table in TABLE_COLUMNS:
        text = mark + (folder / table).read_text(encoding="utf-8").replace("\n", line_end)
        (folder / table).write_bytes(text.encode())
    assert faults_of_catalogue(folder) == ()


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32", "utf-32-le"])
def test_other_encodings_of_unicode_are_told(folder: Path, encoding: str) -> None:
    text = (folder / "tubes.csv").read_text(encoding="utf-8")
    (folder / "tubes.csv").write_bytes(text.encode(encoding))
    assert faults_of_catalogue(folder) == (
        Fault("tubes.csv", "is in UTF-16 or UTF-32; save it again with the encoding UTF-8."),
    )


def test_lines_are_counted_whatever_ends_them(folder: Path) -> None:
    text = (folder / "flowers.csv").read_text(encoding="utf-8").replace("heart", "cœur")
    (folder / "flowers.csv").write_bytes(text.replace("\n", "\r").encode("cp1252"))
    (fault,) = faults_of_catalogue(folder)
    assert fault.where == "flowers.csv, line 3"
