"""All answers in the terminal: what tells scenarios apart, and how narrow it may be."""

import re
from dataclasses import replace
from io import StringIO

import pytest
from rich.cells import cell_len
from rich.console import Console

from fewtubes.term.findings import Batch, BatchRow
from fewtubes.term.terminal import print_batch

LONG = "Tulips in the long border behind the old greenhouse, for the second and the third year"

ROW = BatchRow(
    name="week",
    file="week.toml",
    title=LONG,
    currency="EUR",
    coverage=0.943,
    cost=123456,
    bought=("a", "b"),
    most=0.958,
    worst_lightfastness="III",
    out_of_reach=119,
    colours=229,
)


def _text(*rows: BatchRow, width: int = 160) -> str:
    console = Console(file=StringIO(), width=width)
    print_batch(Batch(rows), console, out=None)
    text: str = console.file.getvalue()  # type: ignore[attr-defined]
    return text


def _printed(*titles: str) -> str:
    rows = tuple(
        BatchRow(name=f"week-{n}", file=f"week-{n}.toml", title=title, currency="EUR")
        for n, title in enumerate(titles, start=1)
    )
    return _text(*rows)


def test_scenarios_of_one_title_are_told_apart_by_their_files() -> None:
    text = _printed("Tulips", "Tulips", "Roses")
    assert "Tulips (week-1.toml)" in text
    assert "Tulips (week-2.toml)" in text
    assert "week-3.toml" not in text


def test_so_are_titles_that_begin_with_the_same_words() -> None:
    text = _printed(f"{LONG}, again", f"{LONG}, and again")
    assert "(week-1.toml)" in text
    assert "(week-2.toml)" in text


@pytest.mark.parametrize("width", [28, 40, 60, 72, 80, 100])
def test_no_figure_is_cut_however_narrow(width: int) -> None:
    rows = [replace(ROW, title=title) for title in (LONG, "Roses", "W" * 90)]
    text = _text(*rows, width=width)
    assert all(cell_len(line) <= width for line in text.splitlines())
    whole = " ".join(text.split())
    figures = ("94.3 %", "EUR 1234.56", "95.8 %", "119 of 229")
    for figure in figures:
        assert whole.count(figure) == len(rows)


def test_a_table_stays_one_in_a_terminal_of_usual_width() -> None:
    text = _text(replace(ROW, title="Roses", cost=1234, out_of_reach=9, colours=23), width=80)
    assert any(line.startswith("scenario") for line in text.splitlines())
    assert re.search(r"Roses +94.3 % +EUR 12.34 +2 +not proven, at +III +9 of 23\n", text)
    assert re.search(r"\n +most 95.8 %\n", text)  # the rest of the proof, below


def test_flowers_out_of_reach_as_a_whole_are_named() -> None:
    text = _text(replace(ROW, title="Roses", unreached=("poppy", "fern")))
    assert "Not a colour is reached of" in text
    assert "Roses: poppy and fern." in text
    assert "Not a colour" not in _text(ROW)
