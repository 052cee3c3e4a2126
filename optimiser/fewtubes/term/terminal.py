"""All answers in the terminal: a line for each scenario, or a paragraph where it is narrow."""

from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path

from rich.cells import cell_len
from rich.console import Console, JustifyMethod
from rich.table import Table

from fewtubes.report.terminal.layout import INDENT, bullet, heading, paragraph, plain, put
from fewtubes.term.answers_page import proof_label, reach_words, summary_words
from fewtubes.term.findings import Batch, BatchRow
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent

__all__ = ["print_batch"]

COMPUTED = "Paints are computed, not measured: try a mix before you rely on it."

LEAST_TITLE = 20
"""Room that titles must have for a table [signs]: three words or so."""

LONGEST_TITLE = 60
"""Signs of a title, so that it takes three or four lines of the narrowest table."""

WIDEST_PROOF = 14
"""Of the column of proofs [signs]: ``at most 99.9 %`` takes a line of its own below the rest."""

GAP = 2
"""Blanks between columns."""

LEFT = ("scenario", "proof", "lasts")
"""Columns of words."""

Cells = Mapping[str, str]
"""What a row shows, by the title of its column."""


def print_batch(batch: Batch, console: Console, *, out: Path | None) -> None:
    """Print the answers to all scenarios; `out` is where their results are."""
    put(console, plain("All scenarios", "bold"))
    paragraph(console, summary_words(batch))
    before = sum(row.done_before for row in batch.rows)
    if before:
        paragraph(console, f"{counted(before, 'scenario')} had been answered by an earlier run.")
    answered = [row for row in batch.rows if not row.failed]
    if answered:
        heading(console, "Answers")
        _print_answers(answered, console)
        paragraph(console, COMPUTED)
    _print_unreached(answered, console)
    if out is not None:
        console.print()
        written = f"Written to '{out}': answers.csv, answers.html"
        folders = f", and {counted(len(answered), 'folder')} of results" if answered else ""
        put(console, plain(f"{written}{folders}."))


def _print_answers(rows: Sequence[BatchRow], console: Console) -> None:
    """Print the answers as a table, or where that is too narrow each in two lines."""
    names = _names(rows)
    cells = [_cells(row) for row in rows]
    widths = {title: _width(title, cells) for title in cells[0]}
    room = console.width - sum(GAP + width for width in widths.values())
    if room >= LEAST_TITLE:
        put(console, _table(names, cells, {"scenario": room, **widths}))
        return
    for row, name in zip(rows, names, strict=True):
        bullet(console, name)
        paragraph(console, _sentence(row), indent=2 * INDENT)


def _cells(row: BatchRow) -> Cells:
    """Return what a row shows beside its name."""
    return {
        "covered": percent(row.coverage),
        "cost": money(row.cost, row.currency),
        "tubes": f"{len(row.bought)}",
        "proof": proof_label(row),
        "lasts": row.worst_lightfastness or "–",
        "out of reach": reach_words(row),
    }


def _width(title: str, cells: Sequence[Cells]) -> int:
    """Return how wide a column is, whose title may take a line for each word."""
    found = max(cell_len(text) for text in (*title.split(), *(row[title] for row in cells)))
    return min(found, WIDEST_PROOF) if title == "proof" else found


def _table(names: Sequence[str], cells: Sequence[Cells], widths: Mapping[str, int]) -> Table:
    """Return the table; only names and proofs are wrapped in it."""
    made = Table(box=None, pad_edge=False, padding=(0, GAP, 0, 0), header_style="bold")
    for title, width in widths.items():
        side: JustifyMethod = "left" if title in LEFT else "right"
        made.add_column(plain(title), justify=side, max_width=width, overflow="fold")
    for name, row in zip(names, cells, strict=True):
        made.add_row(plain(name), *map(plain, row.values()))
    return made


def _sentence(row: BatchRow) -> str:
    """Return a row's figures in words."""
    tubes = counted(len(row.bought), "tube") if row.bought else "nothing to buy"
    lasts = f", lasts {row.worst_lightfastness}" if row.worst_lightfastness else ""
    return (
        f"{percent(row.coverage)} covered, {money(row.cost, row.currency)}, {tubes},"
        f" {proof_label(row)}{lasts}, {reach_words(row)} colours missed."
    )


def _names(rows: Sequence[BatchRow]) -> list[str]:
    """Return what scenarios are called, with their files where they would be called the same."""
    short = [printable(row.title, LONGEST_TITLE) for row in rows]
    called = Counter(short)
    return [
        f"{name} ({printable(row.file)})" if called[name] > 1 and row.file else name
        for name, row in zip(short, rows, strict=True)
    ]


def _print_unreached(rows: Sequence[BatchRow], console: Console) -> None:
    """Print the flowers of which no colour is covered, by scenario; nothing if there are none."""
    told = [(name, row.unreached) for name, row in zip(_names(rows), rows, strict=True)]
    told = [(name, flowers) for name, flowers in told if flowers]
    if told:
        heading(console, "Not a colour is reached of")
    for name, flowers in told:
        bullet(console, f"{name}: {joined([printable(flower) for flower in flowers])}.")
