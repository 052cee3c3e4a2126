"""The command ``fewtubes``: one module per command is gathered here.

Heavy packages are imported inside the commands, so that ``--help`` answers at once.
"""

import signal
import sys
from typing import Annotated

import typer

from fewtubes import __version__
from fewtubes.command_line.at_home import at_home
from fewtubes.command_line.batch import batch
from fewtubes.command_line.box import box
from fewtubes.command_line.card import card
from fewtubes.command_line.catalogue.group import catalogue
from fewtubes.command_line.check import check
from fewtubes.command_line.compare import compare
from fewtubes.command_line.failures import TellingGroup, stopped
from fewtubes.command_line.fit import fit
from fewtubes.command_line.flowers import flowers
from fewtubes.command_line.grouped_help import GroupedCommand
from fewtubes.command_line.instalments import instalments
from fewtubes.command_line.mix import mix
from fewtubes.command_line.page import page
from fewtubes.command_line.shop import shop
from fewtubes.command_line.tubes import tubes
from fewtubes.command_line.unmixable import unmixable
from fewtubes.command_line.why import why

__all__ = ["app", "run"]

HELP = """Choose the few watercolour tubes that mix most of a bouquet, within a budget.

What is toxic in a tube is for its label, its safety data sheet and qualified advice to say.
"""

app = typer.Typer(
    name="fewtubes",
    help=HELP,
    cls=TellingGroup,
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
COMMANDS = (
    shop, mix, flowers, tubes, check, why, box, at_home, unmixable, compare, instalments, batch,
    card, fit, page,
)  # fmt: skip
for command in COMMANDS:
    app.command(cls=GroupedCommand)(command)
app.add_typer(catalogue, name="catalogue")


def _print_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"fewtubes {__version__}")
        raise typer.Exit


@app.callback()
def _options(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_print_version, is_eager=True, help="Show the version and stop."
        ),
    ] = False,
) -> None:
    """Take the options that stand before a command."""


def run() -> None:
    """Run the command line of this process."""
    for stream in (sys.stdout, sys.stderr):
        # A sign that the terminal's encoding lacks, such as Δ, must not end the program.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        app()
    except KeyboardInterrupt as error:  # before a command had begun
        sys.exit(stopped(error).exit_code)
    finally:
        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # nothing is left to be tidied up


if __name__ == "__main__":
    run()
