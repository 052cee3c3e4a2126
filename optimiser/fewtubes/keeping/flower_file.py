"""A flower of the painter's own kept in a table, its other rows left as they were written.

The table is one of one's own flowers (`fewtubes.scenario.flower_file`), or the ``flowers.csv`` of a
catalogue's folder. A colour that a screen shows exactly is kept as the screen's, if the table has
a column for it, so that it is the same to the bit when it is read.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from os import PathLike
from pathlib import Path

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.exact import Number, exact
from fewtubes.catalogue.files import HeldFile, bytes_of, shown_name
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Catalogue, Flower, Swatch
from fewtubes.catalogue.sizes import LARGEST_TABLE
from fewtubes.colour.display import hex_to_lab, lab_to_hex
from fewtubes.errors import Fault, InputError
from fewtubes.files.real_path import real_path
from fewtubes.keeping.kept_table import (
    BYTE_ORDER_MARK,
    Cells,
    KeptRow,
    KeptTable,
    empty_table,
    kept_table,
)
from fewtubes.scenario.flower_file import FLOWER_FILE_COLUMNS, flowers_in
from fewtubes.scenario.own_flowers import OwnFlower, usual_importance
from fewtubes.tables.cells import cell_text
from fewtubes.tables.written_names import read_name

__all__ = ["KeptFlower", "kept_flower"]

CATALOGUE_TABLE = "flowers.csv"


@dataclass(frozen=True)
class KeptFlower:
    """What a table is to hold so that it keeps a flower; nothing is written yet."""

    path: Path
    """The table."""
    text: str
    """All that it is to hold."""
    before: bytes | None
    """What it holds; None if it is to be made."""
    told: str
    """What becomes of it, as a sentence."""

    @property
    def changes(self) -> bool:
        """Whether anything is to be written."""
        return self.before is None or self.text.encode("utf-8") != self.before

    @property
    def files(self) -> Mapping[Path, Mapping[str, str]]:
        """What is to be written, for `fewtubes.files.writing.write_together`."""
        return {self.path.parent: {self.path.name: self.text}} if self.changes else {}

    @property
    def earlier(self) -> Mapping[Path, Mapping[str, bytes | None]]:
        """What it was made from, for the same."""
        return {self.path.parent: {self.path.name: self.before}} if self.changes else {}


def kept_flower(
    flower: OwnFlower,
    path: str | PathLike[str],
    *,
    catalogue: Catalogue,
    replace: bool = False,
) -> KeptFlower:
    """Return a table of one's own flowers with one flower more.

    Parameters
    ----------
    flower
        Its colours as on a screen or in CIELAB; what it counts beside others is not kept, since
        that is a matter of the scenario.
    path
        The table, made if it is not there; a folder stands for the ``flowers.csv`` in it.
    catalogue
        Beside whose flowers they are to be named, whether it has those of the table or not.
    replace
        Whether a flower of the table gives way that has the same name, in any capitals.

    Raises
    ------
    InputError
        With every fault of the table as it is or as it would be; if there is such a flower with
        other colours; if a colour was measured, since that looks different in every light.
    """
    named, path = Path(path), _table_of(Path(path))
    before, table, there = _as_it_is(path)
    collector = FaultCollector()
    _note_unkeepable(flower, collector)
    collector.raise_if_any()
    others = {n: f for n, f in catalogue.flowers.items() if there.get(n) != f}
    met = _namesake(flower.name, there)
    if met is not None and flower.is_like(there[met]):
        told = f"{shown(flower.name)} is kept in '{named}' already, with these colours."
        return KeptFlower(path, _text(before), before, told)
    if met is not None and not replace:
        alike = "" if met == flower.name else f", as {shown(met)}"
        what = f"there is a flower {shown(flower.name)} already{alike}"
        advice = "give yours another name, or say that it is to be replaced"
        raise InputError([Fault(shown_name(path), f"{what}; {advice}.")])
    swatches = [one.seen(one.lab) for one in flower.swatches if one.lab is not None]
    after = _with_flower(table, flower.name, swatches, met)
    text = after.text()
    flowers_in(HeldFile(path.name, text.encode("utf-8")), others, collector)
    collector.raise_if_any()
    how = "in the place of the one before" if met is not None else "as one more"
    told = f"{shown(flower.name)} is kept in '{named}', {how}."
    return KeptFlower(path, text, before, told)


def _table_of(path: Path) -> Path:
    """Return the table itself, wherever links lead to."""
    return real_path(path / CATALOGUE_TABLE if path.is_dir() else path)


def _as_it_is(path: Path) -> tuple[bytes | None, KeptTable, Mapping[str, Flower]]:
    """Return what a file holds, the table in it, and its flowers; an empty one if there is none."""
    if not path.exists():
        return None, empty_table(FLOWER_FILE_COLUMNS), {}
    collector = FaultCollector()
    before = bytes_of(path, shown_name(path), collector, LARGEST_TABLE)
    collector.raise_if_any()
    held = HeldFile(path.name, before or b"")
    there = flowers_in(held, {}, collector, may_be_empty=True)
    collector.raise_if_any()
    return before, kept_table(_text(before)), there


def _text(data: bytes | None) -> str:
    """Return a sound table's text, its byte order mark included."""
    return (data or b"").decode("utf-8")


def _namesake(name: str, there: Mapping[str, Flower]) -> str | None:
    """Return what the table calls a flower of a name, in any capitals."""
    return next((met for met in there if alike_key(met) == alike_key(name)), None)


def _note_unkeepable(flower: OwnFlower, collector: FaultCollector) -> None:
    """Note colours that have no CIELAB of their own, and names that are taken for formulas."""
    for what, name in (("flower", flower.name), *(("swatch", s.name) for s in flower.swatches)):
        if cell_text(name) != name or read_name(name) != name:
            fault = "which a spreadsheet takes for a formula or cannot show; rename it"
            collector.note("name", f"of the {what} is {shown(name)}, {fault}.")
    for swatch in flower.swatches:
        if swatch.lab is None:
            advice = "a table of flowers keeps colours as hex or as L, a, b"
            collector.note("swatches", f"{shown(swatch.name)} is a measured spectrum; {advice}.")


def _with_flower(
    table: KeptTable, name: str, swatches: Sequence[Swatch], met: str | None
) -> KeptTable:
    """Return the table with the rows of a flower; those of `met` give way."""
    rows = [_cells(name, swatch, table.columns) for swatch in swatches]
    wanted = {column for cells in rows for column, cell in cells.items() if cell}
    table = _with_columns(table, [one for one in FLOWER_FILE_COLUMNS if one in wanted])
    rows = [{column: cells.get(column, "") for column in table.columns} for cells in rows]
    return table.with_things("flower", {met or name: rows})


def _cells(name: str, swatch: Swatch, columns: Sequence[str]) -> Cells:
    """Return the row of a colour, cells of other columns than the table's included if needed."""
    cells = {"flower": name, "swatch": swatch.name, "role": swatch.role.value}
    on_screen = lab_to_hex(np.array(swatch.lab)) if "hex" in columns else ""
    if on_screen and tuple(hex_to_lab(on_screen).tolist()) == swatch.lab:
        cells["hex"] = on_screen
    else:
        cells |= {one: _figure(value) for one, value in zip("Lab", swatch.lab, strict=True)}
    usual = usual_importance(swatch.role)
    if "importance" in columns or swatch.importance != usual:
        cells["importance"] = _figure(swatch.importance)
    return cells


def _figure(number: Number) -> str:
    """Return a number as a table holds it: all its digits, without an exponent."""
    share = exact(number)
    text = f"{Decimal(share.numerator) / Decimal(share.denominator):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _with_columns(table: KeptTable, needed: Sequence[str]) -> KeptTable:
    """Return the table with the columns that it lacks, behind its own; all is written anew then."""
    missing = [column for column in needed if column not in table.columns]
    if not missing:
        return table
    columns = (*table.columns, *missing)
    mark = BYTE_ORDER_MARK if table.head.startswith(BYTE_ORDER_MARK) else ""
    head = mark + ",".join(columns) + table.line_end
    rows = tuple(
        KeptRow({column: row.cells.get(column, "") for column in columns})
        for row in table.rows
        if row.cells
    )
    return replace(table, columns=columns, head=head, rows=rows)
