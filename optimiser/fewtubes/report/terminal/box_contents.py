"""What is in the box at home, in the terminal."""

from rich.console import Console

from fewtubes.comparison.box_contents import BoxContents, KeptTube
from fewtubes.report.sentences.namesakes import namesake_sentences
from fewtubes.report.terminal.box import double_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.layout import bullet, heading, paragraph, plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.left import left_words
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.tubes import codes_words

__all__ = ["print_box_contents"]


def print_box_contents(contents: BoxContents, console: Console) -> None:
    """Print the tubes with how full they are, what to buy again, and which look alike."""
    title = f": {printable(contents.title)}" if contents.title else ""
    put(console, plain(f"The box at home{title}", "bold"))
    if not contents.tubes:
        paragraph(console, "It holds no tube yet.")
        return
    made = table("tube", "id", "pigments", "at home", "again from")
    for kept in contents.tubes:
        made.add_row(*(plain(cell) for cell in _cells(kept)))
    put(console, made)
    empty = sum(kept.left == 0 for kept in contents.tubes)
    aside = f", {counted(empty, 'empty one')} among them" if empty else ""
    paragraph(console, f"{counted(len(contents.tubes), 'tube')}{aside}.")
    for sentence in namesake_sentences(contents.id_is_a_name):
        paragraph(console, sentence)
    heading(console, "Doubles")
    if not contents.doubles:
        paragraph(console, "No two tubes look alike.")
    for double in contents.doubles:
        bullet(console, f"{double_words(double)}")
    print_care([kept.tube for kept in contents.tubes], console)


def _cells(kept: KeptTube) -> tuple[str, ...]:
    """Return name, id, pigments, how full it is, and the least price once it is nearly empty."""
    tube, again = kept.tube, kept.again
    return (
        printable(tube.name),
        printable(tube.id),
        codes_words(tube),
        left_words(kept.left),
        "" if again is None else money(again.price, again.currency),
    )
