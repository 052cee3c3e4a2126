"""A layout as the text of a TOML file; `fewtubes.card.layout_file` tells its keys and reads it."""

import json
import os
from collections.abc import Iterable
from pathlib import Path

from fewtubes.card.layout import Box, CardLayout, Rectangle, Row, Sheet, Unit
from fewtubes.errors import Fault, InputError

__all__ = ["LAYOUT_NAME", "check_no_other", "layout_text"]

LAYOUT_NAME = "card-layout.toml"
"""Of the file that lies beside the card."""

HEAD = """\
# Where each box of the card lies: [left, top, width, height] in millimetres from the top left
# corner of its sheet. Write the name and the pigments (such as "PR122 + PB29") of each tube beside
# name and pigments; rows left bare need none.
"""


def layout_text(card: CardLayout) -> str:
    """Return the layout of a printed card as the content of a file."""
    if card.unit is not Unit.MM:
        raise ValueError("only the layout of a printed card is written")
    head = f'{HEAD}\nunit = "mm"\npaper_size = {_text(card.paper_size)}\n'
    return head + "".join(_sheet(sheet) for sheet in card.sheets)


def check_no_other(path: Path, text: str, card: Path) -> None:
    """Raise an `InputError` where another layout lies, or a file in the card's place without one.

    Parameters
    ----------
    path, text
        Where the layout goes, and its content; names may be written in one that lies there.
    card
        Where the card goes; what lies there is its own if the same layout lies beside it.
    """
    try:
        other = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        if os.path.lexists(card):
            what = "lies there already, and is no card of this layout; name another folder."
            raise InputError([Fault(str(card), what)]) from None
        return
    except (OSError, ValueError):
        other = ""
    if other != text:
        what = (
            "lies there already, and names may be written in it; name another folder,"
            " or move it away."
        )
        raise InputError([Fault(str(path), what)])


def _sheet(sheet: Sheet) -> str:
    marks = ", ".join(
        f"{{code = {mark.code}, rectangle = {_rectangle(mark.rectangle)}}}" for mark in sheet.marks
    )
    lines = [
        "",
        "[[sheet]]",
        f"number = {sheet.number}",
        f"width = {sheet.width:g}",
        f"height = {sheet.height:g}",
        f"marks = [{marks}]",
        f"black = {_rectangles(sheet.black)}",
    ]
    return "\n".join(lines) + "\n" + "".join(_row(row) for row in sheet.rows)


def _row(row: Row) -> str:
    return (
        "\n[[sheet.tube]]\n"
        f"name = {_text(row.name)}\n"
        f"pigments = {_text(' + '.join(row.codes))}\n"
        "boxes = [\n" + "".join(f"  {_box(box)},\n" for box in row.boxes) + "]\n"
    )


def _box(box: Box) -> str:
    parts = [
        f"strength = {box.strength:g}",
        f'over = "{"black" if box.over_black else "paper"}"',
        f"rectangle = {_rectangle(box.rectangle)}",
        f"white = {_rectangles(box.white)}",
    ]
    if box.stroke:
        parts.append(f"stroke = {_rectangles(box.stroke)}")
    return f"{{{', '.join(parts)}}}"


def _rectangles(places: Iterable[Rectangle]) -> str:
    return f"[{', '.join(map(_rectangle, places))}]"


def _rectangle(place: Rectangle) -> str:
    return f"[{place.left:g}, {place.top:g}, {place.width:g}, {place.height:g}]"


def _text(text: str) -> str:
    """Return a text as TOML writes it; its basic strings take the escapes of JSON (RFC 8259).

    JSON leaves DEL as it is and TOML does not.
    """
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
