"""``fewtubes catalogue import``: a plain spreadsheet is brought in."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.keeping import FromOption, IntoOption, KeepOption

__all__ = ["bring_in"]


def bring_in(
    sheet: Annotated[
        Path, typer.Argument(metavar="SHEET", help="A CSV file of any kind, or a workbook (XLSX).")
    ],
    *,
    columns: Annotated[
        Path,
        typer.Option(
            "--columns",
            metavar="NAMES.toml",
            help="Says once which column is what.",
        ),
    ],
    into: IntoOption,
    profiles_from: FromOption = None,
    keep: KeepOption = None,
) -> None:
    """Bring in tubes, prices or flowers from a plain spreadsheet.

    NAMES.toml says what the sheet fills (tubes, prices, flowers) and which heading stands for
    what. Prices touch no paint. Every fault is told with its row, and nothing is half added.
    """
    from fewtubes.command_line.catalogue.finishing import (
        catalogue_from,
        every_fault_told,
        finish,
        settle_folder,
        whose,
    )
    from fewtubes.keeping.sheet_import import sheet_imported

    with every_fault_told():
        winner = whose(keep)
        settle_folder(into)
        source = None if profiles_from is None else catalogue_from(profiles_from)
        change = sheet_imported(into, sheet, columns, profiles_of=source, keep=winner)
    finish(change)
