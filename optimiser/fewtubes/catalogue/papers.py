"""The papers, from `papers.csv`: reflectance as seen, surface included."""

from fewtubes.catalogue.limits import NumberRange, shown
from fewtubes.catalogue.records import Paper
from fewtubes.catalogue.repeats import Namesakes, Sightings
from fewtubes.catalogue.rows import BAND_COLUMNS
from fewtubes.catalogue.tables import ReadTable

__all__ = ["PAPER_COLUMNS", "PAPER_REFLECTANCE", "read_papers"]

PAPER_COLUMNS = ("paper", "name", *BAND_COLUMNS)

PAPER_REFLECTANCE = NumberRange(0.05, 1)
"""The surface alone sends back 0.04 (see `fewtubes.mixing.surface`), so no paper is darker."""


def read_papers(table: ReadTable) -> dict[str, Paper]:
    """Return the papers by id."""
    seen, names = Sightings(), Namesakes()
    papers: dict[str, Paper] = {}
    for row in table.rows:
        paper = Paper(
            id=row.identifier("paper"),
            name=row.text("name"),
            reflectance=row.spectrum(PAPER_REFLECTANCE),
        )
        if seen.is_new(row, (paper.id,), f"the paper {shown(paper.id)}"):
            names.note_any(row, paper.name, "the paper's name")
            papers[paper.id] = paper
    return papers
