"""Every kind of fault in a catalogue is told with its table, its row and what is allowed."""

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.reading import MAY_BE_EMPTY, TABLE_COLUMNS, read_catalogue
from fewtubes.errors import Fault, InputError

Change = Callable[[str, str, str], None]

SPOILT = [
    # table, text, put in its place, where the fault is, what it says
    # --- cells that are no number, or one outside its range
    ("offers.csv", "5,3.50,", "5,,", "offers.csv, row 2", "price is blank; it must be a number"),
    ("offers.csv", "3.50", "-3.50", "offers.csv, row 2", "must be above 0 and at most 10,000"),
    ("offers.csv", "3.50", "0", "offers.csv, row 2", "price is '0'; it must be above 0"),
    ("offers.csv", "3.50", "10000.01", "offers.csv, row 2", "above 0 and at most 10,000"),
    ("offers.csv", "3.50", "3.505", "offers.csv, row 2", "at most two decimals"),
    ("offers.csv", "3.50", "nan", "offers.csv, row 2", "'nan', which is not a plain number"),
    ("offers.csv", "3.50", "1e999999999999999999999", "offers.csv, row 2", "above 0 and at most"),
    ("offers.csv", "3.50", '"3,50"', "offers.csv, row 2", "write the decimals after a point"),
    ("offers.csv", "15,8", "0,8", "offers.csv, row 3", "ml is '0'; it must be from 0.1"),
    ("offers.csv", "15,8", "1e9,8", "offers.csv, row 3", "ml is '1e9'"),
    ("tubes.csv", "1.2", "inf", "tubes.csv, row 3", "strength is 'inf', which is not a plain"),
    ("tubes.csv", "1.2", "101", "tubes.csv, row 3", "strength is '101'; it must be above 0"),
    ("tubes.csv", "1.2", "1_2", "tubes.csv, row 3", "strength is '1_2', which is not a plain"),
    ("tubes.csv", "1.2", "١", "tubes.csv, row 3", "strength is '١', which is not a plain"),
    ("tube_pigments.csv", "0.6", "1.6", "tube_pigments.csv, row 4", "share is '1.6'"),
    (
        "flowers.csv",
        "42,10",
        "101,10",
        "flowers.csv, row 2",
        "L is '101'; it must be from 0 to 100",
    ),
    ("flowers.csv", "10,-50", "10,-151", "flowers.csv, row 2", "b is '-151'; it must be from -150"),
    ("flowers.csv", "10,-50", "151,-50", "flowers.csv, row 2", "a is '151'"),
    ("flowers.csv", "-50,2", "-50,0", "flowers.csv, row 2", "importance is '0'; it must be above"),
    ("flowers.csv", "-50,2", "-50,1001", "flowers.csv, row 2", "at most 1,000"),
    ("lights.csv", "380,100", "380,-1", "lights.csv, row 2", "power is '-1'; it must be from 0"),
    # --- spectra
    ("spectra.csv", "yellow,K,3,3", "yellow,K,,x", "spectra.csv, row 4", "has gaps at nm380;"),
    ("spectra.csv", "yellow,K,3,3", "yellow,K,,x", "spectra.csv, row 4", "nm390 'x': every band"),
    ("spectra.csv", "yellow,K,3", "yellow,K,-3", "spectra.csv, row 4", "from 0 to 1,000"),
    ("spectra.csv", "yellow,K,3", "yellow,K,1001", "spectra.csv, row 4", "from 0 to 1,000"),
    ("spectra.csv", "yellow,K", "yellow,k", "spectra.csv, row 4", "quantity is 'k'; allowed: K, S"),
    ("spectra.csv", "yellow,K", "yellow,S", "spectra.csv, row 5", "is already in row 4"),
    ("spectra.csv", "yellow,K", "yellow,S", "pigments.csv, row 3", "'yellow' has no K in spectra"),
    ("papers.csv", "white,0.9", "white,1.1", "papers.csv, row 2", "nm380 '1.1': every band must"),
    ("papers.csv", "white,0.9", "white,0.04", "papers.csv, row 2", "from 0.05 to 1"),
    # --- words from a fixed list
    ("pigments.csv", ",II,", ",VI,", "pigments.csv, row 3", "allowed: I, II, III, IV, V"),
    ("pigments.csv", ",II,", ",,", "pigments.csv, row 3", "lightfastness is blank; allowed: I, II"),
    ("pigments.csv", "slight,no", "sligt,no", "pigments.csv, row 3", "Did you mean 'slight'?"),
    ("pigments.csv", "no,yes", "no,very", "pigments.csv, row 2", "granulating is 'very'; allowed"),
    ("pigments.csv", "I,8,no,yes", "I,9,no,yes", "pigments.csv, row 2", "blue_wool is '9'"),
    ("pigments.csv", "cobalt", "radium", "pigments.csv, row 4", "hazard is 'radium'; allowed: cad"),
    ("flowers.csv", "centre", "middle", "flowers.csv, row 3", "role is 'middle'; allowed: 'petal"),
    # --- codes and ids
    ("pigments.csv", "PB29", "B29", "pigments.csv, row 2", "not a Colour Index generic name"),
    ("pigments.csv", "PB29", "PX29", "pigments.csv, row 2", "not a Colour Index generic name"),
    ("pigments.csv", "PB29", "PB29 + ", "pigments.csv, row 2", "join several as in PR122 + PB29"),
    ("pigments.csv", "PB29", "PB29/PR1", "pigments.csv, row 2", "join several as in PR122 + PB29"),
    ("pigments.csv", "PB29", "PB29 + B1", "pigments.csv, row 2", "code 'B1' is not a Colour Index"),
    ("pigments.csv", "PB29", "PB29 + PB29", "pigments.csv, row 2", "names a pigment twice"),
    ("offers.csv", "3.75,GBP", "3.75,pounds", "offers.csv, row 6", "capital letters of ISO 4217"),
    ("papers.csv", "plain,", "Plain Paper,", "papers.csv, row 2", "plain lower-case letters and"),
    # --- names
    ("tubes.csv", ",Lemon,", ",,", "tubes.csv, row 3", "name is blank; fill it in"),
    ("tubes.csv", ",Lemon,", f",{'x' * 201},", "tubes.csv, row 3", "has 201 characters; at most"),
    ("tubes.csv", ",Lemon,", ",Le\x07mon,", "tubes.csv, row 3", "U+0007 at place 3; remove it"),
    ("tubes.csv", ",Lemon,", ',"Le\nmon",', "tubes.csv, row 3", "U+000A at place 3"),
    ("tubes.csv", ",Lemon,", ",Le\u202emon,", "tubes.csv, row 3", "U+202E at place 3"),
    ("tubes.csv", "ready-mixed", "x" * 1001, "tubes.csv, row 4", "note has 1,001 characters"),
    ("pigments.csv", "Do not breathe the dust.", "", "pigments.csv, row 4", "hazard_note is blank"),
    # --- what refers to what
    ("offers.csv", "lemon", "lemmon", "offers.csv, row 4", "'lemmon' is not in tubes.csv"),
    ("offers.csv", "lemon", "lemmon", "offers.csv, row 4", "Did you mean 'lemon'?"),
    ("tube_pigments.csv", "sea", "see", "tube_pigments.csv, row 5", "'see' is not in pigments.csv"),
    ("tube_pigments.csv", "lemon,", "leaf-green,", "tubes.csv, row 3", "no pigment in tube_pig"),
    ("spectra.csv", "sea,K", "see,K", "spectra.csv, row 6", "'see' is not in pigments.csv"),
    (
        "tube_pigments.csv",
        "0.6",
        "0.5",
        "tubes.csv, row 4",
        "'leaf-green' in tube_pigments.csv sum",
    ),
    ("tube_pigments.csv", "0.6", "0.5", "tubes.csv, row 4", "sum to 0.9; change them"),
    # --- repeats
    ("pigments.csv", "sea,", "blue,", "pigments.csv, row 4", "'blue' is already in row 2"),
    ("tubes.csv", "lemon,", "deep-blue,", "tubes.csv, row 3", "'deep-blue' is already in row 2"),
    ("tube_pigments.csv", ",sea", ",yellow", "tube_pigments.csv, row 5", "already in row 4"),
    (
        "offers.csv",
        ",15,",
        ",5.0,",
        "offers.csv, row 3",
        "the pack of 5 ml of the tube 'deep-blue'",
    ),
    ("flowers.csv", "heart", "ray", "flowers.csv, row 3", "the swatch 'ray' of the flower 'cornfl"),
    # --- lights
    ("lights.csv", "energy,780", "energy,785", "lights.csv, row 2", "uneven steps (at 785 nm)"),
    ("lights.csv", "energy,500", "energy,490", "lights.csv, row 2", "490 nm out of order or twice"),
    ("lights.csv", "energy,380", "energy,390", "lights.csv, row 2", "goes from 390 to 780 nm; it"),
    (
        "lights.csv",
        "E,Equal energy,500",
        "E,Even,500",
        "lights.csv, row 14",
        "'Equal energy' in the",
    ),
    ("lights.csv", "E,Equal energy,500", "E 1,Even,500", "lights.csv, row 14", "plain letters and"),
    ("lights.csv", "energy,500", "energy,500.5", "lights.csv, row 2", "has 500.5 nm; only whole"),
    # --- the shape of a table
    (
        "tubes.csv",
        "lemon,Lemon,1.2",
        "lemon,Le,mon,1.2",
        "tubes.csv, row 3",
        "has 5 cells, but the",
    ),
    ("tubes.csv", "lemon,Lemon,1.2,", "lemon,", "tubes.csv, row 3", "has 2 cells, but the header"),
    ("tubes.csv", "strength", "strenght", "tubes.csv, row 1", "unknown column 'strenght'"),
    ("tubes.csv", "strength", "strenght", "tubes.csv, row 1", "Did you mean 'strength'?"),
    ("tubes.csv", "strength", "strenght", "tubes.csv, row 1", "are missing: strength; add them"),
    ("tubes.csv", "strength", "name", "tubes.csv, row 1", "appear more than once: name"),
    ("tubes.csv", "strength,note", "strength,,note", "tubes.csv, row 1", "column 4 has no name"),
    ("papers.csv", "nm450,", "", "papers.csv, row 1", "are missing: nm450"),
    ("tubes.csv", 'and clean"', "and clean", "tubes.csv, line 4", "is not CSV (unexpected end of"),
    (
        "tubes.csv",
        'and clean"',
        'and" clean"',
        "tubes.csv, line 3",
        "every quotation mark is closed",
    ),
    ("tubes.csv", ",Lemon,", f",{'x' * 140_000},", "tubes.csv, line 3", "field larger than field"),
]


@pytest.mark.parametrize("case", SPOILT)
def test_a_spoilt_table_is_told(
    folder: Path, change: Change, case: tuple[str, str, str, str, str]
) -> None:
    table, old, new, where, what = case
    change(table, old, new)
    faults = faults_of_catalogue(folder)
    assert any(fault.where == where and what in fault.what for fault in faults), faults
    assert all(fault.what.endswith((".", "?")) for fault in faults)


def test_all_faults_of_all_tables_are_told_at_once(folder: Path, change: Change) -> None:
    change("offers.csv", "3.50", "free")
    change("pigments.csv", "PB29", "blue")
    change("flowers.csv", "centre", "hub")
    with pytest.raises(InputError) as raised:
        read_catalogue(folder)
    assert [fault.where for fault in raised.value.faults] == [
        "pigments.csv, row 2",
        "offers.csv, row 2",
        "flowers.csv, row 3",
    ]
    assert "offers.csv, row 2: price is 'free'" in str(raised.value)


@pytest.mark.parametrize("table", TABLE_COLUMNS)
def test_a_missing_table_is_told_once(folder: Path, table: str) -> None:
    (folder / table).unlink()
    (fault,) = faults_of_catalogue(folder)
    assert fault.where == table
    assert fault.what == (
        f"there is no such file in the folder '{folder}'; add it or correct the name."
    )


@pytest.mark.parametrize("table", TABLE_COLUMNS)
@pytest.mark.parametrize("content", ["", "\n\n", "\ufeff"])
def test_an_empty_table_is_told_once(folder: Path, table: str, content: str) -> None:
    (folder / table).write_text(content, encoding="utf-8")
    (fault,) = faults_of_catalogue(folder)
    assert fault == Fault(table, "is empty; it needs a header row and at least one row below.")


@pytest.mark.parametrize("table", sorted(TABLE_COLUMNS.keys() - MAY_BE_EMPTY))
def test_a_table_without_rows_is_told_once(folder: Path, table: str) -> None:
    (folder / table).write_text(",".join(TABLE_COLUMNS[table]) + "\n,,\n", encoding="utf-8")
    (fault,) = faults_of_catalogue(folder)
    assert fault == Fault(table, "holds a header but no rows; add at least one.")


def test_rows_are_numbered_as_a_spreadsheet_does(folder: Path) -> None:
    # Row 1 the header, row 2 blank, row 3 a note over two lines, row 4 the fault.
    (folder / "tubes.csv").write_text(
        'tube,name,strength,note\n\ndeep-blue,Deep blue,1,"two\nlines"\nlemon,Lemon,zero,\n'
        "leaf-green,Leaf green,1,\n",
        encoding="utf-8",
    )
    wheres = [fault.where for fault in faults_of_catalogue(folder)]
    assert wheres == ["tubes.csv, row 3", "tubes.csv, row 4"]


def test_a_table_that_is_a_folder_is_told(folder: Path) -> None:
    (folder / "tubes.csv").unlink()
    (folder / "tubes.csv").mkdir()
    assert faults_of_catalogue(folder) == (
        Fault("tubes.csv", "is not a file; put the file itself in its place."),
    )


def test_text_in_another_encoding_is_told_with_its_line(folder: Path) -> None:
    text = (folder / "flowers.csv").read_text(encoding="utf-8").replace("heart", "cœur")
    (folder / "flowers.csv").write_bytes(b"\xef\xbb\xbf" + text.encode("cp1252"))
    (fault,) = faults_of_catalogue(folder)
    assert fault.where == "flowers.csv, line 3"
    assert fault.what == (
        "is not UTF-8 text (byte 0x9c); save the file again with the encoding UTF-8."
    )


@pytest.mark.parametrize(("mark", "name"), [(";", "semicolons"), ("\t", "tabs"), ("|", "strokes")])
@pytest.mark.parametrize("quote", ["", '"'])
@pytest.mark.parametrize("start", ["", "\ufeff", "\r\n"])
def test_another_separator_is_told(
    folder: Path, *, mark: str, name: str, quote: str, start: str
) -> None:
    rows = (folder / "offers.csv").read_text(encoding="utf-8").splitlines()
    cells = ([f"{quote}{cell}{quote}" for cell in row.split(",")] for row in rows)
    text = start + "\n".join(mark.join(row) for row in cells)
    (folder / "offers.csv").write_text(text, encoding="utf-8")
    assert faults_of_catalogue(folder) == (
        Fault(
            "offers.csv, row 1",
            f"the cells are parted by {name}, not by commas; save the table with commas.",
        ),
    )


def test_a_forbidden_file_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "read_bytes", forbidden)
    expected = "cannot be read (Permission denied); check name and permissions."
    assert Fault("tubes.csv", expected) in faults_of_catalogue(folder)


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    (fault,) = faults_of_catalogue(tmp_path / "nowhere")
    assert fault.where == str(tmp_path / "nowhere")
    assert fault.what == (
        "there is no such folder (No such file or directory); name the folder that holds the"
        " tables."
    )


def test_a_file_is_not_a_folder(folder: Path) -> None:
    (fault,) = faults_of_catalogue(folder / "tubes.csv")
    assert fault.what == "is not a folder; name the folder that holds the tables."


def test_an_impossible_folder_name_is_told() -> None:
    (fault,) = faults_of_catalogue(Path("a\0b"))
    assert fault.what.startswith("there is no such folder")


def test_a_light_needs_power_in_every_part_of_the_visible(folder: Path) -> None:
    rows = [f"E,Equal energy,{nm},{100 if nm >= 500 else 0}" for nm in range(380, 781, 10)]
    (folder / "lights.csv").write_text("\n".join(["light,name,nm,power", *rows]), encoding="utf-8")
    (fault,) = faults_of_catalogue(folder)
    assert "the light 'E' has no power from 400 to 500 nm" in fault.what


def test_a_light_needs_narrow_steps(folder: Path) -> None:
    rows = [f"E,Equal energy,{nm},100" for nm in range(380, 781, 20)]
    (folder / "lights.csv").write_text("\n".join(["light,name,nm,power", *rows]), encoding="utf-8")
    (fault,) = faults_of_catalogue(folder)
    assert "has steps of 20 nm; at most 10 nm are allowed" in fault.what


def test_long_values_are_cut_in_messages(folder: Path, change: Change) -> None:
    change("tubes.csv", "1.2", "9" * 190)
    (fault,) = faults_of_catalogue(folder)
    assert fault.what == f"strength is '{'9' * 40}…'; it must be above 0 and at most 100."


def test_an_unreadable_table_is_not_blamed_on_its_neighbours(folder: Path, change: Change) -> None:
    change("pigments.csv", "pigment,code", "pigmen,code")
    assert {fault.where for fault in faults_of_catalogue(folder)} == {"pigments.csv, row 1"}


def test_a_paper_given_twice_is_told(folder: Path) -> None:
    path = folder / "papers.csv"
    header, row = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join([header, row, row]), encoding="utf-8")
    (fault,) = faults_of_catalogue(folder)
    assert str(fault) == (
        "papers.csv, row 3: the paper 'plain' is already in row 2; keep only one of them."
    )
