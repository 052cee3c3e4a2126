"""What ``fewtubes check`` finds sound is what the other commands can use."""

import io
from collections.abc import Callable
from pathlib import Path
from shutil import copytree

import pytest
from rich.console import Console

from fewtubes.card.arrangement import arranged_card
from fewtubes.card.layout_text import layout_text
from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.comparison.box_contents import box_contents
from fewtubes.coverage.cache import Cache
from fewtubes.errors import InputError
from fewtubes.report.terminal.box_contents import print_box_contents
from fewtubes.report.terminal.check import check_tables, print_check
from fewtubes.scenario.home_box import BoxAtHome

SCENARIO = (
    'title = "x"\ncurrency = "EUR"\nbudget = 9\nbox = "box.toml"\n[[flower]]\nname = "foxglove"\n'
)

COLUMNS = 'fills = "prices"\n[columns]\ntube = "id"\nml = "ml"\nprice = "p"\ncurrency = "c"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a catalogue that holds a tube the demo lacks, and a box of it."""
    copytree(demo_catalogue_folder(), tmp_path / "mine")
    for table, row in (
        ("tubes.csv", "my-blue,my blue,1,"),
        ("tube_pigments.csv", "my-blue,pb29-ultramarine,1"),
    ):
        path = tmp_path / "mine" / table
        path.write_text(path.read_text(encoding="utf-8") + f"{row}\n", encoding="utf-8")
    (tmp_path / "box.toml").write_text('catalogue = "mine"\n[tubes]\nmy-blue = "half"\n', "utf-8")
    (tmp_path / "question.toml").write_text(SCENARIO, encoding="utf-8")
    (tmp_path / "card-layout.toml").write_text(layout_text(arranged_card("A4", [""])), "utf-8")
    (tmp_path / "columns.toml").write_text(COLUMNS, encoding="utf-8")
    return tmp_path


def faults(*asked: Path, catalogue: Path | None = None) -> list[str]:
    with pytest.raises(InputError) as told:
        check_tables(catalogue, asked)
    return [str(fault) for fault in told.value.faults]


def test_everything_that_a_painter_keeps_is_known(folder: Path) -> None:
    found = check_tables(None, [folder])
    assert (found.scenarios, found.boxes, found.layouts, found.columns) == (1, 1, 1, 1)


def test_a_box_is_checked_against_the_tables_that_it_names(folder: Path) -> None:
    """As `shop` and `at-home` read it; a catalogue that is given goes before."""
    asked = (folder / "box.toml", folder / "question.toml")
    assert check_tables(None, asked).boxes == 1
    assert check_tables(folder / "mine", asked).boxes == 1
    told = faults(*asked, catalogue=demo_catalogue_folder())
    assert [line.split(":")[0] for line in told] == [
        "box.toml, tubes, my-blue",
        "question.toml, box box.toml, tubes, my-blue",
    ]


def test_faults_of_the_tables_that_boxes_name_are_told_once(folder: Path) -> None:
    tubes = folder / "mine" / "tubes.csv"
    tubes.write_text(tubes.read_text(encoding="utf-8").replace("my-blue,my blue,1", "my-blue,,1"))
    assert faults(folder) == [f"{folder / 'mine'}, tubes.csv, row 74: name is blank; fill it in."]
    (folder / "box.toml").write_text('catalogue = "no"\n[tubes]\nmy-blue = "half"\n', "utf-8")
    (told,) = faults(folder)
    assert told.startswith(f"{folder / 'no'}, ")


def test_faults_of_a_layout_and_of_names_of_columns_are_told(folder: Path) -> None:
    layout, columns = folder / "card-layout.toml", folder / "columns.toml"
    layout.write_text(layout.read_text(encoding="utf-8").replace('unit = "mm"', 'unit = "inch"'))
    columns.write_text(COLUMNS.replace('price = "p"\n', ""), encoding="utf-8")
    assert [line.split(":")[0] for line in faults(folder)] == [
        "card-layout.toml, unit",
        "columns.toml, columns",
    ]


def test_a_tube_called_as_another_one_s_id_is_told(folder: Path) -> None:
    """By `check` of all tubes, and of the box by whatever looks into it."""
    tubes = folder / "mine" / "tubes.csv"
    text = tubes.read_text(encoding="utf-8").replace("my-blue,my blue,", "my-blue,Rose,")
    tubes.write_text(text, encoding="utf-8")
    said = "'rose' is taken for rose (quinacridone), whose id it is; for the other tube, which is"
    outcome = check_tables(folder / "mine", [])
    assert said in printed(lambda console: print_check(outcome, console))
    box = BoxAtHome(["Rose", "magenta"])
    contents = box_contents(outcome.catalogue, box, cache=Cache())
    assert [tube.id for tube, _ in contents.id_is_a_name] == ["rose"]
    assert said in printed(lambda console: print_box_contents(contents, console))


def test_a_price_list_is_named_with_what_it_holds(tmp_path: Path) -> None:
    """Two packs of one tube and one of another; the sellers are the list's, not the catalogue's."""
    prices = tmp_path / "spring"
    prices.mkdir()
    offers = "tube,ml,price,currency,seller\nlemon,5,3,EUR,n\nlemon,15,6,EUR,n\nrose,5,4,EUR,n\n"
    (prices / "offers.csv").write_text(offers, encoding="utf-8")
    seller = "seller,name,delivery,free_from,least_order,currency,note\nn,north,1,,,EUR,\n"
    (prices / "sellers.csv").write_text(seller, encoding="utf-8")

    def told(prices: Path | None) -> list[str]:
        outcome = check_tables(None, (), prices=prices)
        return printed(lambda console: print_check(outcome, console)).splitlines()

    catalogue, *rest = told(prices)
    assert rest == [f"Sound: price list {prices}, with 3 packs of 2 tubes and 1 seller."]
    assert told(None) == [catalogue]
    (prices / "offers.csv").write_text("tube,ml,price,currency\n", encoding="utf-8")
    (prices / "sellers.csv").unlink()
    assert told(prices)[1:] == [f"Sound: price list {prices}, with 0 packs."]


def printed(show: Callable[[Console], None]) -> str:
    stream = io.StringIO()
    show(Console(file=stream, width=1000, color_system=None, _environ={}))
    return stream.getvalue()
