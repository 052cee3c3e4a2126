"""A plain spreadsheet fills tables, whatever signs, encodings and units it is written with."""

import contextlib
import csv
import datetime
import io
import shutil
import sys
import zipfile
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.keeping.conftest import SMALL, contents, written

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Offer, Role, Swatch
from fewtubes.errors import InputError
from fewtubes.keeping.kept_catalogue import read_kept
from fewtubes.keeping.merging import Winner
from fewtubes.keeping.outcome import Outcome
from fewtubes.keeping.sheet_columns import COLUMNS, Fills
from fewtubes.keeping.sheet_import import sheet_imported
from fewtubes.keeping.workbook import _cell

PRICES = """\
fills = "prices"
{}
[columns]
name = "Artikel"
ml = "Inhalt"
price = "Preis"
[always]
currency = "EUR"
"""

TUBES = """\
fills = "tubes"
[columns]
name = "Name"
pigments = "Pigments"
ml = "ml"
price = "Price"
[always]
currency = "EUR"
"""


def brought(
    folder: Path, sheet: bytes | str, names: str, file: str = "list.csv", **options: object
) -> Outcome:
    (folder.parent / file).write_bytes(sheet.encode("utf-8") if isinstance(sheet, str) else sheet)
    (folder.parent / "names.toml").write_text(names, encoding="utf-8")
    return sheet_imported(
        folder,
        folder.parent / file,
        folder.parent / "names.toml",
        **options,  # type: ignore[arg-type]
    )


def faults(folder: Path, sheet: bytes | str, names: str, file: str = "list.csv") -> list[str]:
    before = contents(folder)
    with pytest.raises(InputError) as told:
        brought(folder, sheet, names, file)
    assert contents(folder) == before
    return [str(fault) for fault in told.value.faults]


def workbook(*sheets: tuple[str, Sequence[Sequence[object]]]) -> bytes:
    book = openpyxl.Workbook()
    assert book.active is not None
    book.remove(book.active)
    for name, rows in sheets:
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


@pytest.mark.parametrize("separator", [";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_prices_come_in_with_any_separator_and_mark(
    ours: Path, separator: str, encoding: str
) -> None:
    sheet = "Nr;Artikel;Inhalt;Preis\r\n1;lemon;5 ml;4,25 €\r\n;;;\r\n2;Deep  blue;15;1.008,95\r\n"
    data = sheet.replace(";", separator).encode(encoding)
    done = brought(ours, data, PRICES.format('decimal = ","'))
    assert set(done.files) == {"offers.csv"}
    read = read_catalogue(written(ours, done.files))
    assert read.tubes["lemon"].offers == (Offer(5.0, 425, "EUR"),)
    assert read.tubes["deep-blue"].offers == (Offer(5.0, 350, "EUR"), Offer(15.0, 100_895, "EUR"))
    assert [pack.before for pack in done.merged.packs] == ["4", "8.95"]


@pytest.mark.parametrize(
    ("decimal", "text", "price"),
    [
        (".", "4.5", 450),
        (".", "€ 4.50", 450),
        (".", "1,234.5", 123_450),
        (".", "1'234.50", 123_450),
        (",", "4,5", 450),
        (",", "1.234", 123_400),
        (",", "1 234,50 €", 123_450),
        (",", "12", 1200),
    ],
)
def test_numbers_are_read_as_they_are_written(
    ours: Path, decimal: str, text: str, price: int
) -> None:
    sheet = f'Artikel;Inhalt;Preis\nlemon;5;"{text}"\n'
    done = brought(ours, sheet, PRICES.format(f'decimal = "{decimal}"'))
    read = read_catalogue(written(ours, done.files))
    assert read.tubes["lemon"].offers == (Offer(5.0, price, "EUR"),)


def test_a_file_in_another_encoding_is_read_if_it_is_named(ours: Path) -> None:
    sheet = "Artikel;Inhalt;Preis\nlemon;5;4,25 €\n".encode("cp1252")
    names = PRICES.format('decimal = ","')
    (told,) = faults(ours, sheet, names)
    assert told.startswith(
        "list.csv: is not UTF-8 text (byte 0x80 in line 2); save it as UTF-8, or name its encoding"
        ' in names.toml, as in encoding = "windows-1252"; known are utf-8, utf-16,'
    )
    done = brought(ours, sheet, 'encoding = "windows-1252"\n' + names)
    assert "lemon,5,4.25,EUR" in done.files["offers.csv"]


def test_every_fault_is_told_with_its_row_and_nothing_is_added(ours: Path) -> None:
    sheet = "Artikel,Inhalt,Preis\nlemon,5,x\nleman,5,4\n,0,4.999\nlemon,15,\n" + 'lemon,7,"4,5"\n'
    leave = 'say unknown_tubes = "leave" in names.toml to leave such rows out.'
    assert faults(ours, sheet, PRICES.format("")) == [
        "list.csv, row 2: Preis is 'x', which is not a plain number; it must be above 0 and at most"
        " 10,000.",
        "list.csv, row 3: Artikel is 'leman', which is no tube of the catalogue; correct it, or"
        f" {leave} Did you mean 'Lemon'?",
        "list.csv, row 4: Artikel is blank; fill it in.",
        "list.csv, row 4: Inhalt is '0'; it must be from 0.1 to 10,000.",
        "list.csv, row 4: Preis is '4.999'; it may have at most two decimals, so round it.",
        "list.csv, row 5: Preis is blank; it must be a number above 0 and at most 10,000.",
        "list.csv, row 6: Preis is '4,5', whose decimals stand after ','; say decimal = \",\" in"
        " names.toml if the whole sheet has them so.",
    ]


def test_a_decimal_comma_does_not_part_a_price(ours: Path) -> None:
    """Four euro twenty-five would else be four."""
    assert faults(ours, "Artikel,Inhalt,Preis\nlemon,5,4,25\n", PRICES.format("")) == [
        "list.csv, row 2: has 4 cells, but there are 3 headings; check what parts the cells, and"
        " put quotation marks around a number or text that holds that sign."
    ]
    trailing = brought(ours, "Artikel,Inhalt,Preis\nlemon,5,4.25,\n", PRICES.format(""))
    assert "lemon,5,4.25,EUR" in trailing.files["offers.csv"]


def test_a_price_with_too_many_decimals_is_told_with_its_comma(ours: Path) -> None:
    told = faults(ours, "Artikel;Inhalt;Preis\nlemon;5;4,205\n", PRICES.format('decimal = ","'))
    assert told == [
        "list.csv, row 2: Preis is '4,205'; it may have at most two decimals, so round it."
    ]


def test_a_fault_that_all_rows_share_is_told_once(ours: Path) -> None:
    sheet = "Artikel,Inhalt,Preis\nlemon,5,4\nlemon,15,9\n"
    assert faults(ours, sheet, PRICES.format("").replace("EUR", "Euro")) == [
        "names.toml, always: currency is 'EURO'; write the three capital letters of ISO 4217, such"
        " as EUR."
    ]


def test_a_price_in_another_currency_is_told(ours: Path) -> None:
    assert faults(ours, "Artikel,Inhalt,Preis\nlemon,5,£4.50\n", PRICES.format("")) == [
        "list.csv, row 2: Preis is '£4.50', but its currency is EUR; correct one of them."
    ]


def test_two_prices_of_a_pack_are_told(ours: Path) -> None:
    sheet = "Artikel,Inhalt,Preis\nlemon,5,4\nLemon,5,4.2\n"
    assert faults(ours, sheet, PRICES.format("")) == [
        "list.csv, row 3: Preis is 4.20, but 4.00 in list.csv, row 2; keep one of them."
    ]


def test_tubes_that_are_not_there_can_be_left_out(ours: Path) -> None:
    sheet = "Artikel,Inhalt,Preis\nlemon,5,4.10\nrose,5,3\n"
    done = brought(ours, sheet, PRICES.format('unknown_tubes = "leave"'))
    assert done.told == ("1 row of tubes that the catalogue has not: left out.",)
    assert [pack.tube for pack in done.merged.packs] == ["lemon"]


def test_new_prices_may_be_kept_out(ours: Path) -> None:
    sheet = "Artikel,Inhalt,Preis\nlemon,5,4.10\nlemon,10,7\n"
    done = brought(ours, sheet, PRICES.format(""), keep=Winner.OURS)
    assert [(pack.ml, pack.before) for pack in done.merged.packs] == [("10", None)]
    assert len(done.merged.left) == 1


def test_a_heading_that_is_not_there_is_told(ours: Path) -> None:
    assert faults(ours, "Artikel,Inhalt,Betrag\nlemon,5,4\n", PRICES.format("")) == [
        "list.csv, row 1: there is no heading 'Preis', which names.toml names; there: Artikel,"
        " Inhalt, Betrag."
    ]
    assert faults(ours, "Artikel,Inhalt,Preis,Preis\nlemon,5,4,4\n", PRICES.format("")) == [
        "list.csv, row 1: the heading 'Preis' stands there twice; rename one."
    ]


def test_headings_may_stand_further_down(ours: Path) -> None:
    sheet = "Our spring list; and more\n\nArtikel;Inhalt;Preis\nlemon;5;4.10\n"
    done = brought(ours, sheet, PRICES.format("heading_row = 3"))
    assert "lemon,5,4.10,EUR" in done.files["offers.csv"]


@pytest.mark.parametrize("says", ["", "heading_row = 2"])
def test_headings_stand_below_a_line_that_names_the_sign(ours: Path, says: str) -> None:
    sheet = "sep=;\r\nArtikel;Inhalt;Preis\r\nlemon;5;{}\r\n"
    done = brought(ours, sheet.format("4.10"), PRICES.format(says))
    assert "lemon,5,4.10,EUR" in done.files["offers.csv"]
    (told,) = faults(ours, sheet.format("x"), PRICES.format(says))
    assert told.startswith("list.csv, row 3: Preis is 'x'")


@pytest.mark.parametrize(
    ("sheet", "told"),
    [
        (b"", "there is no heading 'Artikel'"),
        (b"Artikel,Inhalt,Preis\n", "holds no row below its headings in row 1."),
        (b"\xd0\xcf\x11\xe0rest", "is a workbook of the older kind, or has a password"),
        (b"PK\x03\x04rest", "cannot be read as a workbook in XLSX; save it again, or as CSV."),
        (b"A\0r\0t\0", "holds null characters, so it is no text file, or one in UTF-16"),
        (b'Artikel,Inhalt,Preis\n"lemon,5,4\n', "is not CSV"),
    ],
)
def test_what_is_no_sheet_is_told(ours: Path, sheet: bytes, told: str) -> None:
    assert told in faults(ours, sheet, PRICES.format(""))[0]


def test_a_sheet_too_large_is_refused(ours: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rows = "lemon,5,4\n" * 10_001  # one more than `MOST_ROWS`
    (told,) = faults(ours, "Artikel,Inhalt,Preis\n" + rows, PRICES.format(""))
    assert told == "list.csv: has more than 10,000 rows, the most allowed; shorten it."
    monkeypatch.setattr("fewtubes.keeping.workbook.LARGEST_UNPACKED", 1000)
    book = workbook(("P", [["Artikel", "Inhalt", "Preis"], ["lemon", 5, 4]]))
    (told,) = faults(ours, book, PRICES.format(""), "list.xlsx")
    assert "unpacks to" in told
    assert "at most 1,000 are allowed" in told


def test_cells_far_to_the_right_take_no_room(ours: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A row is filled up to its last cell: 66 kB of such a file once took 2.7 GB and minutes.

    The last column of a workbook is the 16,384th (ECMA-376, in the limits that programs keep to).
    """
    looked_at: list[object] = []

    def counted_cell(cell: object, written: object) -> str | Decimal:
        looked_at.append(cell)
        return _cell(cell, written)

    monkeypatch.setattr("fewtubes.keeping.workbook._cell", counted_cell)
    far: list[object] = ["lemon", 5, 4.5, *[None] * 16_380, "far"]
    book = workbook(("P", [["Artikel", "Inhalt", "Preis"], far]))
    done = brought(ours, book, PRICES.format(""), "list.xlsx")
    assert "lemon,5,4.50,EUR" in done.files["offers.csv"]
    assert len(looked_at) == 2 * 101


def test_a_workbook_of_too_many_columns_is_told(ours: Path) -> None:
    rows: list[list[object]] = [["Artikel", "Inhalt", "Preis"], ["lemon", 5, 4.5, *range(98)]]
    assert faults(ours, workbook(("P", rows)), PRICES.format(""), "list.xlsx") == [
        "list.xlsx, row 2: has more than 100 columns, the most allowed; remove some."
    ]


def test_an_archive_that_is_no_workbook_is_told(ours: Path) -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        archive.writestr("xl/workbook.xml", "<workbook")
    assert faults(ours, stream.getvalue(), PRICES.format(""), "list.xlsx") == [
        "list.xlsx: cannot be read as a workbook in XLSX; save it again, or as CSV."
    ]


def test_a_workbook_gives_values_and_not_formulas(ours: Path) -> None:
    """A formula that no spreadsheet program has computed has no value; openpyxl computes none."""
    rows: list[list[object]] = [
        ["Artikel", "Inhalt", "Preis", "Summe"],
        ["lemon", 5, 4.25, "=C2*2"],
        [None, None, None, None],
        ["Deep blue", 15.0, 0.1 + 0.2, "=C4*2"],
    ]
    done = brought(ours, workbook(("P", rows)), PRICES.format('decimal = ","'), "list.xlsx")
    read = read_catalogue(written(ours, done.files))
    assert read.tubes["lemon"].offers == (Offer(5.0, 425, "EUR"),)
    assert Offer(15.0, 30, "EUR") in read.tubes["deep-blue"].offers
    rows[1][2] = "=1+3"
    assert faults(ours, workbook(("P", rows)), PRICES.format(""), "list.xlsx") == [
        "list.xlsx, row 2: Preis is a formula that was never computed; open the workbook and save"
        " it."
    ]


def test_computed_formulas_are_values(ours: Path) -> None:
    """The value that a spreadsheet program stores beside a formula (ECMA-376, 18.3.1.96, ``v``)."""
    rows: list[list[object]] = [["Artikel", "Inhalt", "Preis"], ["lemon", 5, "=2+2.5"]]
    computed = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(workbook(("P", rows)))) as before,
        zipfile.ZipFile(computed, "w") as after,
    ):
        for name in before.namelist():
            data = before.read(name)
            if name == "xl/worksheets/sheet1.xml":
                assert data.count(b"<v></v>") + data.count(b"<v/>") + data.count(b"<v />") == 1
                for empty in (b"<v></v>", b"<v/>", b"<v />"):
                    data = data.replace(empty, b"<v>4.5</v>")
            after.writestr(name, data)
    done = brought(ours, computed.getvalue(), PRICES.format(""), "list.xlsx")
    assert "lemon,5,4.50,EUR" in done.files["offers.csv"]


def test_a_sheet_of_a_workbook_is_chosen_by_name(ours: Path) -> None:
    book = workbook(
        ("Read me", [["nothing"]]), ("Prices", [["Artikel", "Inhalt", "Preis"], ["lemon", 5, 4.5]])
    )
    done = brought(ours, book, PRICES.format('sheet = "Prices"'), "list.xlsx")
    assert "lemon,5,4.50,EUR" in done.files["offers.csv"]
    assert faults(ours, book, PRICES.format('sheet = "Price"'), "list.xlsx") == [
        "list.xlsx: holds no sheet 'Price', which names.toml names; it holds 'Read me', 'Prices'."
        " Did you mean 'Prices'?"
    ]


def test_dates_words_and_errors_in_a_workbook_are_told(ours: Path) -> None:
    rows: list[list[object]] = [
        ["Artikel", "Inhalt", "Preis"],
        ["lemon", datetime.date(2026, 5, 4), True],
        ["lemon", "#N/A", 4],
    ]
    told = faults(ours, workbook(("P", rows)), PRICES.format(""), "list.xlsx")
    assert [line.split("; ")[0] for line in told] == [
        "list.xlsx, row 2: Inhalt is '2026-05-04 00:00:00', which is not a plain number",
        "list.xlsx, row 2: Preis is 'yes', which is not a plain number",
        "list.xlsx, row 3: Inhalt is '#N/A', which is not a plain number",
    ]


def test_tubes_come_in_with_their_packs(ours: Path) -> None:
    sheet = "Name,Pigments,ml,Price\nMy green,PY154 2 + PG50 1,5,4.5\n"
    sheet += "My green,PY154 2 + PG50 1,15,9\nMy blue,PB29,,\n"
    done = brought(ours, sheet, TUBES)
    read = read_catalogue(written(ours, done.files))
    green = read.tubes["my-green"]
    assert [(pigment.id, share) for pigment, share in green.pigments] == [
        ("yellow", 0.666667),
        ("sea", 0.333333),
    ]
    assert green.offers == (Offer(5.0, 450, "EUR"), Offer(15.0, 900, "EUR"))
    assert read.tubes["my-blue"].offers == ()
    assert brought(ours, sheet, TUBES).files == {}  # once more changes nothing


def test_profiles_of_a_sheet_come_along(ours: Path) -> None:
    sheet = "Name,Pigments,ml,Price\nRose,PR122,5,4.5\nMauve,PR122 + PB29,5,5\n"
    (told, _) = faults(ours, sheet, TUBES)
    assert told.startswith("list.csv, row 2: there is no pigment profile 'PR122'")
    done = brought(ours, sheet, TUBES, profiles_of=read_kept(None))
    assert done.told[0] == "Taken along from the demo catalogue: pr122-magenta."
    assert set(read_catalogue(written(ours, done.files)).tubes) >= {"rose", "mauve"}


def test_a_tube_that_differs_is_a_conflict_until_it_is_said_whose_stands(ours: Path) -> None:
    sheet = "Name,Pigments,ml,Price\nDeep blue,PB29 + PG50,5,3.50\n"
    (told,) = faults(ours, sheet, TUBES)
    assert told.startswith(
        "list.csv: the tube 'deep-blue' differs from ours: rows in tube_pigments"
    )
    done = brought(ours, sheet, TUBES, keep=Winner.THEIRS)
    assert [one.id for one in done.merged.changes if one.replaced] == ["deep-blue"]


def test_rows_of_one_tube_must_agree(ours: Path) -> None:
    sheet = "Name,Pigments,ml,Price\nMine,PB29,5,4\nMine,PG50,15,9\nMine,PB29,5,5\n"
    assert faults(ours, sheet, TUBES) == [
        "list.csv, row 3: Pigments is not that of the same tube in list.csv, row 2; write both the"
        " same way.",
        "list.csv, row 4: Price is 5.00, but 4.00 in list.csv, row 2; keep one of them.",
    ]


def test_a_formula_as_a_name_is_told_with_its_row(ours: Path) -> None:
    (told,) = faults(ours, "Name,Pigments,ml,Price\n+Mine,PB29,5,4\n", TUBES)
    assert told == (
        "list.csv, row 2: Name is '+Mine', which a spreadsheet takes for a formula; rename it."
    )


@pytest.mark.parametrize("place", range(4))
def test_a_formula_in_a_text_file_is_one_fault(ours: Path, place: int) -> None:
    """Whatever its column lacks for it; no workbook is there to be computed."""
    row = ["Mine", "PB29", "5", "4"]
    row[place] = "=x"
    heading = ["Name", "Pigments", "ml", "Price"][place]
    assert faults(ours, f"Name,Pigments,ml,Price\n{','.join(row)}\n", TUBES) == [
        f"list.csv, row 2: {heading} is '=x', a formula; write what it comes to."
    ]
    flowers = 'fills = "flowers"\n[columns]\n' + "".join(
        f'{key} = "{key}"\n' for key in ("flower", "swatch", "role", "L", "a", "b")
    )
    row = ["pansy", "petal", "=y", "5", "5", "5"]
    assert faults(ours, f"flower,swatch,role,L,a,b\n{','.join(row)}\n", flowers) == [
        "list.csv, row 2: role is '=y', a formula; write what it comes to."
    ]


def test_an_uncomputed_name_in_a_workbook_is_one_fault(ours: Path) -> None:
    rows: list[list[object]] = [
        ["Artikel", "Inhalt", "Preis", "Nr"],
        ["=A9", 5, 4.25, None],
        ["lemon", "=B9", 4, None],
    ]
    names = PRICES.format("").replace("ml =", 'tube = "Nr"\nml =')
    assert faults(ours, workbook(("P", rows)), names, "list.xlsx") == [
        f"list.xlsx, row {row}: {heading} is a formula that was never computed; open the workbook"
        " and save it."
        for row, heading in ((2, "Artikel"), (3, "Inhalt"))
    ]


def test_a_small_file_that_leaves_nothing_to_the_sheet_is_told(ours: Path) -> None:
    names = 'fills = "prices"\n[always]\nname = "lemon"\nml = 5\nprice = 4\ncurrency = "EUR"\n'
    assert faults(ours, "", names) == ["list.csv: holds no row below its headings in row 1."]


def test_ids_of_a_sheet_must_be_ids(ours: Path) -> None:
    names = TUBES.replace('name = "Name"', 'name = "Name"\ntube = "Nr"')
    (told,) = faults(ours, "Nr,Name,Pigments,ml,Price\nA 1,Mine,PB29,5,4\n", names)
    assert told.startswith(
        "list.csv, row 2: Nr is 'A 1'; an id is made of plain lower-case letters"
    )


def test_flowers_come_in(ours: Path) -> None:
    names = """\
fills = "flowers"
decimal = ","
[columns]
flower = "Blume"
swatch = "Teil"
L = "L"
a = "a"
b = "b"
[always]
role = "Petal"
importance = 2
"""
    sheet = "Blume;Teil;L;a;b\nAster;Strahl;40;-5,5;3\nAster;Rand;50;-4;2,25\n"
    done = brought(ours, sheet, names)
    assert set(done.files) == {"flowers.csv"}
    aster = read_catalogue(written(ours, done.files)).flowers["Aster"]
    assert aster.swatches[0] == Swatch("Strahl", Role.PETAL, (40.0, -5.5, 3.0), 2)
    told = faults(ours, sheet.replace("40", "140"), names)
    assert told == ["list.csv, row 2: L is '140'; it must be from 0 to 100."]


def test_without_openpyxl_it_is_told_how_to_get_it(
    ours: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = workbook(("P", [["Artikel", "Inhalt", "Preis"], ["lemon", 5, 4]]))
    monkeypatch.setitem(sys.modules, "openpyxl", None)  # as if it were not installed
    assert faults(ours, book, PRICES.format(""), "list.xlsx") == [
        "list.xlsx: a workbook is read with openpyxl, which is not installed; save it as CSV, or"
        " run `python -m pip install 'fewtubes[sheets]'`."
    ]


CELL = st.text(alphabet="aé =+-'\"0123456789.,€%\n\t", max_size=8)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.lists(CELL, max_size=5), max_size=4),
    st.sampled_from(["prices", "tubes", "flowers"]),
    st.sampled_from(["utf-8", "utf-16", "cp1252"]),
)
def test_whatever_a_sheet_holds_it_is_taken_or_told(
    rows: list[list[str]], fills: str, encoding: str
) -> None:
    stream = io.StringIO()
    keys = COLUMNS[Fills(fills)]
    csv.writer(stream, delimiter=";").writerows([keys, *rows])
    names = f'fills = "{fills}"\n[columns]\n' + "".join(f'{key} = "{key}"\n' for key in keys)
    with TemporaryDirectory() as place:
        folder = Path(shutil.copytree(SMALL, Path(place, "ours")))
        done = None
        with contextlib.suppress(InputError):
            done = brought(folder, stream.getvalue().encode(encoding, errors="replace"), names)
        if done is not None:
            read_catalogue(written(folder, done.files))


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=60), st.sampled_from([b"", b"PK\x03\x04", b"Artikel;Inhalt;Preis\n"]))
def test_whatever_bytes_a_sheet_has_it_is_told(data: bytes, start: bytes) -> None:
    with TemporaryDirectory() as place:
        folder = Path(shutil.copytree(SMALL, Path(place, "ours")))
        with contextlib.suppress(InputError):
            brought(folder, start + data, PRICES.format(""))


def test_a_sign_of_a_currency_within_a_number_is_not_taken_out_of_it(ours: Path) -> None:
    """3€90 is three euro ninety in French price lists (common practice, no source)."""
    sheet = "Artikel;Inhalt;Preis\nlemon;5;3€90\nlemon;10;€ 7,50\nlemon;15;9,10 €\n"
    assert faults(ours, sheet, PRICES.format('decimal = ","')) == [
        "list.csv, row 2: Preis is '3€90', which is not a plain number; it must be above 0 and at"
        " most 10,000."
    ]
    done = brought(ours, sheet.replace("3€90", "3,90"), PRICES.format('decimal = ","'))
    packs = {(pack.ml, pack.price) for pack in done.merged.packs}
    assert packs == {("5", "3.90"), ("10", "7.50"), ("15", "9.10")}


def test_one_content_written_in_two_ways_is_one_pack(ours: Path) -> None:
    sheet = "Artikel,Inhalt,Preis\nlemon,5,3.90\nlemon,5.0,4.90\n"
    assert faults(ours, sheet, PRICES.format("")) == [
        "list.csv, row 3: Preis is 4.90, but 3.90 in list.csv, row 2; keep one of them."
    ]
    done = brought(ours, sheet.replace("4.90", "3.90"), PRICES.format(""))
    assert [(pack.ml, pack.price) for pack in done.merged.packs] == [("5", "3.90")]


@pytest.mark.parametrize("sign", ["$", "¥", "£"])
def test_a_sign_that_is_not_that_of_the_currency_is_told(ours: Path, sign: str) -> None:
    assert faults(ours, f"Artikel,Inhalt,Preis\nlemon,5,{sign}3.90\n", PRICES.format("")) == [
        f"list.csv, row 2: Preis is '{sign}3.90', but its currency is EUR; correct one of them."
    ]


def test_a_remark_in_a_further_row_of_a_tube_is_not_lost(ours: Path) -> None:
    names = 'fills = "tubes"\n[columns]\nname = "Name"\npigments = "P"\nnote = "N"\nml = "ml"\n'
    names += 'price = "p"\n[always]\ncurrency = "EUR"\n'
    sheet = "Name,P,N,ml,p\nmy own,PB29,,5,3\nmy own,PB29,dries slowly,10,5\n"
    assert faults(ours, sheet, names) == [
        "list.csv, row 3: N is not that of the same tube in list.csv, row 2; write both the same"
        " way."
    ]
    first = "Name,P,N,ml,p\nmy own,PB29,dries slowly,5,3\nmy own,PB29,,10,5\n"
    assert ",dries slowly\n" in brought(ours, first, names).files["tubes.csv"]
