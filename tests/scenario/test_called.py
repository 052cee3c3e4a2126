"""Names and ids in any capitals lead to the same thing, wherever they are given."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError
from fewtubes.report.sentences.asked import wish_words
from fewtubes.report.sentences.namesakes import namesake_sentences
from fewtubes.scenario.box_file import read_box
from fewtubes.scenario.called import id_is_a_name, id_of, looked_up, repeated
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.names import named_tubes, settled_names
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario, Wishes


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def test_every_tube_of_the_demo_is_found_by_what_is_printed_of_it(demo: Catalogue) -> None:
    for id_, tube in demo.tubes.items():
        for called in (id_, id_.upper(), tube.name, tube.name.title(), f" {tube.name}  "):
            assert id_of(called, demo.tubes) == id_, called
    for name in demo.flowers:
        assert id_of(name.upper(), demo.flowers) == name


def test_an_id_goes_before_a_name() -> None:
    class Named:
        def __init__(self, name: str) -> None:
            self.name = name

    held = {"rose": Named("magenta"), "magenta": Named("rose red")}
    assert id_of("magenta", held) == "magenta"
    assert id_of("MAGENTA", held) == "magenta"
    assert id_of("Rose Red", held) == "magenta"
    assert id_of("pink", held) is None


def test_a_name_that_two_tubes_bear_is_taken_for_neither(demo: Catalogue) -> None:
    tubes = {id_: demo.tubes[id_] for id_ in ("lemon", "magenta", "rose")}
    tubes |= {id_: replace(tubes[id_], name="My Paint") for id_ in ("lemon", "rose")}
    collector = FaultCollector()
    found = looked_up(["my paint", "rose"], tubes, "tube", where="owned", collector=collector)
    assert found == ("my paint", "rose")
    assert id_of("my paint", tubes) is None
    with pytest.raises(
        InputError,
        match="2 tubes of the catalogue are called 'my paint'; give the id of the one meant:"
        " lemon, rose",
    ):
        collector.raise_if_any()


def test_two_names_of_one_tube_are_one(demo: Catalogue) -> None:
    collector = FaultCollector()
    names = ["lemon", "Lemon yellow (benzimidazolone)", "LEMON"]
    found = looked_up(names, demo.tubes, "tube", where="owned", collector=collector)
    assert found == ("lemon",)
    assert collector.is_empty


def test_a_scenario_from_python_may_name_things(demo: Catalogue) -> None:
    named = Scenario(
        budget=9,
        currency="EUR",
        flowers=[("Rose, Red", 2), "PRIMROSE"],
        wishes=Wishes(
            owned=("Magenta (quinacridone)",),
            never=("Violet, ready-mixed",),
            box=BoxAtHome({"Lemon yellow (benzimidazolone)": "half"}),
        ),
        paper=demo.papers["cotton-white"].name.upper(),
        light="d65",
    )
    settled = settled_names(named, demo)
    assert [(wish.name, wish.importance) for wish in settled.flowers] == [
        ("rose, red", 2),
        ("primrose", 1),
    ]
    assert settled.wishes.owned == ("magenta",)
    assert settled.wishes.never == ("violet-mixed",)
    assert settled.wishes.box == BoxAtHome({"lemon": "half"})
    assert (settled.paper, settled.light) == ("cotton-white", "D65")
    assert settled_names(settled, demo) is settled


def test_one_tube_cannot_be_owned_and_refused_under_two_names(demo: Catalogue) -> None:
    wishes = Wishes(owned=("magenta",), never=("Magenta (quinacridone)",))
    scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"], wishes=wishes)
    with pytest.raises(InputError, match="the tube 'magenta' is also in owned"):
        settled_names(scenario, demo)


def test_one_flower_is_not_asked_for_under_two_names(demo: Catalogue) -> None:
    wanted = {"primrose": 1, "rose, red": 1}
    scenario = Scenario(budget=9, currency="EUR", flowers=wanted)
    with pytest.raises(InputError, match="the flower 'primrose' is named twice"):
        with_overrides(scenario, catalogue=demo, flowers=["primrose", "Primrose"])


def test_a_file_may_name_things(demo: Catalogue, tmp_path: Path) -> None:
    box = tmp_path / "box.toml"
    box.write_text('[tubes]\n"Ultramarine blue" = "half"\nLEMON = "full"\n', encoding="utf-8")
    path = tmp_path / "question.toml"
    path.write_text(
        'title = "x"\ncurrency = "EUR"\nbudget = 9\nbox = "box.toml"\n'
        'never = ["Rose (quinacridone)"]\n[[flower]]\nname = "Tulip, RED"\n',
        encoding="utf-8",
    )
    asked = read_scenario(path, demo)
    assert asked.flowers[0].name == "tulip, red"
    assert asked.wishes.never == ("rose",)
    assert asked.wishes.all_owned == ("ultramarine", "lemon")
    box.write_text('[tubes]\nlemon = "half"\nLEMON = "full"\n', encoding="utf-8")
    with pytest.raises(InputError, match="LEMON: is the same tube as 'lemon'"):
        read_box(box, demo)


def test_an_unknown_tube_is_answered_with_names_that_can_be_typed(demo: Catalogue) -> None:
    collector = FaultCollector()
    looked_up(["qqq"], demo.tubes, "tube", where="owned", collector=collector)
    with pytest.raises(InputError) as told:
        collector.raise_if_any()
    said = str(told.value)
    assert "is not in the catalogue. It holds none like it; spelt most like it: '" in said
    assert " more" not in said  # the rest of the catalogue is not like it either
    assert said.endswith("'.")
    offered = re.findall(r"'([^']+)'", said.partition("like it: ")[2])
    assert len(offered) == 6
    assert all(demo.tubes[str(id_of(name, demo.tubes))].name == name for name in offered)


def test_a_scenario_tells_its_tubes_by_name(demo: Catalogue) -> None:
    wishes = Wishes(
        owned=("lemon",),
        must_have=("magenta",),
        never=("rose",),
        box=BoxAtHome({"ultramarine": "half"}),
    )
    scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"], wishes=wishes)
    named = named_tubes(scenario, demo)
    assert named == {
        id_: demo.tubes[id_].name for id_ in ("lemon", "magenta", "rose", "ultramarine")
    }
    assert wish_words(wishes, named) == (
        "in any case magenta (quinacridone); never rose (quinacridone); 2 tubes owned already, in"
        " the box at home ultramarine blue (half full)"
    )


def test_which_of_two_tubes_a_text_stands_for_is_told(demo: Catalogue) -> None:
    """Lemon is called as the id of another; an id goes before a name, whatever is written."""
    tubes = {id_: demo.tubes[id_] for id_ in ("lemon", "magenta", "rose")}
    tubes["lemon"] = replace(tubes["lemon"], name="MAGENTA")
    assert id_of("Magenta", tubes) == "magenta"
    (pair,) = id_is_a_name(tubes, tubes)
    assert [tube.id for tube in pair] == ["magenta", "lemon"]
    assert namesake_sentences([pair]) == [
        "'magenta' is taken for magenta (quinacridone), whose id it is; for the other tube, which"
        " is called so, write its id, 'lemon'."
    ]
    assert id_is_a_name(["lemon", "rose"], tubes) == ()  # their own ids stand for them alone
    assert id_is_a_name(demo.tubes, demo.tubes) == ()


def test_a_tube_called_by_its_own_id_is_no_other(demo: Catalogue) -> None:
    tubes = {"rose": replace(demo.tubes["rose"], name="Rose")}
    assert id_is_a_name(tubes, tubes) == ()


def test_two_names_of_one_tube_are_found(demo: Catalogue) -> None:
    names = ["lemon", "rose", "Lemon yellow (benzimidazolone)", "qqq", "ROSE"]
    assert [*repeated(names, demo.tubes)] == [
        ("lemon", "Lemon yellow (benzimidazolone)"),
        ("rose", "ROSE"),
    ]


@pytest.mark.parametrize("second", ["Magenta (quinacridone)", "MAGENTA"])
def test_one_tube_under_two_names_in_a_box_is_told_with_both(
    demo: Catalogue, tmp_path: Path, second: str
) -> None:
    path = tmp_path / "box.toml"
    path.write_text(f'[tubes]\nmagenta = "half"\n"{second}" = "full"\n', encoding="utf-8")
    said = "is the same tube as 'magenta', which stands there before it; keep one of the two."
    with pytest.raises(InputError) as told:
        read_box(path, demo)
    assert str(told.value) == f"box.toml, tubes, {second}: {said}"
    wishes = Wishes(box=read_box(path))
    scenario = Scenario(budget=9, currency="EUR", flowers=["primrose"], wishes=wishes)
    with pytest.raises(InputError) as told:
        settled_names(scenario, demo)
    assert str(told.value) == f"box: '{second}' {said}"
