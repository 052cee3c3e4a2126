"""The faults of a catalogue as a list, for tests that look at each."""

from pathlib import Path

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.errors import Fault, InputError


def faults_of_catalogue(folder: Path | None = None) -> tuple[Fault, ...]:
    """Return every fault of a catalogue, of the demo catalogue for None; none if it can be used."""
    try:
        read_catalogue(folder)
    except InputError as error:
        return error.faults
    return ()
