"""Tables of sellers, stocks and sets: read whole, and every fault told with its row."""

import csv
import io
import re
from pathlib import Path

import pytest

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.errors import InputError

OFFERS = """\
tube,ml,price,currency,seller,stock,price_two_or_more
deep-blue,5,3.50,EUR,post,4,3.20
deep-blue,5,3.60,EUR,stall,,
lemon,5,4,EUR,,0,
"""
SELLERS = """\
seller,name,delivery,free_from,least_order,currency,note
post,"by post, north",4.95,40,10,EUR,parcels on Mondays
stall,market stall,,,,EUR,
"""
SETS = """\
set,name,price,currency,seller,stock
six,box of six,19.90,EUR,post,2
two,two small ones,5,EUR,,
"""
SET_PACKS = """\
set,tube,ml,count
six,lemon,5,4
six,deep-blue,5,2
two,lemon,2.5,2
"""
TABLES = {
    "offers.csv": OFFERS,
    "sellers.csv": SELLERS,
    "sets.csv": SETS,
    "set_packs.csv": SET_PACKS,
}


def write(folder: Path, **changed: tuple[str, str]) -> Path:
    """Write the tables, in each of those named one text put in the place of another."""
    folder.mkdir(exist_ok=True)
    for name, text in TABLES.items():
        old, new = changed.get(name.removesuffix(".csv"), ("", ""))
        assert text.count(old) == 1 or not old
        (folder / name).write_text(text.replace(old, new) if old else text, encoding="utf-8")
    return folder


def told(folder: Path) -> list[str]:
    with pytest.raises(InputError) as error:
        read_catalogue(folder)
    return [str(fault) for fault in error.value.faults]


def test_sellers_stocks_and_sets_are_read(folder: Path) -> None:
    read = read_catalogue(write(folder))
    assert read.tubes["deep-blue"].offers == (
        Offer(5.0, 350, "EUR", "post", 4, 320),
        Offer(5.0, 360, "EUR", "stall"),
    )
    assert read.tubes["lemon"].offers == (Offer(5.0, 400, "EUR", "", 0),)
    assert list(read.sellers.values()) == [
        Seller("post", "by post, north", 495, 4000, 1000, "EUR", "parcels on Mondays"),
        Seller("stall", "market stall", 0, None, 0, "EUR"),
    ]
    assert read.sets["six"] == TubeSet(
        "six",
        "box of six",
        "post",
        1990,
        "EUR",
        (SetPack("lemon", 5.0, 4), SetPack("deep-blue", 5.0, 2)),
        2,
    )
    assert (read.sets["two"].seller, read.sets["two"].stock) == ("", None)


def test_old_tables_have_neither(folder: Path) -> None:
    read = read_catalogue(folder)
    assert (read.sellers, read.sets) == ({}, {})
    assert read.tubes["lemon"].offers == (Offer(5.0, 400, "EUR"),)


@pytest.mark.parametrize(
    ("table", "change", "row", "fault"),
    [
        ("offers", ("EUR,post", "EUR,pots"), 2, "seller 'pots' is not in sellers.csv; correct it"),
        ("offers", (",4,3.20", ",-1,3.20"), 2, "stock is '-1'; it must be from 0 to 10,000"),
        ("offers", (",4,3.20", ",1.5,3.20"), 2, "stock is '1.5'; it must be a whole number"),
        ("offers", (",4,3.20", ",4,3.51"), 2, "'3.51', above the price of one, '3.50'; give"),
        ("offers", (",4,3.20", ",4,0"), 2, "price_two_or_more is '0'; it must be above 0"),
        ("offers", ("3.60,EUR,stall", "3.60,EUR,post"), 3, "in EUR at 'post' is already in row 2"),
        (
            "offers",
            ("3.60,EUR", "3.60,GBP"),
            3,
            "the seller 'stall' sells in EUR; a seller has one",
        ),
        ("sellers", ("4.95", "-1"), 2, "delivery is '-1'; it must be from 0 to 10,000"),
        ("sellers", ("4.95", "4.955"), 2, "it may have at most two decimals"),
        ("sellers", (",40,10", ",9.99,10"), 2, "free_from is '9.99', below least_order, '10'"),
        ("sellers", ("stall,market", "Stall,market"), 3, "seller is 'Stall'; an id is made of"),
        ("sellers", ("stall,market", "post,market"), 3, "the seller 'post' is already in row 2"),
        ("sets", ("19.90,EUR", "19.90,GBP"), 2, "the seller 'post' sells in EUR; a seller has one"),
        ("sets", ("two,two", "six,two"), 3, "the set 'six' is already in row 2"),
        ("set_packs", ("lemon,5,4", "lemno,5,4"), 2, "tube 'lemno' is not in tubes.csv"),
        ("set_packs", ("lemon,5,4", "lemon,5,0"), 2, "count is '0'; it must be from 1 to 1,000"),
        ("set_packs", ("lemon,5,4", "lemon,5,1.5"), 2, "count is '1.5'; it must be a whole number"),
        (
            "set_packs",
            ("six,deep-blue,5", "six,lemon,5"),
            3,
            "in the set 'six' is already in row 2",
        ),
        ("set_packs", ("two,lemon", "too,lemon"), 4, "set 'too' is not in sets.csv"),
    ],
)
def test_faults_are_told_with_their_row(
    folder: Path, table: str, change: tuple[str, str], row: int, fault: str
) -> None:
    write(folder, **{table: change})
    faults = told(folder)
    assert any(said.startswith(f"{table}.csv, row {row}: ") and fault in said for said in faults), (
        faults
    )


def test_a_set_without_packs_is_told(folder: Path) -> None:
    write(folder, set_packs=("two,lemon,2.5,2\n", ""))
    assert told(folder) == [
        "sets.csv, row 3: the set 'two' has no pack in set_packs.csv; add a row there for each"
        " tube that it holds."
    ]


def test_a_wrong_currency_of_a_seller_is_told_once(folder: Path) -> None:
    """Not for each of its packs, and no sign that does not print is repeated."""
    write(folder, sellers=("EUR,parcels", "\x07,parcels"))
    faults = told(folder)
    assert {said.partition(":")[0] for said in faults} == {"sellers.csv, row 2"}
    assert not any("\x07" in said for said in faults)


def test_a_seller_without_a_table_of_sellers_is_told(folder: Path) -> None:
    write(folder)
    (folder / "sellers.csv").unlink()
    assert [said.partition(":")[0] for said in told(folder)] == [
        "offers.csv, row 2",
        "offers.csv, row 3",
        "sets.csv, row 2",
    ]


def test_two_or_more_may_cost_as_much_each_as_one(folder: Path) -> None:
    read = read_catalogue(write(folder, offers=(",4,3.20", ",4,3.50")))
    assert read.tubes["deep-blue"].offers[0].price_of_more == 350


def test_a_price_list_stands_in_the_place_of_a_catalogues_prices(
    folder: Path, tmp_path: Path
) -> None:
    catalogue = read_catalogue(folder)
    priced = with_prices(catalogue, write(tmp_path / "prices"))
    assert priced.tubes["deep-blue"].offers[0] == Offer(5.0, 350, "EUR", "post", 4, 320)
    assert priced.tubes["leaf-green"].offers == ()  # the list has no pack of it
    assert set(priced.sellers) == {"post", "stall"}
    assert set(priced.sets) == {"six", "two"}
    assert priced.pigments is catalogue.pigments
    assert with_prices(catalogue, None) is catalogue


def test_a_price_list_may_hold_offers_alone(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "offers.csv").write_text("tube,ml,price,currency\nlemon,5,4.10,EUR\n")
    priced = with_prices(read_catalogue(write(folder)), tmp_path)
    assert (priced.sellers, priced.sets) == ({}, {})
    assert priced.tubes["lemon"].offers == (Offer(5.0, 410, "EUR"),)


def test_a_price_list_of_unknown_tubes_is_at_fault(folder: Path, tmp_path: Path) -> None:
    catalogue = read_catalogue(folder)
    place = write(tmp_path / "prices", offers=("lemon,5,4", "lime,5,4"))
    with pytest.raises(InputError, match=r"row 4: tube 'lime' is not in tubes.csv"):
        with_prices(catalogue, place)
    with pytest.raises(InputError, match=r"there is no such folder .* holds the price list"):
        with_prices(catalogue, tmp_path / "nowhere")
    (place / "offers.csv").unlink()
    with pytest.raises(InputError, match=r"offers.csv: there is no such file"):
        with_prices(catalogue, place)


def as_with_commas(text: str) -> str:
    """Return a table as a spreadsheet saves it where decimals stand after a comma."""
    rows = csv.reader(io.StringIO(text))
    stream = io.StringIO()
    csv.writer(stream, delimiter=";", lineterminator="\r\n").writerows(
        [re.sub(r"^(\d+)\.(\d+)$", r"\1,\2", cell) for cell in row] for row in rows
    )
    return "\ufeff" + stream.getvalue()


def test_a_price_list_may_be_saved_with_semicolons_and_decimal_commas(
    folder: Path, tmp_path: Path
) -> None:
    catalogue = read_catalogue(folder)
    plain, saved = write(tmp_path / "plain"), tmp_path / "saved"
    saved.mkdir()
    for name, text in TABLES.items():
        (saved / name).write_text(as_with_commas(text), encoding="utf-8", newline="")
    assert "3,50;EUR" in (saved / "offers.csv").read_text(encoding="utf-8")
    here, there = with_prices(catalogue, plain), with_prices(catalogue, saved)
    assert (here.sellers, here.sets) == (there.sellers, there.sets)
    for id_, tube in here.tubes.items():
        assert tube.offers == there.tubes[id_].offers
    assert there.sellers["post"].delivery == 495


def test_a_price_that_is_none_is_told_as_it_was_written(folder: Path, tmp_path: Path) -> None:
    text = "tube;ml;price;currency\nlemon;5;3,505;EUR\nlemon;2,5;1,2,3;EUR\n"
    (tmp_path / "offers.csv").write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as error:
        with_prices(read_catalogue(folder), tmp_path)
    first, second = error.value.faults
    assert "offers.csv, row 2" in first.where
    assert first.what.startswith("price is '3,505'; it may have at most two decimals")
    assert "offers.csv, row 3" in second.where
    assert "1,2,3" in second.what


def test_numbers_out_of_range_are_told_with_the_comma_they_have(
    folder: Path, tmp_path: Path
) -> None:
    text = "tube;ml;price;currency;stock;price_two_or_more\n"
    rows = "lemon;0,01;3,50;EUR;1,5;3,51\nlemon;15;1.234.567,50;EUR;;\n"
    (tmp_path / "offers.csv").write_text(text + rows, encoding="utf-8")
    with pytest.raises(InputError) as error:
        with_prices(read_catalogue(folder), tmp_path)
    said = sorted(fault.what.split(";")[0] for fault in error.value.faults)
    assert said == [
        "ml is '0,01'",
        "price is '1.234.567,50'",
        "price_two_or_more is '3,51', above the price of one, '3,50'",
        "stock is '1,5'",
    ]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (
            "lemon;5;3,40;EUR\nlemon;15;7;EUR\nlemon;30;13.40;EUR\n",
            "row 4: price is '13.40', with a decimal point, but row 2 has '3,40', with a decimal"
            " comma; write all decimals of a file after the same sign.",
        ),
        (
            "lemon;7.5;3,40;EUR\n",
            "row 2: price is '3,40', with a decimal comma, but the same row has '7.5', with a"
            " decimal point; write all decimals of a file after the same sign.",
        ),
        (
            "lemon;5;1.234,50;EUR\nlemon;15;1.234;EUR\n",
            "row 3: price is '1.234', with a decimal point, but row 2 has '1.234,50', with",
        ),
    ],
)
def test_two_decimal_signs_in_a_file_are_told(
    folder: Path, tmp_path: Path, rows: str, told: str
) -> None:
    (tmp_path / "offers.csv").write_text(f"tube;ml;price;currency\n{rows}", encoding="utf-8")
    with pytest.raises(InputError) as error:
        with_prices(read_catalogue(folder), tmp_path)
    assert f"offers.csv, {told}" in str(error.value)


@pytest.mark.parametrize(
    ("ml", "price", "hundredths"),
    [("7,5", "1.234,50", 123_450), ("7.5", "1,234.50", 123_450), ("5", "3.40", 340)],
)
def test_one_decimal_sign_is_read_thousands_or_not(
    folder: Path, tmp_path: Path, ml: str, price: str, hundredths: int
) -> None:
    text = f"tube;ml;price;currency\nlemon;{ml};{price};EUR\n"
    (tmp_path / "offers.csv").write_text(text, encoding="utf-8")
    (offer,) = with_prices(read_catalogue(folder), tmp_path).tubes["lemon"].offers
    assert offer.price == hundredths


def test_a_catalogue_itself_keeps_its_commas(folder: Path) -> None:
    """Its rows are kept to the byte when something is added, which one sign alone is for."""
    (folder / "offers.csv").write_text(as_with_commas(OFFERS), encoding="utf-8")
    assert any("parted by semicolons, not by commas" in fault for fault in told(folder))
