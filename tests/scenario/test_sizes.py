"""A scenario beyond the limits is refused with a sentence, before it takes time."""

from pathlib import Path

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.sizes import (
    LARGEST_MEASUREMENT,
    LARGEST_SCENARIO,
    MOST_MEASURED,
    MOST_OWN_COLOURS,
    MOST_WISHED,
)
from fewtubes.scenario.reading import faults_of_scenario

HEAD = 'title = "x"\ncurrency = "EUR"\nbudget = 5\npaper = "plain"\nlight = "E"\n'
FLOWER = '[[flower]]\nname = "primrose"\n'


def told(tmp_path: Path, text: str, catalogue: Catalogue) -> list[str]:
    """Return the faults of a scenario's text."""
    path = tmp_path / "odd.toml"
    path.write_text(text, encoding="utf-8")
    return [str(fault) for fault in faults_of_scenario(path, catalogue)]


DEEP = (
    "odd.toml, line {}: holds a key of more than 8 parts joined by stops; no key here has more than"
    " two, so correct it."
)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (".".join(["a"] * 40_000) + " = 1\n", 1),  # 80 KB; some 20 s when tomllib reads it
        (HEAD + " . ".join(['"a b"'] * 20_000) + " = 1\n", 6),
        ("x = '''a\n#'''\n[" + ".".join(["a", "'b'"] * 5_000) + "]\n", 3),
        ("x = { " + ".".join(["a"] * 9) + " = 1 }\n", 1),
    ],
    ids=["bare", "quoted", "heading", "within"],
)
def test_a_deep_key_is_told_with_its_line(
    tmp_path: Path, catalogue: Catalogue, text: str, line: int
) -> None:
    assert told(tmp_path, text, catalogue) == [DEEP.format(line)]


def test_stops_in_texts_and_remarks_make_no_key(tmp_path: Path, catalogue: Catalogue) -> None:
    stops = "a.b.c.d.e.f.g.h.i.j"
    shows = f"shows = '''{stops}\n\"{stops}'''\n# \"{stops}\n"
    text = f'title = "{stops} \\"{stops}"\n' + HEAD.partition("\n")[2] + shows + FLOWER
    assert told(tmp_path, text, catalogue) == []


@pytest.mark.parametrize("number", ["9" * 5000, "-" + "9" * 5000, "1_" * 5000 + "1"])
def test_a_number_of_thousands_of_digits_is_told_in_plain_words(
    tmp_path: Path, catalogue: Catalogue, number: str
) -> None:
    text = f'title = "x"\nbudget = {number}\n'
    assert told(tmp_path, text, catalogue) == [
        "odd.toml, line 2: holds a number of thousands of digits; correct it."
    ]


def test_a_huge_file_is_told(tmp_path: Path, catalogue: Catalogue) -> None:
    text = HEAD + FLOWER
    (fault,) = told(tmp_path, text + "#" * (LARGEST_SCENARIO + 1 - len(text)), catalogue)
    assert fault == ("odd.toml: has 500,001 bytes; at most 500,000 are allowed, so shorten it.")


@pytest.mark.parametrize(
    ("entry", "key", "most"),
    [
        ('[[flower]]\nname = "weed {}"\n', "flower", MOST_WISHED),
        ('[[colour]]\nname = "mud {}"\nhex = "#665544"\n', "colour", MOST_OWN_COLOURS),
    ],
)
def test_entries_are_limited(
    tmp_path: Path, catalogue: Catalogue, *, entry: str, key: str, most: int
) -> None:
    text = HEAD + "".join(entry.format(number) for number in range(most + 1))
    assert told(tmp_path, text, catalogue) == [
        f"odd.toml, {key}: has {most + 1:,} entries; at most {most:,} are allowed, so shorten it."
    ]
    faults = told(tmp_path, HEAD + "".join(map(entry.format, range(most))), catalogue)
    assert not any("allowed" in fault for fault in faults)


def test_lists_of_tubes_are_limited(tmp_path: Path, catalogue: Catalogue) -> None:
    names = ", ".join(f'"tube-{number}"' for number in range(MOST_WISHED + 1))
    assert told(tmp_path, f"{HEAD}owned = [{names}]\n{FLOWER}", catalogue) == [
        "odd.toml, owned: has 1,001 entries; at most 1,000 are allowed, so shorten it."
    ]


def test_a_long_measurement_is_told(sound: Path, catalogue: Catalogue) -> None:
    moss, where = sound.parent / "moss.csv", "box.toml, colour 3, reflectance moss.csv: has"
    rows = "".join(f"{380 + number / 10},0.5\n" for number in range(MOST_MEASURED + 1))
    moss.write_text("nm,reflectance\n" + rows, encoding="utf-8")
    assert [str(fault) for fault in faults_of_scenario(sound, catalogue)] == [
        f"{where} more than 2,500 rows, which is the most allowed; shorten it."
    ]
    moss.write_text("x" * (LARGEST_MEASUREMENT + 1), encoding="utf-8")
    assert [str(fault) for fault in faults_of_scenario(sound, catalogue)] == [
        f"{where} 200,001 bytes; at most 200,000 are allowed, so shorten it."
    ]
