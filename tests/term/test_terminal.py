"""All answers in the terminal: what tells scenarios apart."""

from io import StringIO

from rich.console import Console

from fewtubes.term.findings import Batch, BatchRow
from fewtubes.term.terminal import print_batch


def _printed(*titles: str) -> str:
    rows = tuple(
        BatchRow(name=f"week-{n}", file=f"week-{n}.toml", title=title, currency="EUR")
        for n, title in enumerate(titles, start=1)
    )
    console = Console(file=StringIO(), width=160)
    print_batch(Batch(rows), console, out=None)
    text: str = console.file.getvalue()  # type: ignore[attr-defined]
    return text


def test_scenarios_of_one_title_are_told_apart_by_their_files() -> None:
    text = _printed("Tulips", "Tulips", "Roses")
    assert "Tulips (week-1.toml)" in text
    assert "Tulips (week-2.toml)" in text
    assert "week-3.toml" not in text
