"""Where a report is written to, and how much of it is printed.

What is written and what is left out of a list differ from command to command, and so do the words.
"""

from pathlib import Path
from typing import Annotated

import typer
from typer.models import OptionInfo

from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = [
    "EarlierAllOption",
    "FullOption",
    "SpreadsheetOption",
    "all_option",
    "file_option",
    "folder_option",
    "named_path",
]


SpreadsheetOption = Annotated[
    Spreadsheet,
    typer.Option(
        "--spreadsheet",
        help="CSV files with commas and decimal points, or with semicolons and decimal commas.",
    ),
]


FullOption = Annotated[bool, typer.Option("--full", help="Print all there is, not the short form.")]


def named_path(text: str | Path) -> Path:
    """Return a path from its text; an empty one, as of an unset variable, is no place to write.

    What an option has by default comes here as it is.
    """
    if not str(text).strip():
        raise typer.BadParameter("the name is empty; give a folder or file, or . for this folder.")
    return Path(text)


def folder_option(words: str, name: str = "--out") -> OptionInfo:
    """Return an option that takes a folder to write to."""
    option: OptionInfo = typer.Option(name, parser=named_path, metavar="FOLDER", help=words)
    return option


def file_option(name: str, metavar: str, words: str) -> OptionInfo:
    """Return an option that takes a file to write."""
    option: OptionInfo = typer.Option(name, parser=named_path, metavar=metavar, help=words)
    return option


def all_option(words: str, *, hidden: bool = False) -> OptionInfo:
    """Return the option that prints a list in full."""
    option: OptionInfo = typer.Option("--all", help=words, hidden=hidden)
    return option


EarlierAllOption = Annotated[bool, all_option("The same as --full, its earlier name.", hidden=True)]
