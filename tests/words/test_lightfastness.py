"""Which tubes fade, in words; that III to V fade is ASTM D4303's, from memory."""

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Lightfastness, Tube
from fewtubes.words.lightfastness import fade_sentence, graded_words


@pytest.fixture(scope="module")
def tubes() -> list[Tube]:
    return list(read_catalogue().tubes.values())


def test_every_tube_that_fades_is_named_with_its_grade_and_no_other(tubes: list[Tube]) -> None:
    fading = [tube for tube in tubes if tube.lightfastness.name in {"III", "IV", "V"}]
    assert 2 < len(fading) < len(tubes)
    said = fade_sentence(tubes)
    assert said.startswith("In light these fade: ")
    assert said.endswith(" To do without them, ask for lightfastness II or better.")
    for tube in fading:
        assert f"{tube.name} ({graded_words(tube.lightfastness)})" in said
    assert said.count("(I, ") + said.count("(II, ") == 0


def test_one_alone_is_told_as_one(tubes: list[Tube]) -> None:
    one = next(tube for tube in tubes if tube.lightfastness is Lightfastness.V)
    said = f"In light this one fades: {one.name} (V, very poor)."
    assert fade_sentence([one]) == f"{said} To do without it, ask for lightfastness II or better."
    assert fade_sentence([one], given=True) == said


def test_where_all_last_nothing_is_said(tubes: list[Tube]) -> None:
    assert fade_sentence(tube for tube in tubes if tube.lightfastness.name in {"I", "II"}) == ""
