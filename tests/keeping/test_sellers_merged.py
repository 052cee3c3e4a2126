"""Sellers, sets and what is told of packs besides their price survive bringing in and merging."""

from decimal import Decimal
from pathlib import Path

import pytest
from tests.keeping.conftest import Change

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Offer
from fewtubes.errors import InputError
from fewtubes.keeping.beginning import begun_catalogue
from fewtubes.keeping.by_hand import WantedPack, packs_added
from fewtubes.keeping.kept_catalogue import changed_files, looked_through, read_kept
from fewtubes.keeping.kept_table import kept_table
from fewtubes.keeping.merging import Merged, Winner, merged, merged_prices
from fewtubes.keeping.outcome import Outcome
from fewtubes.keeping.packs import PackChange
from fewtubes.keeping.sheet_import import sheet_imported
from fewtubes.keeping.things import Kind

STALL = "seller,name,delivery,free_from,least_order,currency,note\nstall,market stall,,,,EUR,\n"
SETS = "set,name,price,currency,seller\nbox,box of two,7.50,EUR,stall\n"
SET_PACKS = "set,tube,ml,count\nbox,lemon,5,1\nbox,deep-blue,5,1\n"
OFFERS = """\
tube,ml,price,currency,seller,stock,price_two_or_more
deep-blue,5,3.50,EUR,,,
lemon,5,4,EUR,,,
lemon,5,3.80,EUR,stall,3,3.60
"""


def with_sellers(folder: Path, offers: str = OFFERS) -> Path:
    """Write tables of a seller and a set into a catalogue."""
    for name, text in (
        ("sellers.csv", STALL),
        ("sets.csv", SETS),
        ("set_packs.csv", SET_PACKS),
        ("offers.csv", offers),
    ):
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def files_after(ours: Path, done: Merged, *, write: bool = True) -> dict[str, str]:
    looked_through(done.kept)
    files = changed_files(read_kept(ours), done.kept)
    for name, text in files.items() if write else ():
        (ours / name).write_text(text, encoding="utf-8", newline="")
    return files


def test_sellers_and_sets_come_into_a_catalogue_without(ours: Path, theirs: Path) -> None:
    done = merged(read_kept(ours), read_kept(with_sellers(theirs)))
    files_after(ours, done)
    assert [(change.kind, change.id) for change in done.changes] == [
        (Kind.SELLER, "stall"),
        (Kind.SET, "box"),
    ]
    assert done.packs == (PackChange("lemon", "5", "EUR", "3.80", None, seller="stall"),)
    read = read_catalogue(ours)
    assert read.sellers["stall"].name == "market stall"
    assert read.sets["box"].tubes == ("lemon", "deep-blue")
    # Both the pack of no seller and that of the stall, with its stock and its price for more.
    assert read.tubes["lemon"].offers == (
        Offer(5.0, 400, "EUR"),
        Offer(5.0, 380, "EUR", "stall", 3, 360),
    )


def test_lines_that_nobody_touches_only_grow_by_blank_cells(ours: Path, theirs: Path) -> None:
    before = (ours / "offers.csv").read_text(encoding="utf-8").splitlines()
    done = merged(read_kept(ours), read_kept(with_sellers(theirs)))
    after = files_after(ours, done, write=False)["offers.csv"].splitlines()
    head, *rows = before
    assert after[0] == f"{head},seller,stock,price_two_or_more"
    assert [f"{row},,," for row in rows if not row.startswith("lemon")] == [
        row for row in after[1:] if not row.startswith("lemon")
    ]


def test_a_catalogue_without_sellers_takes_nothing_from_one_with(ours: Path, theirs: Path) -> None:
    with_sellers(ours)
    before = read_catalogue(ours)
    done = merged(read_kept(ours), read_kept(theirs), Winner.OURS)
    files_after(ours, done)
    after = read_catalogue(ours)
    assert after.sellers == before.sellers
    assert after.sets == before.sets
    assert set(before.tubes["lemon"].offers) <= set(after.tubes["lemon"].offers)


def test_a_new_price_keeps_the_stock_that_its_list_does_not_tell(ours: Path, theirs: Path) -> None:
    with_sellers(ours)
    with_sellers(theirs, "tube,ml,price,currency,seller\nlemon,5,3.70,EUR,stall\n")
    done = merged_prices(read_kept(ours), read_kept(theirs))
    assert done.packs == (PackChange("lemon", "5", "EUR", "3.70", "3.80", seller="stall"),)
    files_after(ours, done)
    assert Offer(5.0, 370, "EUR", "stall", 3, 360) in read_catalogue(ours).tubes["lemon"].offers


def test_another_stock_is_told(ours: Path, theirs: Path) -> None:
    with_sellers(ours)
    with_sellers(theirs, OFFERS.replace("stall,3,3.60", "stall,0,"))
    told = ("stock 0 instead of 3", "price_two_or_more blank instead of 3.60")
    done = merged_prices(read_kept(ours), read_kept(theirs))
    assert done.packs == (PackChange("lemon", "5", "EUR", "3.80", None, "stall", told),)
    files_after(ours, done)
    assert Offer(5.0, 380, "EUR", "stall", 0) in read_catalogue(ours).tubes["lemon"].offers
    with_sellers(ours)
    left = merged_prices(read_kept(ours), read_kept(theirs), Winner.OURS)
    assert left.packs == ()
    assert (
        "the pack of 5 ml of the tube 'lemon' at 'stall' has there stock 0 instead" in left.left[0]
    )


def test_prices_alone_bring_sellers_but_no_set_of_strange_tubes(
    ours: Path, theirs: Path, change: Change
) -> None:
    with_sellers(theirs)
    done = merged_prices(read_kept(ours), read_kept(theirs))
    assert {change.kind for change in done.changes} == {Kind.SELLER, Kind.SET}
    for table in ("tubes.csv", "tube_pigments.csv", "offers.csv"):
        text = (ours / table).read_text(encoding="utf-8")
        lines = [line for line in text.splitlines() if not line.startswith("deep-blue")]
        (ours / table).write_text("\n".join(lines) + "\n", encoding="utf-8")
    done = merged_prices(read_kept(ours), read_kept(theirs))
    assert [change.kind for change in done.changes] == [Kind.SELLER]
    looked_through(done.kept)


def test_other_terms_of_a_seller_are_a_conflict(ours: Path, theirs: Path, change: Change) -> None:
    with_sellers(ours)
    with_sellers(theirs)
    change(theirs, "sellers.csv", "market stall,,,", "market stall,2.50,,")
    done = merged(read_kept(ours), read_kept(theirs), Winner.THEIRS)
    files_after(ours, done)
    assert read_catalogue(ours).sellers["stall"].delivery == 250


def test_all_of_it_comes_into_an_empty_catalogue(tmp_path: Path, theirs: Path) -> None:
    with_sellers(theirs)
    done = merged(begun_catalogue(tmp_path / "mine"), read_kept(theirs))
    files = changed_files(None, done.kept)
    assert kept_table(files["offers.csv"]).columns == kept_table(OFFERS).columns
    assert {"sellers.csv", "sets.csv", "set_packs.csv"} <= set(files)


SHEET = """\
Artikel;Inhalt;Preis;Bei;Da;Ab zwei
lemon;5;3,70;market stall;4;3,50
Deep Blue;5;3,20;STALL;;
deep-blue;15;9,10;;;
"""
NAMES = """\
fills = "prices"
decimal = ","
[columns]
name = "Artikel"
ml = "Inhalt"
price = "Preis"
seller = "Bei"
stock = "Da"
price_two_or_more = "Ab zwei"
[always]
currency = "EUR"
"""


def imported(folder: Path, sheet: str, names: str = NAMES) -> Outcome:
    (folder.parent / "list.csv").write_text(sheet, encoding="utf-8")
    (folder.parent / "names.toml").write_text(names, encoding="utf-8")
    return sheet_imported(folder, folder.parent / "list.csv", folder.parent / "names.toml")


def test_a_sheet_may_name_sellers_stocks_and_prices_for_more(ours: Path) -> None:
    done = imported(with_sellers(ours), SHEET)
    for name, text in done.files.items():
        (ours / name).write_text(text, encoding="utf-8", newline="")
    read = read_catalogue(ours)
    assert read.tubes["lemon"].offers == (
        Offer(5.0, 400, "EUR"),  # that of no seller stays as it was
        Offer(5.0, 370, "EUR", "stall", 4, 350),
    )
    assert set(read.tubes["deep-blue"].offers) == {
        Offer(5.0, 350, "EUR"),
        Offer(5.0, 320, "EUR", "stall"),
        Offer(15.0, 910, "EUR"),
    }
    # One of the three is sold by nobody named, and the catalogue has a seller.
    (told,) = done.told
    assert told.startswith("1 pack of no seller: it is taken to be bought without delivery")


def test_without_sellers_nothing_is_said_of_them(ours: Path) -> None:
    plain = NAMES.replace('seller = "Bei"\n', "")
    sheet = "Artikel;Inhalt;Preis;Da;Ab zwei\nlemon;5;3,70;;\n"
    assert imported(ours, sheet, plain).told == ()


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("lemon;5;3,70;stal;;", "Bei is 'stal', which is no seller of the catalogue"),
        ("lemon;5;3,70;stall;1,5;", "stock is '1.5'; it must be a whole number"),
        ("lemon;5;3,70;stall;-1;", "Da is '-1'"),
        ("lemon;5;3,70;stall;;4,10", "above the price of one"),
        ("lemon;5;3,70;stall;1;\nlemon;5;3,70;stall;2;", "Da is 2, but 1 in list.csv, row 2"),
    ],
)
def test_a_fault_of_a_seller_or_stock_is_told(ours: Path, row: str, told: str) -> None:
    with pytest.raises(InputError) as error:
        imported(with_sellers(ours), SHEET.splitlines()[0] + f"\n{row}\n")
    assert any(told in str(fault) for fault in error.value.faults)


def test_a_pack_by_hand_may_name_its_seller(ours: Path) -> None:
    pack = WantedPack(Decimal(15), Decimal("9.10"))
    done = packs_added(with_sellers(ours), "lemon", [pack], seller="Market Stall")
    assert done.merged.packs == (PackChange("lemon", "15", "EUR", "9.10", None, seller="stall"),)
    assert done.told == ()
    unnamed = packs_added(ours, "lemon", [pack])
    assert [told[:20] for told in unnamed.told] == ["1 pack of no seller:"]
    with pytest.raises(InputError, match=r"seller: is 'Stal', which is no seller.*Did you mean"):
        packs_added(ours, "lemon", [pack], seller="Stal")


def test_a_seller_where_there_is_none_is_told(ours: Path) -> None:
    pack = WantedPack(Decimal(15), Decimal("9.10"))
    with pytest.raises(InputError, match=r"'stall', but the catalogue has no sellers"):
        packs_added(ours, "lemon", [pack], seller="stall")


def test_a_price_list_is_no_catalogue_to_bring_anything_into(tmp_path: Path) -> None:
    (tmp_path / "list").mkdir()
    folder = with_sellers(tmp_path / "list")
    with pytest.raises(InputError) as error:
        imported(folder, SHEET)
    (fault,) = error.value.faults
    assert fault.what.startswith("is a price list, which has no tubes")
