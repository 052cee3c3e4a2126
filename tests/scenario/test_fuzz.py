"""Whatever a scenario's file holds, the reader gives a scenario or a list of faults."""

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fewtubes.catalogue.records import Catalogue
from fewtubes.scenario.keys import CLASS_KEYS
from fewtubes.scenario.reading import faults_of_scenario

SOUND = """\
title = "t"
currency = "EUR"
budget = 12.50
most_tubes = 3
paper = "plain"
light = "E"
owned = ["lemon"]
[[flower]]
name = "cornflower"
importance = 2
[[colour]]
name = "c"
hex = "#c21e56"
[[colour]]
name = "d"
lab = [45, 30.5, -40]
[wishes]
lightfastness = "II"
avoid_hazards = ["any"]
thinnest_wash = 0.5
most_in_mix = 2
[class]
painters = 12
pictures = 2
tubes = "pans"
pan_millilitres = 2.5
pupils = "children"
"""

VALUES = (
    *(
        "1",
        "-1",
        "0",
        "1e400",
        "nan",
        "inf",
        "-0.0",
        "true",
        "0xffffffffffffffffffffffffffffffffff",
    ),
    *("9" * 5000, "0x" + "f" * 400, "1_0", '"3"', '"12,50"', "12,50", "1e-320", '"\u3164"'),
    *('""', '"x"', '"EUR"', '"any"', '"#ffffff"', "[]", "[[]]", "[1, 2, 3]", '["a", 1]', "{}"),
    *("{a = 1}", "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z", "[{}]", "'''\n'''", '"\\u0000"'),
)
"""Values of every TOML type, odd ones among them."""

KEYS = (
    *("title", "shows", "currency", "budget", "most_tubes", "tolerance", "paper", "light", "owned"),
    *(
        "prefer",
        "nearer",
        "must_have",
        "never",
        "flower",
        "colour",
        "wishes",
        "name",
        "importance",
        "hex",
        "lab",
    ),
    *("reflectance", "lightfastness", "transparency", "avoid_hazards", "millilitres", "odd"),
    *("class", "painters", "pictures", "tubes", "pan_millilitres", "levy", "pupils", "most_in_mix"),
)


@pytest.fixture(scope="module")
def path() -> Iterator[Path]:
    """Return a place for the file of every example."""
    with TemporaryDirectory() as home:
        yield Path(home) / "fuzz.toml"


def assert_told(path: Path, catalogue: Catalogue) -> None:
    """Read the scenario; faults must be whole sentences that print on one line."""
    for fault in faults_of_scenario(path, catalogue):
        assert str(fault).isprintable()
        assert "sys." not in str(fault)
        assert fault.what.endswith((".", "?"))


@settings(max_examples=200, deadline=None)
@given(data=st.data())
def test_mutated_bytes(path: Path, catalogue: Catalogue, data: st.DataObject) -> None:
    text = SOUND.encode()
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        length = data.draw(st.integers(0, 10))
        scrap = data.draw(st.sampled_from(VALUES).map(str.encode) | st.binary(max_size=3))
        text = text[:start] + scrap + text[start + length :]
    path.write_bytes(text)
    assert_told(path, catalogue)


@settings(max_examples=200, deadline=None)
@given(
    entries=st.lists(
        st.tuples(
            st.sampled_from(
                ["", "[[flower]]\n", "[[colour]]\n", "[wishes]\n", "[class]\n", "[odd]\n"]
            ),
            st.sampled_from(KEYS),
            st.sampled_from(VALUES),
        ),
        max_size=8,
    )
)
def test_any_value_at_any_key(
    path: Path, catalogue: Catalogue, entries: list[tuple[str, str, str]]
) -> None:
    lines = (f"{heading}{key} = {value}\n" for heading, key, value in entries)
    path.write_text("".join(lines), encoding="utf-8")
    assert_told(path, catalogue)


@settings(max_examples=100, deadline=None)
@given(content=st.binary(max_size=200))
def test_random_bytes(path: Path, catalogue: Catalogue, content: bytes) -> None:
    path.write_bytes(content)
    assert faults_of_scenario(path, catalogue)
    assert_told(path, catalogue)


def test_file_name_that_cannot_be_printed_is_told_escaped(path: Path, catalogue: Catalogue) -> None:
    path.write_text('[[colour]]\nname = "x"\nreflectance = "\\u0000"\n', encoding="utf-8")
    assert_told(path, catalogue)
    assert any("\\x00" in str(fault) for fault in faults_of_scenario(path, catalogue))


@pytest.mark.parametrize("key", CLASS_KEYS)
def test_any_value_in_a_class(path: Path, catalogue: Catalogue, key: str) -> None:
    for value in VALUES:
        others = "" if key == "painters" else "painters = 12\n"
        text = SOUND[: SOUND.index("[class]")]
        path.write_text(f"{text}[class]\n{others}{key} = {value}\n", encoding="utf-8")
        assert_told(path, catalogue)
