"""``fewtubes at-home``: keep the file of the tubes at home."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options.output import named_path
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption
from fewtubes.files.real_path import real_path

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from fewtubes.catalogue.collector import FaultCollector
    from fewtubes.catalogue.records import Catalogue
    from fewtubes.scenario.home_box import BoxAtHome

__all__ = ["at_home"]

FULL = "full"


def at_home(
    *,
    box: Annotated[
        Path,
        typer.Argument(
            metavar="BOX.toml", parser=named_path, help="The file; it is made if it is not there."
        ),
    ],
    add: Annotated[
        list[str] | None,
        typer.Option("--add", metavar="NAME", help="A tube to put in, or to put anew; repeatable."),
    ] = None,
    left: Annotated[
        list[str] | None,
        typer.Option(
            "--left",
            metavar="HOW-FULL",
            help="Of those added: full, half, quarter, 'nearly empty', empty, or a share from 0 to"
            " 1; said once for all, or once for each --add in their order; full if not said.",
        ),
    ] = None,
    remove: Annotated[
        list[str] | None,
        typer.Option("--remove", metavar="NAME", help="A tube to take out; repeatable."),
    ] = None,
    catalogue: CatalogueOption = None,
    no_cache: NoCacheOption = False,
) -> None:
    """Keep the tubes at home in a file.

    Put tubes in, take them out, look at what is there. The file is plain text and may as well be
    written by hand; remarks in it are kept. A new one names the catalogue, if one is given, so that
    it need not be named again.
    """
    from fewtubes.command_line.asked import cache_asked
    from fewtubes.command_line.put_out import Files, put_out
    from fewtubes.comparison.box_contents import box_contents
    from fewtubes.report.terminal.box_contents import print_box_contents

    path = real_path(box)
    written = _written(path)
    tables, before, text = _as_it_is(path, catalogue, adding=bool(add))
    after = _changed(before, tables, path.name, add=add or (), left=left or (), remove=remove or ())
    contents = box_contents(tables, after, cache=cache_asked(no_cache=no_cache))
    files: Files = {path.parent: {path.name: _text(text, after)}} if add or remove else {}
    put_out(
        lambda console: print_box_contents(contents, console),
        files,
        told=f"Written: '{box}'.",
        earlier={path.parent: {path.name: written}},
    )


def _written(path: Path) -> bytes | None:
    """Return the file as it stands; None if it is not there, or cannot be read, which is told."""
    try:
        return path.read_bytes()
    except (OSError, ValueError):
        return None


def _as_it_is(
    path: Path, catalogue: Path | None, *, adding: bool
) -> "tuple[Catalogue, BoxAtHome, str | None]":
    """Return the catalogue, the box and the text of its file; no text if it is to be made."""
    import os

    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.scenario.box_file import named_catalogue, read_box
    from fewtubes.scenario.home_box import BoxAtHome

    if adding and not path.exists():
        folder = "" if catalogue is None else Path(os.path.relpath(catalogue, path.parent))
        named = folder if isinstance(folder, str) else folder.as_posix()
        return read_catalogue(catalogue), BoxAtHome(catalogue=named), None
    held = read_box(path)  # a tube that the catalogue lost can be taken out so
    return read_catalogue(catalogue or named_catalogue(path)), held, path.read_text("utf-8-sig")


def _changed(
    box: "BoxAtHome",
    tables: "Catalogue",
    name: str,
    *,
    add: "Sequence[str]",
    left: "Sequence[str]",
    remove: "Sequence[str]",
) -> "BoxAtHome":
    """Return the box, kept in a file of that name, with tubes put in and taken out.

    Raises
    ------
    InputError
        With every fault found, tubes that stay and are not in the catalogue included.
    """
    from fewtubes.catalogue.collector import FaultCollector
    from fewtubes.catalogue.limits import parsed_number, shown
    from fewtubes.scenario.called import id_of, looked_up, repeated
    from fewtubes.scenario.home_box import left_of, same_tube

    collector = FaultCollector()
    held = [tube.id for tube in box.tubes]
    called = {id_of(key, tables.tubes) or key: key for key in held}  # as the file calls them
    looked_up(add, tables.tubes, "tube", where="--add", collector=collector)
    typed = remove
    add, remove = (
        [
            called.get(id_of(one, tables.tubes) or one, id_of(one, tables.tubes) or one)
            for one in ids
        ]
        for ids in (add, remove)
    )
    shares = []
    for said in left or ["full"]:
        number = parsed_number(said)
        share, fault = left_of(said if number is None else number)
        collector.note_fault("--left", fault)
        shares.append(share)
    if left and not add:
        collector.note("--left", "is of the tubes that are put in; name them with --add.")
    elif len(shares) not in (1, len(add)):
        what = f"is said {len(left)} times; say it once for all that are added, or once for each."
        collector.note("--left", what)
    staying = [id_ for id_ in held if id_ not in remove and id_ not in add]
    looked_up(staying, tables.tubes, "tube", where=f"{name}, tubes", collector=collector)
    for before, again in repeated(staying, tables.tubes):
        collector.note_fault(f"{name}, tubes, {shown(again)[1:-1]}", same_tube(before))
    for id_, asked in zip(remove, typed, strict=True):
        if id_ in add:
            collector.note("--remove", f"{shown(id_)} is added as well; leave one of them out.")
        elif id_ not in held:
            near = "" if id_ in tables.tubes else _near(asked, called, tables, collector)
            collector.note("--remove", f"the tube {shown(asked)} is not in the box.{near}")
    collector.raise_if_any()
    box = box.without(remove)
    if len(shares) == 1:
        return box.with_tubes(add, shares[0])
    for id_, share in zip(add, shares, strict=True):
        box = box.with_tubes([id_], share)
    return box


def _near(
    asked: str, called: "Mapping[str, str]", tables: "Catalogue", collector: "FaultCollector"
) -> str:
    """Return which tubes of the box may be meant, by their names where they are known."""
    from fewtubes.scenario.likely_meant import tubes_meant

    known = {id_: tables.tubes[id_] for id_ in called if id_ in tables.tubes}
    near = tubes_meant(asked, known) if collector.may_compare(len(known)) else ""
    return near or collector.suggestion(asked, called.values())


def _text(text: str | None, box: "BoxAtHome") -> str:
    """Return what the file is to hold."""
    from fewtubes.scenario.box_text import box_text, edited_text

    return box_text(box) if text is None else edited_text(text, box)
