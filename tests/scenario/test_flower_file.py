"""Tables of flowers of one's own: what they may hold, and how they stand beside a catalogue."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.flowers import FLOWER_COLUMNS
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.colour.display import hex_to_lab
from fewtubes.errors import InputError
from fewtubes.scenario.flower_file import (
    FLOWER_FILE_COLUMNS,
    flowers_in,
    named_flowers,
    with_flowers,
)
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.reading import faults_of_scenario, read_scenario
from fewtubes.scenario.wanted import FlowerWish

Change = Callable[[str, str], Path]

MINE = """\
flower,swatch,role,hex,L,a,b,importance
my iris,light edge,petal light,#c9b6e4,,,,
my iris,fall,petal,,49.5,33,-39.25,0.3
garden pea,wing,petal,#E7A0C0,,,,
"""

SPOILT = [
    ("petal light", "petel light", 2, "Did you mean 'petal light'?"),
    ("#c9b6e4", "c9b6e4", 2, "hex is 'c9b6e4'; it must be written as # and six digits"),
    ("#c9b6e4", "", 2, "the colour is given in no way; fill in either hex or the three of L, a, b"),
    ("#c9b6e4,", "#c9b6e4,50", 2, "the colour is given in 2 ways ('hex'; 'L, a, b'); fill in"),
    ("49.5,33,", "49.5,,", 3, "a is blank; it must be a number from -150 to 150"),
    ("49.5", "149.5", 3, "L is '149.5'; it must be from 0 to 100"),
    (",0.3", ",0", 3, "importance is '0'; it must be"),
    ("garden pea,", "MY IRIS,", 4, "the flower 'MY IRIS' cannot be told from 'my iris' in row 2"),
    ("iris,fall", "iris,Light edge", 3, "the swatch 'Light edge' cannot be told from 'light edge'"),
    ("iris,fall", "iris,light edge", 3, "is already in row 2; keep only one of them"),
    ("garden pea", "cornflower", 4, "there is a flower 'cornflower' already; give yours another"),
    (
        "garden pea",
        "CornFlower",
        4,
        "there is a flower 'CornFlower' already, as 'cornflower';",
    ),
    ("garden pea", "", 4, "flower is blank"),
]


def table(text: str) -> HeldFile:
    """Return a table in memory."""
    return HeldFile("mine.csv", text.encode())


def test_its_columns_are_the_catalogues_and_a_screen_colour() -> None:
    assert set(FLOWER_FILE_COLUMNS) == {*FLOWER_COLUMNS, "hex"}


def test_flowers_stand_beside_those_of_the_catalogue(catalogue: Catalogue) -> None:
    both = with_flowers(catalogue, table(MINE))
    assert [*both.flowers] == [*catalogue.flowers, "my iris", "garden pea"]
    edge, fall = both.flowers["my iris"].swatches
    assert (edge.name, edge.role, edge.importance) == ("light edge", Role.PETAL_LIGHT, 2)
    np.testing.assert_array_equal(edge.lab, hex_to_lab("#c9b6e4"))  # held to IEC 61966-2-1 there
    assert fall.lab == (49.5, 33.0, -39.25)
    assert float(fall.importance) == 0.3
    assert both.tubes is catalogue.tubes
    assert with_flowers(catalogue, None) is catalogue


def test_the_same_table_may_be_named_twice(catalogue: Catalogue) -> None:
    once = with_flowers(catalogue, table(MINE))
    assert with_flowers(once, table(MINE)).flowers == once.flowers


def test_a_catalogues_own_table_will_do(catalogue: Catalogue) -> None:
    own = Path(__file__).parents[1] / "catalogue" / "small_catalogue" / "flowers.csv"
    assert with_flowers(catalogue, own).flowers == catalogue.flowers


@pytest.mark.parametrize(("old", "new", "row", "what"), SPOILT)
def test_a_spoilt_row_is_told(
    catalogue: Catalogue, *, old: str, new: str, row: int, what: str
) -> None:
    assert MINE.count(old) >= 1
    with pytest.raises(InputError) as caught:
        with_flowers(catalogue, table(MINE.replace(old, new, 1)))
    assert any(
        fault.where == f"mine.csv, row {row}" and what in fault.what
        for fault in caught.value.faults
    ), caught.value.faults


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("flower,swatch,role\na,b,petal\n", "the colour is given in no way"),
        ("flower,swatch,role,L,a\na,b,petal,1,2\n", "CIELAB needs the columns b as well; add them"),
        ("flower,swatch,hex\na,b,#123456\n", "these columns are missing: role"),
        ("flower,swatch,role,colour\na,b,petal,#123456\n", "unknown column 'colour'"),
        ("flower;swatch;role;hex\na;b;petal;#123456\n", "parted by semicolons"),
        ("flower,swatch,role,hex\n", "holds a header but no rows"),
        (
            "flower,swatch,role,hex\n" + "".join(f"a,{n},bud,#123456\n" for n in range(101)),
            "the flower 'a' has 101 colours; at most 100 are allowed, so leave some out.",
        ),
    ],
)
def test_a_spoilt_table_is_told(catalogue: Catalogue, *, text: str, what: str) -> None:
    with pytest.raises(InputError, match="mine") as caught:
        with_flowers(catalogue, table(text))
    assert any(what in fault.what for fault in caught.value.faults), caught.value.faults


def test_an_empty_table_is_none_where_that_will_do(catalogue: Catalogue) -> None:
    collector = FaultCollector()
    header = table("flower,swatch,role,hex\n")
    assert flowers_in(header, catalogue.flowers, collector, may_be_empty=True) == {}
    assert collector.is_empty


def test_a_scenario_names_a_table_beside_it(change: Change, catalogue: Catalogue) -> None:
    path = change("owned =", 'flowers = "mine.csv"\nowned =')
    path.write_text(path.read_text().replace('"primrose"', '"My  Iris"\nimportance = 0.5'))
    (path.parent / "mine.csv").write_text(MINE)
    assert named_flowers(path) == path.parent / "mine.csv"
    scenario = read_scenario(path, catalogue)
    wish, iris = scenario.flowers
    assert isinstance(wish, FlowerWish)
    assert isinstance(iris, OwnFlower)  # so that the scenario can be asked of any catalogue
    assert (iris.name, float(iris.importance)) == ("my iris", 0.5)
    beside = with_flowers(catalogue, path.parent / "mine.csv")
    assert iris.is_like(beside.flowers["my iris"])
    for tables in (catalogue, beside):
        assert settled_names(scenario, tables).flowers[1] is iris
    assert read_scenario(path, beside).flowers[1].name == "my iris"


def test_a_fault_of_a_named_table_is_told_with_the_scenario(
    change: Change, catalogue: Catalogue
) -> None:
    path = change("owned =", 'flowers = "mine.csv"\nowned =')
    (fault,) = faults_of_scenario(path, catalogue)
    assert fault.where == "box.toml, flowers mine.csv"
    assert "there is no such file" in fault.what
    (path.parent / "mine.csv").write_text(MINE.replace("#c9b6e4", "#c9b6"))
    (fault,) = faults_of_scenario(path, catalogue)
    assert fault.where == "box.toml, flowers mine.csv, row 2"


@pytest.mark.parametrize("value", ['["cornflower"]', "3", '""'])
def test_a_list_of_names_is_told_to_be_no_file(
    change: Change, catalogue: Catalogue, value: str
) -> None:
    path = change("owned =", f"flowers = {value}\nowned =")
    (fault,) = faults_of_scenario(path, catalogue)
    assert fault.where == "box.toml, flowers"
    assert "stands under [[flower]]" in fault.what or "is blank" in fault.what
    assert named_flowers(path) is None


def test_flowers_of_a_table_may_not_be_given_other_colours(
    change: Change, catalogue: Catalogue
) -> None:
    own = '[[flower]]\nname = "My Iris"\n[[flower.swatch]]\nname = "a"\nrole = "bud"\n'
    path = change('[[flower]]\nname = "primrose"\n', f'{own}hex = "#123456"\n')
    path.write_text(f'flowers = "mine.csv"\n{path.read_text()}')
    (path.parent / "mine.csv").write_text(MINE)
    (fault,) = faults_of_scenario(path, catalogue)
    assert fault.where == "box.toml, flower 2, name"
    assert "there is a flower 'My Iris' already, as 'my iris'" in fault.what


@pytest.mark.parametrize(
    ("value", "table"),
    [
        ('"mine.csv"', None),
        ('"mine.csv"', "flower;swatch;role;hex\nmy iris;fall;petal;#123456\n"),
        ('"mine.csv"', "flower,swatch\nmy iris,fall\n"),
        ("3", None),
    ],
)
def test_of_a_table_that_cannot_be_read_no_flower_is_said_to_be_missing(
    change: Change, catalogue: Catalogue, value: str, table: str | None
) -> None:
    """It may well hold them; that it cannot be read is the one thing to put right."""
    path = change("owned =", f"flowers = {value}\nowned =")
    path.write_text(path.read_text().replace('"primrose"', '"my iris"'))
    if table is not None:
        (path.parent / "mine.csv").write_text(table)
    (fault,) = faults_of_scenario(path, catalogue)
    assert fault.where.startswith("box.toml, flowers")


def test_of_a_table_with_a_faulty_row_what_it_lacks_is_said_all_the_same(
    change: Change, catalogue: Catalogue
) -> None:
    path = change("owned =", 'flowers = "mine.csv"\nowned =')
    path.write_text(path.read_text().replace('"primrose"', '"my irs"'))
    (path.parent / "mine.csv").write_text(MINE.replace("#c9b6e4", "#c9b6"))
    row, flower = faults_of_scenario(path, catalogue)
    assert row.where == "box.toml, flowers mine.csv, row 2"
    assert "'my irs' is not in the catalogue. Did you mean 'my iris'?" in flower.what
