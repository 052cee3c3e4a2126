"""``fewtubes flowers``: what can be painted."""

from fewtubes.command_line.options import CatalogueOption, SearchText

__all__ = ["flowers"]


def flowers(text: SearchText = "", catalogue: CatalogueOption = None) -> None:
    """List flowers and leaves with their swatches."""
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.output import report_console
    from fewtubes.report.terminal.flowers import flowers_with, print_flowers

    tables = read_catalogue(catalogue)
    print_flowers(flowers_with(tables, text), report_console(), of=len(tables.flowers))
