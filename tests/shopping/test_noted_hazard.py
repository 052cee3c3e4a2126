"""A note on a hazard is a hazard, though no word stands beside it: told, and avoided."""

import csv
import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.faults import faults_of_catalogue

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Hazard
from fewtubes.report.json_values.plan import plan_json
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import shop
from fewtubes.words.hazards import avoided_words, care_words, hazard_words

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

NOTE = "holds arsenic; never lick the brush"

SCENARIO = """\
title = "t"
currency = "EUR"
budget = 4
paper = "plain"
light = "E"
tolerance = 20
owned = ["deep-blue"]
[[flower]]
name = "primrose"
[wishes]
avoid_hazards = [{}]
"""

Given = Callable[[str, str], Path]


@pytest.fixture
def given(tmp_path: Path) -> Given:
    """Return a function that sets hazard and note of the yellow pigment."""

    def with_hazard(hazard: str, note: str) -> Path:
        folder = Path(shutil.copytree(SMALL, tmp_path / "small"))
        path = folder / "pigments.csv"
        with path.open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        rows[1] |= {"hazard": hazard, "hazard_note": note}
        with path.open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, list(rows[0]))
            writer.writeheader()
            writer.writerows(rows)
        return folder

    return with_hazard


def asked(folder: Path, catalogue: Catalogue, avoided: str) -> Scenario:
    (folder / "a.toml").write_text(SCENARIO.format(avoided), encoding="utf-8")
    return read_scenario(folder / "a.toml", catalogue)


def answer(folder: Path, avoided: str) -> Plan:
    catalogue = read_catalogue(folder)
    return shop(catalogue, asked(folder, catalogue, avoided))


@pytest.mark.parametrize("word", ["", "other"])
def test_a_note_is_a_hazard_and_is_told(given: Given, word: str) -> None:
    catalogue = read_catalogue(given(word, NOTE))
    lemon, leaf = catalogue.tubes["lemon"], catalogue.tubes["leaf-green"]
    assert lemon.hazards == (Hazard.OTHER,)
    assert leaf.hazards == (Hazard.COBALT, Hazard.OTHER)
    assert hazard_words(lemon) == NOTE
    assert hazard_words(leaf) == f"cobalt and {NOTE}"
    assert care_words(lemon) == f"noted: {NOTE}"
    assert care_words(leaf) == f"holds cobalt; noted: {NOTE}; Do not breathe the dust"
    assert care_words(catalogue.tubes["deep-blue"]) == ""


def test_it_is_printed_with_the_plan_that_buys_it(given: Given) -> None:
    plan = answer(given("", NOTE), "")
    assert [tube.tube.id for tube in plan.bought] == ["lemon"]
    assert any(NOTE in caution.text and "Lemon" in caution.tubes for caution in plan.cautions)
    assert any(NOTE in caution["text"] for caution in json.loads(plan_json(plan))["cautions"])


@pytest.mark.parametrize("avoided", ['"any"', '"other"', '"lead", "other"'])
def test_it_is_avoided(given: Given, avoided: str) -> None:
    assert "lemon" not in [tube.tube.id for tube in answer(given("", NOTE), avoided).tubes]


def test_other_hazards_leave_it_in(given: Given) -> None:
    assert [tube.tube.id for tube in answer(given("", NOTE), '"lead"').bought] == ["lemon"]


def test_other_without_a_note_is_a_fault(given: Given) -> None:
    (fault,) = faults_of_catalogue(given("other", ""))
    assert fault.what == "hazard is 'other' but hazard_note is blank; say what care it calls for."


def test_what_is_avoided_is_said() -> None:
    assert avoided_words(list(Hazard)) == "nothing that the catalogue names as a hazard"
    assert avoided_words([Hazard.LEAD, Hazard.OTHER]) == "no lead or other hazard that is noted"


@pytest.mark.parametrize("avoided", ["nickel", "cobalt"])
def test_each_of_several_hazards_is_avoided_by_itself(given: Given, avoided: str) -> None:
    folder = given("nickel cobalt", NOTE)
    assert read_catalogue(folder).tubes["lemon"].hazards == (Hazard.COBALT, Hazard.NICKEL)
    assert "lemon" not in [tube.tube.id for tube in answer(folder, f'"{avoided}"').tubes]


def test_an_unknown_one_of_several_is_told(given: Given) -> None:
    (fault,) = faults_of_catalogue(given("nickel radium", NOTE))
    assert fault.what.startswith("hazard is 'radium'; allowed: cadmium, ")


def test_the_demo_names_every_metal_that_its_notes_name() -> None:
    """Otherwise a wish to avoid one would buy what the note warns of."""
    pigments = read_catalogue().pigments.values()
    for pigment in pigments:
        named = {hazard for hazard in Hazard if hazard.value in pigment.hazard_note}
        assert named == set(pigment.hazards), pigment.id
