"""``fewtubes flowers``: what can be painted."""

from fewtubes.command_line.options import CatalogueOption, SearchText

__all__ = ["flowers"]


def flowers(text: SearchText = "", catalogue: CatalogueOption = None) -> None:
    """List flowers and leaves with their swatches."""
    from fewtubes.catalogue.reading import read_catalogue  # noqa: PLC0415
    from fewtubes.command_line.output import report_console  # noqa: PLC0415
    from fewtubes.report.terminal.flowers import flowers_with, print_flowers  # noqa: PLC0415

    tables = read_catalogue(catalogue)
    print_flowers(flowers_with(tables, text), report_console(), of=len(tables.flowers))
