"""A layout is read from its TOML file, whole or not at all.

The file of a printed card, as ``fewtubes card`` writes it, has ``unit = "mm"`` and a table
``[[sheet]]`` a sheet, with its corner marks. That of any other picture is written by hand::

    unit = "pixels"              # of the picture as shown, upright; or "share" of width and height
    white = [[20, 20, 60, 40]]   # bare paper: left, top, width, height
    black = [[700, 90, 30, 20]]  # bare black line, if there is one

    [[tube]]
    name = "my own rose"
    pigments = "PR122 + PB29"    # as on the label; may be left out
    boxes = [
      {strength = 1, rectangle = [100, 80, 60, 40], white = [[170, 80, 20, 40]]},
      {strength = 0.25, rectangle = [200, 80, 60, 40], white = [[270, 80, 20, 40]]},
      {strength = 1, over = "black", rectangle = [600, 90, 60, 20]},
    ]

The more bare paper is named, and the nearer to the boxes, the better light and shadow are evened
out.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal
from os import PathLike

from fewtubes.card.arrangement import MOST_ROWS, ROWS_A_SHEET
from fewtubes.card.layout import Box, CardLayout, Mark, Rectangle, Row, Sheet, Unit
from fewtubes.card.marks import CODES, CORNERS
from fewtubes.card.overlaps import overlaps
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile, shown_name, source_of
from fewtubes.catalogue.limits import NumberRange, shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.pigments import written_codes
from fewtubes.scenario.entries import Entries, as_written, is_number, to_float
from fewtubes.scenario.toml_file import toml_values

__all__ = ["read_layout"]

TOP_KEYS = ("unit", "paper_size", "white", "black", "tube", "sheet")
SHEET_KEYS = ("number", "width", "height", "marks", "white", "black", "tube")
TUBE_KEYS = ("name", "pigments", "boxes")
BOX_KEYS = ("strength", "over", "rectangle", "white", "stroke")
MARK_KEYS = ("code", "rectangle")

UNITS = {unit.value: unit for unit in Unit}
OVER = {"paper": False, "black": True}

PLACES = {
    Unit.MM: NumberRange(0, 1000),
    Unit.PIXELS: NumberRange(0, 50_000),
    Unit.SHARE: NumberRange(0, 1),
}
"""Of a number of a rectangle."""

PAPER_SIDE = NumberRange(50, 1000)
"""Of a sheet [mm]."""

STRENGTH = NumberRange(0, 1, above=True)

NUMBER = NumberRange(1, MOST_ROWS)
MARK_CODE = NumberRange(0, len(CODES) - 1)

MOST_BOXES = 20
"""Of one tube; the card has five."""

MOST_RECTANGLES = 400
"""In one list."""


def read_layout(path: str | PathLike[str] | HeldFile) -> CardLayout:
    """Return the layout in a file, or in what is held of one in memory.

    Raises
    ------
    InputError
        With every fault found, if there is any.
    """
    file, collector = source_of(path), FaultCollector()
    values = toml_values(file, collector)
    collector.raise_if_any()
    top = Entries(shown_name(file), values or {}, collector)
    top.check_keys(TOP_KEYS)
    unit = top.word("unit", UNITS)
    if unit is None:
        if "unit" not in top.values:
            top.note("unit", 'is missing; write "mm" for a printed card, or "pixels" or "share"')
        collector.raise_if_any()
    layout = _layout(top, unit or Unit.MM)
    collector.raise_if_any()
    for sheet in layout.sheets:
        for place, what in overlaps(sheet, _sheet_told(shown_name(file), layout, sheet)):
            collector.note(place, f"{what}.")
    collector.raise_if_any()
    return layout


def _sheet_told(file: str, layout: CardLayout, sheet: Sheet) -> str:
    return f"{file}, sheet {sheet.number}" if layout.sheets[1:] else file


def _layout(top: Entries, unit: Unit) -> CardLayout:
    """Return the sheets of a card, or the only one of a picture."""
    if unit is not Unit.MM:
        if "sheet" in top.values:
            top.note("sheet", 'belongs to a printed card, whose unit is "mm"; take it out')
        sheet = Sheet(1, 0.0, 0.0, _rows(top, unit), (), *_bare(top, unit))
        _check_white(top, [sheet])
        return CardLayout(unit, (sheet,))
    for key in ("tube", "white", "black"):
        if key in top.values:
            top.note(key, "belongs under [[sheet]] where the unit is mm")
    sheets = tuple(_sheet(entries) for entries in top.tables("sheet", MOST_ROWS))
    if not sheets:
        top.note("sheet", "is missing; give a table [[sheet]], or another unit for a picture")
    _check_white(top, sheets)
    if len({sheet.number for sheet in sheets}) < len(sheets):
        top.note("sheet", "two sheets have the same number; number them from 1")
    return CardLayout(unit, sheets, top.text("paper_size", ""))


def _check_white(top: Entries, sheets: Sequence[Sheet]) -> None:
    """Note a sheet on which no bare paper is named, and tubes named alike."""
    for sheet in sheets:
        if not sheet.white and not any(box.white for row in sheet.rows for box in row.boxes):
            top.note("white", "no bare paper is named; name some, best beside each box")
    seen: set[str] = set()
    for row in (row for sheet in sheets for row in sheet.rows if row.name):
        key = alike_key(row.name)
        if key in seen:
            top.note(
                "tube", f"two rows are named {shown(row.name)}; give each tube a name of its own"
            )
        seen.add(key)


def _sheet(entries: Entries) -> Sheet:
    """Return one sheet of a printed card."""
    entries.check_keys(SHEET_KEYS)
    marks = tuple(_mark(mark) for mark in entries.tables("marks", len(CORNERS)))
    if len(marks) != len(CORNERS) or len({mark.code for mark in marks}) < len(marks):
        entries.note("marks", f"must be four, each with a code of its own: {', '.join(CORNERS)}")
    return Sheet(
        int(_whole(entries, "number", NUMBER)),
        entries.number("width", PAPER_SIDE),
        entries.number("height", PAPER_SIDE),
        _rows(entries, Unit.MM),
        marks,
        *_bare(entries, Unit.MM),
    )


def _mark(entries: Entries) -> Mark:
    entries.check_keys(MARK_KEYS)
    return Mark(_whole(entries, "code", MARK_CODE), _rectangle(entries, "rectangle", Unit.MM))


def _whole(entries: Entries, key: str, allowed: NumberRange) -> int:
    value = entries.whole(key, allowed)
    if value is None and key not in entries.values:
        entries.note(key, f"is missing; give a whole number {allowed}")
    return int(allowed.low) if value is None else value


def _bare(entries: Entries, unit: Unit) -> tuple[tuple[Rectangle, ...], tuple[Rectangle, ...]]:
    """Return where bare paper and bare black are named."""
    return _rectangles(entries, "white", unit), _rectangles(entries, "black", unit)


def _rows(entries: Entries, unit: Unit) -> tuple[Row, ...]:
    most = ROWS_A_SHEET * 4 if unit is Unit.MM else MOST_ROWS
    rows = tuple(_row(tube, unit) for tube in entries.tables("tube", most))
    if not rows and "tube" not in entries.values:
        entries.note("tube", "there is no tube; give a table for each")
    return rows


def _row(entries: Entries, unit: Unit) -> Row:
    entries.check_keys(TUBE_KEYS)
    boxes = tuple(_box(box, unit) for box in entries.tables("boxes", MOST_BOXES))
    if not boxes and entries.values.get("boxes", []) == []:
        entries.note("boxes", "there is no box; give at least the full stroke and one wash")
    name = entries.text("name", "") if entries.values.get("name", "") != "" else ""
    return Row(name, _codes(entries), boxes)


def _codes(entries: Entries) -> tuple[str, ...]:
    """Return the pigments, which are joined by a plus sign."""
    if entries.values.get("pigments", "") == "":
        return ()
    text = entries.text("pigments", "")
    codes, wrong = written_codes(text)
    if wrong is not None:
        entries.note(
            "pigments",
            f"{shown(wrong)} is not a Colour Index generic name such as PR122; join several with +,"
            " or leave it blank",
        )
        return ()
    return codes


def _box(entries: Entries, unit: Unit) -> Box:
    entries.check_keys(BOX_KEYS)
    return Box(
        strength=entries.number("strength", STRENGTH),
        over_black=bool(entries.word("over", OVER)),
        rectangle=_rectangle(entries, "rectangle", unit),
        white=_rectangles(entries, "white", unit),
        stroke=_rectangles(entries, "stroke", unit),
    )


def _rectangle(entries: Entries, key: str, unit: Unit) -> Rectangle:
    """Return a place, a stand-in after a fault."""
    if key not in entries.values:
        entries.note(key, "is missing; give [left, top, width, height]")
        return Rectangle(0, 0, 1, 1)
    return _place(entries.values[key], unit, lambda what: entries.note(key, what))


def _rectangles(entries: Entries, key: str, unit: Unit) -> tuple[Rectangle, ...]:
    """Return a list of places; none if it is not given."""
    value = entries.values.get(key, [])
    if not isinstance(value, list) or len(value) > MOST_RECTANGLES:
        what = f"is {as_written(value)}; it must be a list of at most {MOST_RECTANGLES} places"
        entries.note(key, f"{what} such as [[20, 20, 60, 40]]")
        return ()
    return tuple(_place(item, unit, lambda what: entries.note(key, what)) for item in value)


def _place(value: object, unit: Unit, note: Callable[[str], None]) -> Rectangle:
    numbers = value if isinstance(value, list) else []
    plain = [
        to_float(item) for item in numbers if isinstance(item, int | Decimal) and is_number(item)
    ]
    if len(numbers) != 4 or len(plain) != 4:
        note(f"is {as_written(value)}; a place is [left, top, width, height], four numbers")
        return Rectangle(0, 0, 1, 1)
    allowed = PLACES[unit]
    wrong = next((item for item in plain if not allowed.admits(item)), None)
    if wrong is not None:
        note(f"{wrong:g} is no place in {unit.value}; it must be a number {allowed}")
    elif min(plain[2:]) <= 0:
        note("has no width or no height; both must be above 0")
    return Rectangle(*plain)
