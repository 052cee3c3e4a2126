"""A catalogue and scenarios put to the test, and the outcome in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.errors import Fault, InputError
from fewtubes.report.terminal.layout import plain, put
from fewtubes.scenario.box_file import faults_of_box, is_box_file
from fewtubes.scenario.reading import faults_of_scenario, scenario_files
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable
from fewtubes.words.tubes import FITTED, NOT_FOR_SALE

__all__ = ["CheckOutcome", "check_tables", "print_check"]

MOST_NAMED = 12
"""Tubes named in a remark."""


@dataclass(frozen=True, eq=False)
class CheckOutcome:
    """What was looked at, when nothing was wrong with it."""

    catalogue: Catalogue
    scenarios: int
    boxes: int = 0


def check_tables(folder: Path | None, scenarios: Sequence[Path]) -> CheckOutcome:
    """Check a catalogue, the demo catalogue for None, and scenarios against it.

    Parameters
    ----------
    folder
        Holds the catalogue's tables.
    scenarios
        Files, or folders of files; boxes at home among them are known by their table of tubes.

    Raises
    ------
    InputError
        With every fault found; those of scenarios only if the catalogue has none.
    """
    catalogue = read_catalogue(folder)
    paths, faults = _files(scenarios)
    boxes = [path for path in paths if is_box_file(path)]
    for path in paths:
        faults_of = faults_of_box if path in boxes else faults_of_scenario
        faults += faults_of(path, catalogue)
    if faults:
        raise InputError(faults)
    return CheckOutcome(catalogue, len(paths) - len(boxes), len(boxes))


def _files(scenarios: Sequence[Path]) -> tuple[list[Path], list[Fault]]:
    """Return the files, those of folders in the order of their names, and faults of folders."""
    paths: list[Path] = []
    faults: list[Fault] = []
    for path in scenarios:
        try:
            paths += scenario_files(path) if path.is_dir() else [path]
        except InputError as error:
            faults += error.faults
    return paths, faults


def print_check(outcome: CheckOutcome, console: Console) -> None:
    """Print what was looked at and found sound."""
    catalogue = outcome.catalogue
    held = joined(
        [
            counted(len(catalogue.tubes), "tube"),
            counted(len(catalogue.pigments), "pigment"),
            counted(len(catalogue.flowers), "flower"),
            counted(len(catalogue.papers), "paper"),
            counted(len(catalogue.lights), "light"),
        ]
    )
    put(console, plain(f"Sound: {printable(catalogue.label)}, with {held}."))
    for sentence in _remarks(catalogue):
        put(console, plain(sentence))
    for count, kind in ((outcome.scenarios, "scenario"), (outcome.boxes, "box/boxes")):
        if count:
            put(console, plain(f"Sound: {counted(count, kind)}."))


def _remarks(catalogue: Catalogue) -> Iterator[str]:
    """Yield what is sound but worth knowing: which tubes are fitted, which are not for sale."""
    tubes = catalogue.tubes.values()
    fitted = [tube for tube in tubes if tube.fitted]
    unsold = [tube for tube in tubes if not tube.offers]
    if fitted:
        yield f"{counted(len(fitted), 'tube')} {FITTED}: {_named(fitted)}."
    if unsold:
        yield (
            f"{counted(len(unsold), 'tube')} {NOT_FOR_SALE}, without a pack in offers.csv, so of"
            f" use only when owned: {_named(unsold)}."
        )


def _named(tubes: Sequence[Tube]) -> str:
    """Return the first tubes by id, and how many there are besides."""
    named = [printable(tube.id) for tube in tubes[:MOST_NAMED]]
    rest = len(tubes) - len(named)
    return joined([*named, f"{rest:,} more"] if rest else named)
