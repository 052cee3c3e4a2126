"""All answers as one page: a file that needs no network, no script and no font of its own."""

from importlib.resources import files
from urllib.parse import quote

from markupsafe import Markup

from fewtubes.report.illustrated.markup import environment
from fewtubes.report.illustrated.page import style_digest
from fewtubes.term.answering import HANDOUT, PAGE
from fewtubes.term.findings import Batch, BatchRow
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.proof.choice import Standing, best_of_many, standing_label
from fewtubes.words.shares import percent

__all__ = ["RESULTS", "answers_page", "proof_label", "reach_words", "summary_words"]

RESULTS = ("plan.json", "shopping-list.csv", "recipes.csv", "puddles.csv")
"""Files of each scenario that the page leads to."""

FOR_CLASS = "for-the-class.csv"
"""One more of a class."""

LONGEST = 2000
"""Signs of a fault."""


def answers_page(batch: Batch, *, reports: bool) -> str:
    """Return the page; `reports` tells whether each scenario has an illustrated report."""
    style = (files("fewtubes.term") / "answers.css").read_text(encoding="utf-8")
    made = environment("fewtubes.term")
    return made.get_template("answers.html").render(
        style=Markup(style),  # noqa: S704  # our own file
        style_digest=style_digest(style),
        summary=summary_words(batch),
        rows=[_told(row, reports=reports) for row in batch.rows if not row.failed],
        failed=[_lost(row) for row in batch.failed],
    )


def summary_words(batch: Batch) -> str:
    """Return how many scenarios are answered, in a sentence."""
    answered = [row for row in batch.rows if not row.failed]
    proven = sum(row.proven for row in answered)
    if not answered:
        return f"None of {counted(len(batch.rows), 'scenario')} could be answered."
    lost = f", {len(batch.failed):,} could not be answered" if batch.failed else ""
    fitted = any(row.fitted for row in answered)
    best = best_of_many(proven, len(answered), fitted=fitted)
    if len(answered) == 1:
        best = proof_label(answered[0])
    return f"{counted(len(answered), 'scenario')} answered, {best}{lost}."


def proof_label(row: BatchRow) -> str:
    """Return how far an answer is proven, in a few words."""
    if row.proven:
        return standing_label(Standing.BEST, fitted=row.fitted)
    if row.most <= row.coverage:
        return standing_label(Standing.MOST_COVERED, fitted=row.fitted)
    return f"{standing_label(Standing.OPEN, fitted=row.fitted)}, at most {percent(row.most)}"


def reach_words(row: BatchRow) -> str:
    """Return how many colours are out of reach, e.g. ``5 of 39``."""
    return f"{row.out_of_reach:,} of {row.colours:,}"


def _title(row: BatchRow) -> str:
    return printable(row.title or row.file or row.name)


def _lost(row: BatchRow) -> dict[str, object]:
    """Return what the page shows of a scenario without an answer."""
    title, file = _title(row), printable(row.file)
    return {
        "title": title,
        "file": "" if title == file else file,
        "faults": [printable(fault, LONGEST) for fault in row.told],
    }


def _told(row: BatchRow, *, reports: bool) -> dict[str, object]:
    """Return what the page shows of an answer, as texts and links."""
    pages = [PAGE, *([HANDOUT] if row.for_class else [])] if reports else []
    names = [*pages, *RESULTS, *([FOR_CLASS] if row.for_class else [])]
    return {
        "title": _title(row),
        "file": printable(row.file or row.name),
        "proven": row.proven,
        "unreached": joined([printable(name) for name in row.unreached], last="or"),
        "coverage": percent(row.coverage),
        "cost": money(row.cost, row.currency),
        "bought": [printable(name) for name in row.bought],
        "proof": proof_label(row),
        "lightfastness": row.worst_lightfastness or "–",
        "reach": reach_words(row),
        "links": [(f"{quote(row.name)}/{quote(name)}", name) for name in names],
    }
