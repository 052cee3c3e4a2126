"""``fewtubes card``: a card to paint swatches on."""

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import folder_option
from fewtubes.command_line.options.swatches import NamesOption

__all__ = ["card"]


def card(
    *,
    paper_size: Annotated[
        str, typer.Option("--paper-size", metavar="SIZE", help="A4 or Letter.")
    ] = "A4",
    tubes: Annotated[
        int | None,
        typer.Option("--tubes", metavar="N", help="Rows to be named by hand; 8 fill a sheet."),
    ] = None,
    names: NamesOption = None,
    out: Annotated[
        Path | None,
        folder_option("Write card.pdf and card-layout.toml there; in this folder if not said."),
    ] = None,
) -> None:
    """Draw a card to paint swatches of your own tubes on.

    Paint it, photograph or scan it, and `fewtubes fit` makes tubes of it.
    """
    from fewtubes.card.asked import PDF_NAME, card_asked, names_in
    from fewtubes.card.drawing import card_pdf
    from fewtubes.card.layout_text import LAYOUT_NAME, check_no_other, layout_text
    from fewtubes.command_line.put_out import put_out
    from fewtubes.errors import InputError
    from fewtubes.report.terminal.card import print_card

    named = None if names is None else names_in(names)
    try:
        asked = card_asked(paper_size=paper_size, tubes=tubes, names=named)
    except InputError as error:
        told = [replace(fault, where=_option(fault.where)) for fault in error.faults]
        raise InputError(told) from error
    text = layout_text(asked)
    folder = out or Path()
    check_no_other(folder / LAYOUT_NAME, text, folder / PDF_NAME)
    put_out(
        lambda console: print_card(asked, folder, console),
        {folder: {PDF_NAME: card_pdf(asked), LAYOUT_NAME: text}},
    )


def _option(parameter: str) -> str:
    """Return the option that gives a parameter, with what follows it, such as an entry."""
    return f"--{parameter.replace('_', '-')}"
