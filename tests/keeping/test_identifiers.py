"""Ids made from names are ids, whatever the name."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.rows import is_identifier
from fewtubes.keeping.identifiers import LONGEST, identifier_for


@pytest.mark.parametrize(
    ("name", "made"),
    [
        ("Deep Blue", "deep-blue"),
        ("  Grün–Gelb (hell)! ", "grun-gelb-hell"),
        ("Weiß", "weiss"),
        ("painter's grey", "painters-grey"),
        ("PB29", "pb29"),
        ("胡粉", "tube"),
        ("--", "tube"),
    ],
)
def test_names_become_plain_words(name: str, made: str) -> None:
    assert identifier_for(name, []) == made


def test_a_taken_id_gets_a_number() -> None:
    assert identifier_for("rose", ["rose", "rose-2"]) == "rose-3"
    assert identifier_for("胡粉", ["tube"]) == "tube-2"


@given(st.text(max_size=200), st.integers(0, 3))
def test_every_name_gives_an_id_of_its_own(name: str, others: int) -> None:
    taken: list[str] = []
    for _ in range(others + 1):
        made = identifier_for(name, taken)
        assert is_identifier(made)
        assert made not in taken
        assert len(made) <= LONGEST + 2  # and a number
        taken.append(made)
