"""What was filled in about a painter's own paints: names, points on a photograph, a card."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fewtubes.card.arrangement import MOST_ROWS
from fewtubes.card.asked import card_asked
from fewtubes.card.layout import CardLayout
from fewtubes.card.layout_file import read_layout
from fewtubes.card.points import PointedSwatch, layout_of_points
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import NumberRange, parsed_number, shown, text_fault
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.pigments import CODE
from fewtubes.colour.picture_file import Photograph
from fewtubes.errors import Fault, InputError
from fewtubes.page.fields import first_of
from fewtubes.page.intake import Intake
from fewtubes.page.tabs import FormValues

__all__ = ["POINT_FIELDS", "Point", "TypedTube", "card_of", "layout_sent", "points_of"]

POINT_FIELDS = ("tube", "pigments", "kind", "x", "y")
"""Each point has one of each, the name of the field behind ``point-``."""

WHITE, BLACK = "white", "black"
"""Kinds of points beside swatches: bare paper, and the bare black line."""

OVER_BLACK = "over-black"
"""Kind of a full stroke over black; that of others is their strength."""

MOST_POINTS = 400

SHARE = NumberRange(0, 1)
STRENGTH = NumberRange(0, 1, above=True)


@dataclass(frozen=True)
class TypedTube:
    """A tube as it was typed: its name, and what pigments it has if that is known."""

    name: str
    codes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Point:
    """A point on a photograph, as it was sent."""

    tube: str
    pigments: str
    kind: str
    x: str
    y: str


def points_of(values: FormValues) -> tuple[Point, ...]:
    """Return the points that were sent; those without all fields are left out."""
    columns = [values.get(f"point-{field}", ()) for field in POINT_FIELDS]
    return tuple(Point(*cells) for cells in zip(*columns, strict=False))


def layout_sent(intake: Intake, photograph: Photograph) -> CardLayout:
    """Return where swatches are on a photograph: by a layout file, or by the points.

    Raises
    ------
    InputError
        With every fault found.
    """
    points, file = points_of(intake.values), intake.files.get("layout")
    if points and file is not None:
        what = "is given, and points as well; leave out one of them."
        raise InputError([Fault("layout", what)])
    if points:
        return _layout_of(points, photograph)
    if file is None:
        what = "is not chosen; choose that of the card, or point at swatches on the photograph."
        raise InputError([Fault("layout", what)])
    return _with_typed(read_layout(file), _typed_tubes(intake.values))


def card_of(values: FormValues) -> CardLayout:
    """Return the card to be printed.

    Raises
    ------
    InputError
        With every fault found.
    """
    typed = _typed_tubes(values, "card-names")
    size = first_of(values, "paper-size") or "A4"
    try:
        layout = card_asked(paper_size=size, names=[tube.name for tube in typed] or None)
    except InputError as error:
        told = [replace(fault, where=fault.where.replace("_", " ")) for fault in error.faults]
        raise InputError(told) from error
    return layout.with_names([tube.name for tube in typed], [tube.codes for tube in typed])


def _with_typed(layout: CardLayout, typed: tuple[TypedTube, ...]) -> CardLayout:
    rows = sum(len(sheet.rows) for sheet in layout.sheets)
    if len(typed) > rows:
        what = f"are {len(typed)} for {rows} rows; give at most one for each."
        raise InputError([Fault("names", what)])
    return layout.with_names([tube.name for tube in typed], [tube.codes for tube in typed])


def _typed_tubes(values: FormValues, field: str = "names") -> tuple[TypedTube, ...]:
    """Return the tubes typed, a line each; blank lines at the end are none."""
    collector = FaultCollector()
    lines = first_of(values, field).rstrip().splitlines()
    if len(lines) > MOST_ROWS:
        collector.note("names", f"are {len(lines):,}; at most {MOST_ROWS} fit on a card.")
        lines = []
    found = []
    for number, line in enumerate(lines, start=1):
        name, _, pigments = line.partition(";")
        name = composed(" ".join(name.split()))
        where = f"names, line {number}"
        if name:
            collector.note_fault(where, text_fault(name))
        found.append(TypedTube(name, _codes(pigments, where, collector)))
    collector.raise_if_any()
    return tuple(found)


def _codes(text: str, where: str, collector: FaultCollector) -> tuple[str, ...]:
    """Return Colour Index names as they were typed."""
    codes = tuple(dict.fromkeys(text.replace("+", " ").replace(",", " ").split()))
    wrong = next((code for code in codes if not CODE.fullmatch(code)), None)
    if wrong is not None:
        what = (
            f"{shown(wrong)} is not a Colour Index name such as PR122; join several by +, or leave"
            " it out."
        )
        collector.note(where, what)
    return codes


def _layout_of(points: tuple[Point, ...], photograph: Photograph) -> CardLayout:
    """Return the layout of points on a photograph."""
    collector = FaultCollector()
    if len(points) > MOST_POINTS:
        what = f"are {len(points):,}; at most {MOST_POINTS} are looked at, so take some out."
        raise InputError([Fault("points", what)])
    bare: dict[str, list[tuple[float, float]]] = {WHITE: [], BLACK: []}
    for number, point in enumerate(points, start=1):
        if point.kind in bare:
            bare[point.kind].append(_place(point, f"points, point {number}", collector))
    swatches = list(_swatches(points, collector))
    collector.raise_if_any()
    return layout_of_points(
        swatches,
        white=bare[WHITE],
        black=bare[BLACK],
        width=photograph.width,
        height=photograph.height,
    )


def _swatches(points: tuple[Point, ...], collector: FaultCollector) -> Iterator[PointedSwatch]:
    """Yield the points on swatches."""
    for number, point in enumerate(points, start=1):
        if point.kind in (WHITE, BLACK):
            continue
        where = f"points, point {number}"
        name = composed(" ".join(point.tube.split()))
        collector.note_fault(where, text_fault(name) if name else "has no name of its tube.")
        strength = 1.0 if point.kind == OVER_BLACK else parsed_number(point.kind)
        fault = STRENGTH.fault(strength, shown_as=shown(point.kind), named=True)
        if fault:
            collector.note(where, f"{fault}.")
        x, y = _place(point, where, collector)
        codes = _codes(point.pigments, where, collector)
        over_black = point.kind == OVER_BLACK
        yield PointedSwatch(name, strength or 1.0, over_black, x, y, codes)


def _place(point: Point, where: str, collector: FaultCollector) -> tuple[float, float]:
    """Return where a point lies, as shares of width and height."""
    places = []
    for text in (point.x, point.y):
        number = parsed_number(text)
        fault = SHARE.fault(number, shown_as=shown(text), named=True)
        if fault:
            collector.note(where, f"{fault}.")
        places.append(number if number is not None and SHARE.admits(number) else 0.0)
    return places[0], places[1]
