"""Names that are written into a table and read back from it as they were.

A cell that a spreadsheet may take for a formula gets an apostrophe before it (`cells`), within it
too where a semicolon may part cells. Read back, that apostrophe is no part of the name; one that
was there before is written twice, so that it stays.
"""

import re

from fewtubes.tables.cells import FORMULA_STARTS

__all__ = ["read_name", "written_name"]

_STARTS = f"[{re.escape(''.join(sorted(FORMULA_STARTS)))}]"

TO_DOUBLE = re.compile(rf"(^|; *)(?='+ *{_STARTS})")
"""Before an apostrophe of a name that reading it would take away."""

TO_DROP = re.compile(rf"(^|; *)'(?='* *{_STARTS})")
"""The apostrophe that was put there when the name was written."""


def written_name(name: str) -> str:
    """Return a name as it is to be given to `fewtubes.tables.cells.csv_text`."""
    return TO_DOUBLE.sub(r"\1'", name)


def read_name(cell: str) -> str:
    """Return the name that a cell holds, which was written as `written_name` gives it."""
    return TO_DROP.sub(r"\1", cell)
