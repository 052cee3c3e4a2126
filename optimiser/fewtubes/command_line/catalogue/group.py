"""``fewtubes catalogue``: a catalogue of one's own, kept well."""

import typer

from fewtubes.command_line.catalogue.add import add
from fewtubes.command_line.catalogue.add_flower import add_flower
from fewtubes.command_line.catalogue.bring_in import bring_in
from fewtubes.command_line.catalogue.merge import merge
from fewtubes.command_line.catalogue.new import new
from fewtubes.command_line.grouped_help import GroupedCommand

__all__ = ["catalogue"]

HELP = """Keep a catalogue of your own.

Begin it, add to it, merge and import.
Nothing is overwritten unless you say so, and a change is made whole or not at all.
"""

catalogue = typer.Typer(
    help=HELP,
    no_args_is_help=True,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)
catalogue.command(cls=GroupedCommand)(new)
catalogue.command(cls=GroupedCommand)(add)
catalogue.command(name="add-flower", cls=GroupedCommand)(add_flower)
catalogue.command(cls=GroupedCommand)(merge)
catalogue.command(name="import", cls=GroupedCommand)(bring_in)
