"""``fewtubes catalogue``: a catalogue of one's own, kept well."""

import typer

from fewtubes.command_line.catalogue.add import add
from fewtubes.command_line.catalogue.add_flower import add_flower
from fewtubes.command_line.catalogue.bring_in import bring_in
from fewtubes.command_line.catalogue.merge import merge
from fewtubes.command_line.catalogue.new import new

__all__ = ["catalogue"]

HELP = """Keep a catalogue of your own: begin it, add to it, merge and import.

Nothing is overwritten unless you say so, and a change is made whole or not at all.
"""

catalogue = typer.Typer(
    help=HELP,
    no_args_is_help=True,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)
catalogue.command()(new)
catalogue.command()(add)
catalogue.command(name="add-flower")(add_flower)
catalogue.command()(merge)
catalogue.command(name="import")(bring_in)
