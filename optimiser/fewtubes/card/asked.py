"""A card as it is asked for: the size of paper, and how many tubes or which."""

from collections.abc import Sequence

from fewtubes.card.arrangement import MOST_ROWS, PAPER_SIZES, ROWS_A_SHEET, arranged_card
from fewtubes.card.layout import CardLayout
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import NumberRange, shown, text_fault, word_fault
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.errors import suggestion

__all__ = ["PDF_NAME", "card_asked", "names_in"]

PDF_NAME = "card.pdf"
"""Of the file to print."""


def names_in(text: str) -> tuple[str, ...]:
    """Return the names of a list, set off by semicolons, or by commas where there is none."""
    sign = ";" if ";" in text else ","
    return tuple(composed(" ".join(name.split())) for name in text.split(sign))


def card_asked(
    *, paper_size: str = "A4", tubes: int | None = None, names: Sequence[str] | None = None
) -> CardLayout:
    """Return a card.

    Parameters
    ----------
    paper_size
        ``A4`` or ``Letter``; small letters will do.
    tubes
        Rows to be named by hand; one sheet full if neither they nor names are given.
    names
        A row a tube, its name printed.

    Raises
    ------
    InputError
        With every fault found, if there is any; its `where` is the parameter's name.
    """
    collector = FaultCollector()
    sizes = {size.lower(): size for size in PAPER_SIZES}
    size = sizes.get(paper_size.strip().lower())
    if size is None:
        offered = list(PAPER_SIZES)
        collector.note_fault("paper_size", word_fault(paper_size, offered, suggestion))
    if tubes is not None and names is not None:
        collector.note("tubes", "cannot be given together with names; leave out one of them.")
    if tubes is not None:
        fault = NumberRange(1, MOST_ROWS).fault(tubes, whole=True)
        collector.note_fault("tubes", fault)
    if names is not None:
        _check_names(names, collector)
    collector.raise_if_any()
    rows = [""] * (ROWS_A_SHEET if tubes is None else tubes) if names is None else names
    return arranged_card(size or "A4", rows)


def _check_names(names: Sequence[str], collector: FaultCollector) -> None:
    """Note names that cannot be printed, that look the same, or that are too many."""
    if len(names) > MOST_ROWS:
        collector.note("names", f"are {len(names):,}; at most {MOST_ROWS} fit: make several cards.")
        return
    seen: set[str] = set()
    for place, name in enumerate(names, start=1):
        fault = text_fault(name)
        if fault:
            collector.note_fault(f"names, entry {place}", fault)
        elif alike_key(name) in seen:
            collector.note("names", f"{shown(name)} stands there more than once; keep one of them.")
        seen.add(alike_key(name))
