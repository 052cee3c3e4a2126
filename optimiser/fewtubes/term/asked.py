"""The scenarios of a folder, each read for itself: a fault in one is told of that one."""

from dataclasses import dataclass, replace
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import Fault, FewtubesError, InputError
from fewtubes.scenario.box_file import named_box, named_catalogue
from fewtubes.scenario.file_kind import FileKind, kind_of
from fewtubes.scenario.flower_file import named_flowers, with_flowers
from fewtubes.scenario.price_list import named_prices
from fewtubes.scenario.reading import read_scenario, scenario_files
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.toml_file import toml_values

__all__ = ["Asked", "faults_of", "read_folder"]


@dataclass(frozen=True, eq=False)
class Asked:
    """One scenario, by the name that its answer is kept under, or what is wrong with it."""

    name: str
    """Name of the file without its ending."""
    file: str
    """Name of the file; "" for a scenario that was read from none."""
    title: str = ""
    """What the scenario is called; "" where that could not be read."""
    catalogue: Catalogue | None = None
    """With the flowers that the scenario brings along; None after a fault."""
    scenario: Scenario | None = None
    """None after a fault."""
    faults: tuple[Fault, ...] = ()
    """What is wrong with it; none of a scenario that can be asked."""


def read_folder(
    folder: Path,
    catalogue: Path | None = None,
    *,
    flowers: Path | None = None,
    prices: Path | None = None,
) -> tuple[Asked, ...]:
    """Return the scenarios of a folder in the order of their names.

    Parameters
    ----------
    folder
        Boxes at home, layouts of cards and names of columns that are kept there are passed over,
        and so are hidden files.
    catalogue
        Folder of tables; None stands for those that a scenario's box names, or else the demo ones.
    flowers
        Table of flowers of one's own, which the scenarios may name.
    prices
        Folder of a price list to take instead of the catalogue's prices and of those that scenarios
        name.

    Raises
    ------
    InputError
        If the folder holds no scenario, or for the faults of the catalogue given.
    """
    shown = [path for path in scenario_files(folder) if not path.name.startswith(".")]
    paths = [path for path in shown if kind_of(path) is FileKind.SCENARIO]
    if not paths:
        what = "holds no scenario; put a file that ends in .toml there."
        raise InputError([Fault(str(folder), what)])
    tables = _Tables(catalogue, flowers, prices)
    tables.read(catalogue, prices)
    return tuple(_asked(path, tables) for path in paths)


def _asked(path: Path, tables: "_Tables") -> Asked:
    """Return the scenario of a file, or what is wrong with it."""
    asked = Asked(path.stem, path.name, _title(path))
    try:
        held = tables.of(path)
        scenario = tables.priced(read_scenario(path, held))
        return replace(asked, catalogue=tables.beside(held, named_flowers(path)), scenario=scenario)
    except FewtubesError as error:
        return replace(asked, faults=faults_of(error, path.name))


def _title(path: Path) -> str:
    """Return what a scenario's file calls it, whatever else is wrong with it; "" for nothing."""
    title = (toml_values(path, FaultCollector()) or {}).get("title")
    return composed(title.strip()) if isinstance(title, str) else ""


def faults_of(error: FewtubesError, file: str) -> tuple[Fault, ...]:
    """Return what is wrong; `file` is the name of the scenario's, "" for none."""
    if isinstance(error, InputError):
        return error.faults
    return (Fault(file, str(error)),)


class _Tables:
    """Catalogues, each read once, with price lists and tables of flowers."""

    def __init__(self, given: Path | None, flowers: Path | None, prices: Path | None) -> None:
        self._given = given
        self._flowers = flowers
        self._prices = prices
        self._read: dict[tuple[Path | None, Path | None], Catalogue] = {}
        self._beside: dict[tuple[int, Path], Catalogue] = {}

    def of(self, scenario: Path) -> Catalogue:
        """Return the tables that a scenario is read against."""
        folder = self._given or named_catalogue(named_box(scenario))
        return self.read(folder, self._prices or named_prices(scenario))

    def priced(self, scenario: Scenario) -> Scenario:
        """Return a scenario that says by which price list it is asked."""
        return scenario if self._prices is None else replace(scenario, prices=str(self._prices))

    def read(self, folder: Path | None, prices: Path | None) -> Catalogue:
        """Return a catalogue by a price list, read when it is first asked for."""
        if (folder, prices) not in self._read:
            tables = with_prices(self.read(folder, None), prices) if prices else None
            self._read[folder, prices] = tables or self.beside(
                read_catalogue(folder), self._flowers
            )
        return self._read[folder, prices]

    def beside(self, catalogue: Catalogue, flowers: Path | None) -> Catalogue:
        """Return a catalogue with the flowers of a table besides; None adds none."""
        if flowers is None:
            return catalogue
        key = (id(catalogue), flowers)
        if key not in self._beside:
            self._beside[key] = with_flowers(catalogue, flowers)
        return self._beside[key]
