"""The box at home is read from its TOML file, whole or not at all, and fits its catalogue."""

from os import PathLike
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.sizes import MOST_WISHED
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.called import looked_up
from fewtubes.scenario.entries import Entries, is_number, to_float
from fewtubes.scenario.home_box import BoxAtHome, TubeAtHome, left_of, same_tube
from fewtubes.scenario.toml_file import toml_values

__all__ = ["BOX_KEYS", "faults_of_box", "named_box", "named_catalogue", "read_box"]

BOX_KEYS = ("title", "catalogue", "tubes")
"""At the top of the file."""


def read_box(path: str | PathLike[str], catalogue: Catalogue | None = None) -> BoxAtHome:
    r"""Return the box at home that a file keeps.

    Parameters
    ----------
    path
        The TOML file: under ``[tubes]`` the id of each tube and how full it is, ``"full"``,
        ``"half"``, ``"quarter"``, ``"nearly empty"``, ``"empty"`` or a share from 0 to 1; above
        that, if wanted, ``title`` and ``catalogue``, a folder as seen from that of the file.
    catalogue
        Is to hold the tubes, named by id or name; without one they are not looked up.

    Raises
    ------
    InputError
        With every fault found, if there is any.

    Examples
    --------
    >>> import tempfile, pathlib
    >>> from fewtubes import read_box, read_catalogue
    >>> path = pathlib.Path(tempfile.mkdtemp()) / "box.toml"
    >>> text = '[tubes]\nlemon = "half"\nultramarine = 0.8\nmagenta = "empty"\n'
    >>> _ = path.write_text(text, encoding="utf-8")
    >>> box = read_box(path, read_catalogue())
    >>> box.at_hand, box.left("lemon")
    (('lemon', 'ultramarine'), 0.5)
    """
    path, collector = Path(path), FaultCollector()
    values = toml_values(path, collector)
    collector.raise_if_any()
    top = Entries(path.name, values or {}, collector)
    top.check_keys(BOX_KEYS)
    title = top.text("title", "") if top.values.get("title", "") != "" else ""
    folder = top.text("catalogue") if "catalogue" in top.values else ""
    tubes = _tubes(top.table("tubes"), catalogue)
    collector.raise_if_any()
    return BoxAtHome(tubes, title=title, catalogue=folder)


def faults_of_box(path: Path, catalogue: Catalogue) -> tuple[Fault, ...]:
    """Return every fault of a box's file, none if it can be used."""
    try:
        read_box(path, catalogue)
    except InputError as error:
        return error.faults
    return ()


def named_catalogue(path: Path | None) -> Path | None:
    """Return the folder of tables that a box's file names; None if there is none, or on a fault.

    What is wrong with the file is told when it is read.
    """
    if path is None:
        return None
    values = toml_values(path, FaultCollector()) or {}
    folder = values.get("catalogue")
    return path.parent / folder if isinstance(folder, str) and folder.strip() else None


def named_box(scenario: Path) -> Path | None:
    """Return the box's file that a scenario's file names; None if there is none, or on a fault."""
    values = toml_values(scenario, FaultCollector()) or {}
    box = values.get("box")
    return scenario.parent / box if isinstance(box, str) and box.strip() else None


def _tubes(table: Entries, catalogue: Catalogue | None) -> tuple[TubeAtHome, ...]:
    """Return the tubes of the box; a fault names the tube."""
    if len(table.values) > MOST_WISHED:
        what = f"has {len(table.values):,} tubes; at most {MOST_WISHED:,} are allowed"
        table.collector.note(table.where, f"{what}, so shorten it.")
        return ()
    found: list[TubeAtHome] = []
    first: dict[str, str] = {}
    for key, value in table.values.items():
        id_ = composed(key)
        if catalogue is not None:
            where = f"{table.where}, {shown(id_)[1:-1]}"
            (id_,) = looked_up(
                [id_], catalogue.tubes, "tube", where=where, collector=table.collector
            )
            if id_ in first:
                table.note(shown(key)[1:-1], same_tube(first[id_]))
                continue
            first[id_] = key
        left, fault = left_of(to_float(value) if is_number(value) else value)
        if fault:
            table.note(shown(id_)[1:-1], fault)
            continue
        try:
            found.append(TubeAtHome(id_, left))
        except InputError as error:
            for wrong in error.faults:
                table.note(shown(id_)[1:-1], f"the {wrong.where} {wrong.what}")
    return tuple(found)
