"""``fewtubes flowers``: what can be painted."""

from fewtubes.command_line.options.work import CatalogueOption, SearchText

__all__ = ["flowers"]


def flowers(text: SearchText = "", catalogue: CatalogueOption = None) -> None:
    """List flowers and leaves with their swatches."""
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.put_out import put_out
    from fewtubes.report.terminal.flowers import flowers_with, print_flowers

    tables = read_catalogue(catalogue)
    found = flowers_with(tables, text)
    put_out(lambda console: print_flowers(found, console, of=len(tables.flowers)))
