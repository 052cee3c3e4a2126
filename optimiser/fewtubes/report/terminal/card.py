"""What to do with a card, in the terminal."""

from pathlib import Path

from rich.console import Console

from fewtubes.card.layout import CardLayout
from fewtubes.card.layout_text import LAYOUT_NAME
from fewtubes.report.terminal.layout import heading, paragraph, plain, put
from fewtubes.words.counting import counted

__all__ = ["print_card"]

STEPS = (
    "Print it at actual size on the watercolour paper you paint on, if your printer takes its"
    " weight; else cut the corner marks out of a print, tape them to that paper just as far apart,"
    " and trace the boxes. Ink the bars over where the printed black runs when wet.",
    "Mix each tube's full strength, as strong as you would ever lay a flowing stroke, like cream,"
    " and let it down with measured water, drop by drop: half is one part and one of water, a"
    " quarter one and three, an eighth one and seven.",
    "Paint a row a tube: full strength, half, quarter, eighth, and full strength across the bar."
    " Keep the paper between the boxes clean, and let it dry.",
    "Photograph it sharp and straight from above, in daylight without shine, with all four corner"
    " marks; or scan it.",
)

CARE = (
    "Do not lick brushes, and keep paint from children; the label and the safety data sheet tell"
    " what else a paint asks for."
)


def print_card(card: CardLayout, folder: Path, console: Console) -> None:
    """Print how the card is used."""
    rows = [row for sheet in card.sheets for row in sheet.rows]
    tubes, sheets = counted(len(rows), "tube"), counted(len(card.sheets), "sheet")
    put(console, plain(f"A card for {tubes} on {sheets} of {card.paper_size} paper", "bold"))
    heading(console, "What to do")
    for step in STEPS:
        paragraph(console, step)
    layout = folder / LAYOUT_NAME
    named = "pigments" if rows[0].name else "name and pigments"
    paragraph(
        console,
        f"Write {named} of each tube into '{layout}', then:"
        f" fewtubes fit PHOTOGRAPH --layout {layout} --into FOLDER",
    )
    paragraph(console, CARE)
