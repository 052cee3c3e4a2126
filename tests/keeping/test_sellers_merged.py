"""Sellers, sets and what is told of packs besides their price survive bringing in and merging."""

from pathlib import Path

from tests.keeping.conftest import Change

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Offer
from fewtubes.keeping.beginning import begun_catalogue
from fewtubes.keeping.kept_catalogue import changed_files, looked_through, read_kept
from fewtubes.keeping.kept_table import kept_table
from fewtubes.keeping.merging import Merged, Winner, merged, merged_prices
from fewtubes.keeping.packs import PackChange
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
