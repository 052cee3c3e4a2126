"""Which names can be read, and which cannot be told apart."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.limits import text_fault
from fewtubes.catalogue.names import alike_key, composed, looks_blank


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Rose", "rose"),
        ("rosé", "rose\u0301"),  # Normalization Form D (Unicode Standard Annex 15)
        ("rose", "ro\u00adse"),
        ("rose", "rose\u3164"),
        ("rose red", "rose \u2800 red"),
        ("rose red", "rose\u00a0 red"),
        ("rose", "ｒｏｓｅ"),  # full width, as typed among Chinese or Japanese
        ("Straße", "STRASSE"),  # full case folding (Unicode Standard, section 5.18)
        ("heart", "heart\ufe0f"),
    ],
)
def test_names_that_a_reader_takes_for_one_another(one: str, other: str) -> None:
    assert alike_key(one) == alike_key(other)


@pytest.mark.parametrize(
    ("one", "other"), [("rose", "roses"), ("rose, red", "rose red"), ("rose", "rosé"), ("a1", "a2")]
)
def test_names_that_differ(one: str, other: str) -> None:
    assert alike_key(one) != alike_key(other)


@given(st.text(max_size=20))
def test_forms_and_capitals_never_tell_names_apart(name: str) -> None:
    for form in ("NFC", "NFD", "NFKC", "NFKD"):
        assert alike_key(unicodedata.normalize(form, name)) == alike_key(name)
    assert alike_key(alike_key(name)) == alike_key(name)
    assert composed(composed(name)) == composed(name)


@pytest.mark.parametrize(
    "text", ["", " ", "\u3164", "\u2800", "\u00a0\u2003", "\u0301", "\ue000", "\ufe0f\u034f"]
)
def test_what_looks_blank(text: str) -> None:
    assert looks_blank(text)
    assert text_fault(text) is not None


@pytest.mark.parametrize("sign", ["\u3164", "\u2800", "\u115f", "\uffa0"])
def test_an_invisible_sign_is_told_with_its_place(sign: str) -> None:
    assert text_fault(f"a{sign}") == (
        f"holds the invisible character U+{ord(sign):04X} at place 2; remove it"
    )


@pytest.mark.parametrize("text", ["❤\ufe0f", "rosé", "rose\u0301", "葛󠄀"])
def test_a_sign_that_shapes_the_one_before_is_none(text: str) -> None:
    # The last is a letter with an ideographic variation selector, U+E0100.
    assert text_fault(text) is None
