"""``fewtubes page``: the same job in a browser, on this machine alone."""

import importlib.util
from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.question import BoxOption, FlowersOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsForEach
from fewtubes.defaults import PROOF_SECONDS

__all__ = ["page"]

PriceListsOption = Annotated[
    list[Path] | None,
    typer.Option(
        "--prices",
        metavar="FOLDER",
        help="Price list to buy by; repeatable, to choose from on the page.",
    ),
]

NEEDED = ("starlette", "uvicorn", "python_multipart", "PIL")
"""Packages of the extra `page`."""


def page(
    *,
    port: Annotated[
        int, typer.Option("--port", min=0, max=65535, help="0 takes any that is free.")
    ] = 0,
    no_browser: Annotated[
        bool, typer.Option("--no-browser", help="Only print the address.")
    ] = False,
    box: BoxOption = None,
    catalogue: CatalogueOption = None,
    prices: PriceListsOption = None,
    flowers: FlowersOption = None,
    seconds: SecondsForEach = PROOF_SECONDS,
    no_cache: NoCacheOption = False,
) -> None:
    """Open a page in the browser, to choose by sight.

    The page answers to this machine only and sends nothing anywhere. It remembers questions, and
    the tubes at home where no box is named, in a folder of your own (that in FEWTUBES_DATA, or the
    platform's usual place) until you let it forget them, and no photograph ever. Besides it writes
    what you save in the box named, and paints of your own that you add to the catalogue named.
    """
    from fewtubes.command_line.numbers import seconds_within
    from fewtubes.errors import Fault, InputError

    if any(importlib.util.find_spec(name) is None for name in NEEDED):
        what = "needs a few more packages; install them with: pip install 'fewtubes[page]'"
        raise InputError([Fault("fewtubes page", what)])

    from fewtubes.command_line.asked import cache_asked
    from fewtubes.page.data_folder import usual_folder
    from fewtubes.page.server import serve
    from fewtubes.page.settings import Settings
    from fewtubes.scenario.box_file import named_catalogue

    named = catalogue or named_catalogue(box)
    settings = Settings(
        port=port,
        catalogue=named,
        box=box,
        prices=tuple(prices or ()),
        flowers=None if flowers is None else _table(flowers, named),
        data=usual_folder(),
        cache=cache_asked(no_cache=no_cache).folder,
        seconds=seconds_within("--seconds", seconds),
    )
    try:
        serve(settings, opened=lambda address: _opened(address, show=not no_browser))
    except KeyboardInterrupt:
        typer.echo("closed")


def _table(flowers: Path, catalogue: Path | None) -> Path:
    """Return the table of flowers; one that is not there is told as by other commands."""
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import with_own_flowers

    if not flowers.exists():
        with_own_flowers(read_catalogue(catalogue), flowers)
    return flowers


def _opened(address: str, *, show: bool) -> None:
    """Say where the page is, and show it."""
    import webbrowser

    typer.echo(f"The page is at {address}\nClose it with Ctrl-C.")
    if show:
        webbrowser.open(address)
