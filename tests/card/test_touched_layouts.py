"""Whatever somebody writes into a layout's file, a card is read or faults are told."""

import random
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.card.painted import PaintedCard

from fewtubes.card.layout_file import read_layout
from fewtubes.card.layout_text import layout_text
from fewtubes.card.reading import read_card
from fewtubes.errors import InputError

VALUES = (
    "0", "-1", "1e-9", "1e400", "nan", "inf", "1000", "250.5", "true", '"a"', "[]", "{}", "9" * 300,
    "[1]", "[[1, 2, 3, 4]]", "[0, 0, 1000, 1000]", "1979-05-27",
)  # fmt: skip

TOKEN = re.compile(r"\[[\d., ]+\]|\d+(?:\.\d+)?|\"[^\"]*\"")


@given(seed=st.integers(0, 2**32), touches=st.integers(1, 4))
@settings(max_examples=30, deadline=None)
def test_it_is_read_or_told(
    seed: int, touches: int, letter: PaintedCard, tmp_path_factory: pytest.TempPathFactory
) -> None:
    draw = random.Random(seed)  # noqa: S311  nothing secret hangs on it
    text = layout_text(letter.card)
    for _ in range(touches):
        place = draw.choice(list(TOKEN.finditer(text)))
        text = text[: place.start()] + draw.choice(VALUES) + text[place.end() :]
    path: Path = tmp_path_factory.mktemp("touched") / "card-layout.toml"
    path.write_text(text, encoding="utf-8")
    try:
        sheet = read_card(letter.photographs[0], read_layout(path))
    except InputError:
        return
    assert sheet.tubes
