"""A catalogue and scenarios put to the test, and the outcome in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from rich.console import Console

from fewtubes.card.layout_file import read_layout
from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.errors import Fault, InputError
from fewtubes.keeping.sheet_columns import read_sheet_columns
from fewtubes.report.sentences.namesakes import namesake_sentences
from fewtubes.report.terminal.layout import plain, put
from fewtubes.scenario.box_file import faults_of_box, named_box, named_catalogue
from fewtubes.scenario.called import id_is_a_name
from fewtubes.scenario.file_kind import FileKind, kind_of
from fewtubes.scenario.flower_file import with_flowers
from fewtubes.scenario.price_list import named_prices
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
    layouts: int = 0
    """Of cards of swatches."""
    columns: int = 0
    """Files that name the columns of a spreadsheet."""
    own_flowers: int = 0
    """Flowers that a table of one's own adds."""
    prices: Path | None = field(default=None, kw_only=True)
    """Folder of a price list in the place of the catalogue's prices; None without one."""
    priced: Catalogue | None = field(default=None, kw_only=True)
    """The catalogue with the prices of that list."""


def check_tables(
    folder: Path | None,
    scenarios: Sequence[Path],
    flowers: Path | None = None,
    prices: Path | None = None,
) -> CheckOutcome:
    """Check a catalogue, the demo catalogue for None, and scenarios against it.

    Parameters
    ----------
    folder
        Holds the catalogue's tables.
    scenarios
        Files, or folders of files; what else a painter keeps beside them, boxes at home, layouts of
        cards and names of columns, is known by its keys. A box, or a scenario that names one, is
        checked against the tables that the box names unless a catalogue is given, as it is used.
    flowers
        A table of flowers of one's own, which scenarios may name as well.
    prices
        Folder of a price list in the place of the catalogue's prices; one that a scenario names is
        looked through with it.

    Raises
    ------
    InputError
        With every fault found; those of scenarios only if the catalogue has none.
    """
    catalogue = read_catalogue(folder)
    priced = with_prices(catalogue, prices)
    beside = with_flowers(priced, flowers)
    paths, faults = _files(scenarios)
    kinds = [kind_of(path) for path in paths]
    tables = _Tables(beside, flowers, given=folder is not None)
    for path, kind in zip(paths, kinds, strict=True):
        faults += _faults(path, kind, tables)
    faults += tables.faults
    if faults:
        raise InputError(faults)
    own = len(beside.flowers) - len(catalogue.flowers)
    counts = CheckOutcome(catalogue, *(kinds.count(kind) for kind in FileKind))
    listed = None if prices is None else priced
    return replace(counts, own_flowers=own, prices=prices, priced=listed)


class _Tables:
    """The catalogue, and those that boxes name."""

    def __init__(self, catalogue: Catalogue, flowers: Path | None, *, given: bool) -> None:
        self._catalogue = catalogue
        self._flowers = flowers
        self._given = given
        self._named: dict[Path, Catalogue | None] = {}
        self.faults: list[Fault] = []
        """Of the catalogues that boxes name, and of price lists."""
        self._at_fault: set[Path] = set()

    def of(self, box: Path | None, prices: Path | None = None) -> Catalogue | None:
        """Return the tables that a box is of, with the prices of a list; None if at fault."""
        tables = self._of(box)
        if tables is None or prices is None:
            return tables
        try:
            return with_prices(tables, prices)
        except InputError as error:
            if prices not in self._at_fault:
                self._at_fault.add(prices)
                self.faults += error.faults
            return None

    def _of(self, box: Path | None) -> Catalogue | None:
        folder = None if self._given else named_catalogue(box)
        if folder is None:
            return self._catalogue
        if folder not in self._named:
            self._named[folder] = None
            try:
                self._named[folder] = with_flowers(read_catalogue(folder), self._flowers)
            except InputError as error:
                told = (replace(fault, where=f"{folder}, {fault.where}") for fault in error.faults)
                self.faults += told
        return self._named[folder]


def _faults(path: Path, kind: FileKind, tables: _Tables) -> Sequence[Fault]:
    """Return the faults of a file; none but its catalogue's where that has any."""
    if kind in {FileKind.LAYOUT, FileKind.COLUMNS}:
        try:
            read_layout(path) if kind is FileKind.LAYOUT else read_sheet_columns(path)
        except InputError as error:
            return error.faults
        return ()
    if kind is FileKind.BOX:
        catalogue = tables.of(path)
    else:
        catalogue = tables.of(named_box(path), named_prices(path))
    if catalogue is None:
        return ()
    faults_of = faults_of_box if kind is FileKind.BOX else faults_of_scenario
    return faults_of(path, catalogue)


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
            *_selling(catalogue),
        ]
    )
    put(console, plain(f"Sound: {printable(catalogue.label)}, with {held}."))
    if outcome.priced is not None:
        name = printable(str(outcome.prices))
        put(console, plain(f"Sound: price list {name}, with {_packs(outcome.priced)}."))
    for sentence in _remarks(catalogue):
        put(console, plain(sentence))
    for count, kind in (
        (outcome.scenarios, "scenario"),
        (outcome.boxes, "box/boxes"),
        (outcome.layouts, "layout of a card/layouts of cards"),
        (outcome.columns, "file of columns/files of columns"),
        (outcome.own_flowers, "flower of your own/flowers of your own"),
    ):
        if count:
            put(console, plain(f"Sound: {counted(count, kind)}."))


def _packs(priced: Catalogue) -> str:
    """Return what a price list holds, e.g. ``7 packs of 5 tubes, 2 sellers and 1 set``."""
    sold = [tube for tube in priced.tubes.values() if tube.offers]
    packs = counted(sum(len(tube.offers) for tube in sold), "pack")
    of_tubes = f" of {counted(len(sold), 'tube')}" if sold else ""
    return joined([f"{packs}{of_tubes}", *_selling(priced)])


def _selling(tables: Catalogue) -> list[str]:
    """Return how many sellers and sets there are, each where there is any."""
    held = ((len(tables.sellers), "seller"), (len(tables.sets), "set"))
    return [counted(number, thing) for number, thing in held if number]


def _remarks(catalogue: Catalogue) -> Iterator[str]:
    """Yield what is sound but worth knowing: names that are ids, tubes fitted, tubes not sold."""
    tubes = catalogue.tubes.values()
    fitted = [tube for tube in tubes if tube.fitted]
    in_sets = {id_ for tube_set in catalogue.sets.values() for id_ in tube_set.tubes}
    unsold = [tube for tube in tubes if not tube.offers and tube.id not in in_sets]
    yield from namesake_sentences(id_is_a_name(catalogue.tubes, catalogue.tubes))
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
