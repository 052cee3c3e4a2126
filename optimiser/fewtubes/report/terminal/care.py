"""What calls for care in the tubes that an answer names, in the terminal."""

from collections.abc import Iterable

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.report.terminal.layout import heading, paragraph
from fewtubes.words.hazards import harm_words

__all__ = ["print_care"]


def print_care(tubes: Iterable[Tube], console: Console) -> None:
    """Print which of the tubes just named are harmful, and who decides."""
    heading(console, "Take care")
    paragraph(console, harm_words(tubes))
