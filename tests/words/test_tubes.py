"""What stands on a tube."""

from types import SimpleNamespace
from typing import cast

from fewtubes.catalogue.records import Tube
from fewtubes.words.tubes import codes_words, packs_words


def test_each_pigment_is_named_once() -> None:
    tube = cast("Tube", SimpleNamespace(codes=("PR122", "PB29", "PR122")))
    assert codes_words(tube) == "PR122, PB29"


def test_pigments_that_are_not_known() -> None:
    assert codes_words(cast("Tube", SimpleNamespace(codes=()))) == "pigments not known"


def test_packs_by_number_and_content() -> None:
    assert packs_words([(2, 5.0), (1, 7.5)]) == "2 × 5 ml, 1 × 7.5 ml"
