"""All answers in the terminal: a line for each scenario."""

from collections import Counter
from pathlib import Path

from rich.console import Console

from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.term.answers_page import proof_label, reach_words, summary_words
from fewtubes.term.findings import Batch
from fewtubes.words.counting import counted
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent

__all__ = ["print_batch"]

COMPUTED = "Paints are computed, not measured: try a mix before you rely on it."


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
        numbers = ("covered", "cost", "tubes", "out of reach")
        made = table(
            "scenario", "covered", "cost", "tubes", "proof", "lasts", "out of reach", right=numbers
        )
        titles = Counter(row.title for row in answered)
        for row in answered:
            aside = f" ({row.file})" if titles[row.title] > 1 else ""
            made.add_row(
                plain(printable(f"{row.title}{aside}")),
                percent(row.coverage),
                money(row.cost, row.currency),
                f"{len(row.bought)}",
                proof_label(row),
                row.worst_lightfastness or "–",
                reach_words(row),
            )
        put(console, made)
        paragraph(console, COMPUTED)
    if out is not None:
        console.print()
        written = f"Written to '{out}': answers.csv, answers.html"
        folders = f", and {counted(len(answered), 'folder')} of results" if answered else ""
        put(console, plain(f"{written}{folders}."))
