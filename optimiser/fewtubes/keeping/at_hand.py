"""The papers and lights at hand where swatches are fitted into a catalogue."""

from dataclasses import replace
from pathlib import Path

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.keeping.beginning import tables_in
from fewtubes.keeping.kept_catalogue import looked_through, read_kept

__all__ = ["papers_and_lights"]


def papers_and_lights(folder: Path | None) -> Catalogue:
    """Return a catalogue whose papers and lights swatches may have been painted on and seen under.

    Parameters
    ----------
    folder
        Of a catalogue that may lack anything yet, or become one: what it lacks is the demo's. None
        for the demo alone.

    Raises
    ------
    InputError
        With every fault of the tables that are there.
    """
    demo = read_catalogue()
    if folder is None or not tables_in(folder):
        return demo
    own = looked_through(read_kept(folder))
    return replace(demo, papers=own.papers or demo.papers, lights=own.lights or demo.lights)
