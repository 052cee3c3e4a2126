"""A fault is told once, with its cause first, and is not made into others that are untrue."""

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.faults import faults_of_catalogue

Change = Callable[[str, str, str], None]


def told(folder: Path) -> list[str]:
    return [str(fault) for fault in faults_of_catalogue(folder)]


def test_an_unknown_hazard_is_not_taken_for_another(folder: Path, change: Change) -> None:
    change("pigments.csv", "cobalt,Do not breathe the dust.", "arsenic,")
    faults = told(folder)
    assert faults[0] == (
        "pigments.csv, row 4: hazard is 'arsenic' but hazard_note is blank; say what care it calls"
        " for."
    )
    assert faults[1].startswith("pigments.csv, row 4: hazard is 'arsenic'; allowed: cadmium, ")
    assert len(faults) == 2


@pytest.mark.parametrize(
    ("table", "old"), [("tubes.csv", "deep-blue,Deep"), ("pigments.csv", "blue,PB29")]
)
def test_a_faulty_id_is_told_before_what_follows_from_it(
    folder: Path, change: Change, table: str, old: str
) -> None:
    change(table, old, f"Odd {old}")
    first, *rest = told(folder)
    assert first.startswith(f"{table}, row 2: ")
    assert "an id is made of plain lower-case letters" in first
    assert rest
    assert all(f"is not in {table}" in fault for fault in rest)


def test_numbers_that_cannot_be_read_repeat_nothing(folder: Path, change: Change) -> None:
    change("offers.csv", "deep-blue,5,", "deep-blue,five,")
    change("offers.csv", "deep-blue,15,", "deep-blue,fifteen,")
    assert [fault.partition(" is ")[0] for fault in told(folder)] == [
        "offers.csv, row 2: ml",
        "offers.csv, row 3: ml",
    ]


def test_blank_names_repeat_nothing(folder: Path, change: Change) -> None:
    change("flowers.csv", "cornflower,heart", ",heart")
    change("flowers.csv", "primrose,face", ",heart")
    assert told(folder) == [
        f"flowers.csv, row {row}: flower is blank; fill it in." for row in (3, 4)
    ]


def test_a_spectrum_of_an_unknown_quantity_is_neither_of_the_two(
    folder: Path, change: Change
) -> None:
    change("spectra.csv", "yellow,K", "yellow,k")
    change("spectra.csv", "yellow,S", "yellow,s")
    assert [fault.partition(";")[0] for fault in told(folder)] == [
        "spectra.csv, row 4: quantity is 'k'",
        "spectra.csv, row 5: quantity is 's'",
    ]


def test_a_blank_name_of_a_light_differs_from_no_other(folder: Path, change: Change) -> None:
    change("lights.csv", "Equal energy,380", ",380")
    assert told(folder) == ["lights.csv, row 2: name is blank; fill it in."]
