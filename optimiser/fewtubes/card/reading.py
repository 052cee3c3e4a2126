"""A card of swatches is read from its photograph or scan.

The picture is worked on in linear light (IEC 61966-2-1): bare paper beside the boxes tells how
bright and of what colour the light is everywhere, and what is divided by it and multiplied by the
nominal paper's own colour is what the paint would be on that paper in even white light (D65). The
photograph stays in memory and is written nowhere.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.card.finding import found_sheet
from fewtubes.card.homography import projected
from fewtubes.card.judging import Judged, judged_rows
from fewtubes.card.layout import CardLayout, Sheet, Unit
from fewtubes.card.lighting import light_over
from fewtubes.card.looking import Projection
from fewtubes.card.picture import Picture, picture_name, unpacked
from fewtubes.card.places import check_boxes
from fewtubes.card.seen_boxes import Looking, SeenBox, seen_box, seen_places
from fewtubes.catalogue.names import alike_key
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import lab_to_linear, linear_to_lab
from fewtubes.colour.picture_file import Photograph
from fewtubes.errors import Fault, InputError
from fewtubes.fitting.sheet import PaintedSwatch, PaintedTube, Seen, SeenLab, SwatchSheet

__all__ = ["COTTON_WHITE", "CardReading", "card_reading", "read_card", "read_cards"]

COTTON_WHITE = (95.704, -0.289, 2.444)
"""CIELAB (D65) of white cotton paper; that of the demo, where a test checks it."""


@dataclass(frozen=True, eq=False)
class CardReading:
    """A sheet as it was read, and what was left out of it."""

    number: int
    """Of the sheet within the layout."""
    sheet: SwatchSheet
    notes: tuple[str, ...]
    """What the painter should know, a sentence each."""


def read_card(
    picture: Picture,
    layout: CardLayout,
    *,
    names: Sequence[str] = (),
    paper_lab: tuple[float, float, float] = COTTON_WHITE,
    label: str = "",
) -> SwatchSheet:
    """Return the swatches of one photographed sheet; see `card_reading`."""
    return card_reading(picture, layout, names=names, paper_lab=paper_lab, label=label).sheet


def read_cards(
    pictures: Sequence[Picture],
    layout: CardLayout,
    *,
    names: Sequence[str] = (),
    paper_lab: tuple[float, float, float] = COTTON_WHITE,
) -> CardReading:
    """Return the swatches of several sheets of one card, a picture each, as one.

    The number is that of the first; without printed marks a layout has one sheet, and one picture.

    Raises
    ------
    InputError
        With the faults of all pictures, or if two show the same sheet.
    """
    if not pictures:
        raise InputError([Fault("card", "there is no picture; name one of each sheet.")])
    readings: list[CardReading] = []
    faults: list[Fault] = []
    for picture in pictures:
        try:
            readings.append(card_reading(picture, layout, names=names, paper_lab=paper_lab))
        except InputError as error:
            faults.extend(error.faults)
    seen: dict[int, str] = {}
    for reading in readings:
        if reading.number in seen:
            what = f"shows sheet {reading.number} as '{seen[reading.number]}' does; leave one out."
            faults.append(Fault(reading.sheet.label, what))
        seen[reading.number] = reading.sheet.label
    if faults:
        raise InputError(faults)
    return _joined(readings)


def _joined(readings: Sequence[CardReading]) -> CardReading:
    """Return several sheets as one; a black that only some show is that of the first of them."""
    sheets = [reading.sheet for reading in readings]
    black = next((sheet.black for sheet in sheets if sheet.black is not None), None)
    return CardReading(
        readings[0].number,
        SwatchSheet(
            label=", ".join(sheet.label for sheet in sheets),
            paper=None,
            tubes=tuple(tube for sheet in sheets for tube in sheet.tubes),
            black=black,
        ),
        tuple(note for reading in readings for note in reading.notes),
    )


def card_reading(
    picture: Picture,
    layout: CardLayout,
    *,
    names: Sequence[str] = (),
    paper_lab: tuple[float, float, float] = COTTON_WHITE,
    label: str = "",
) -> CardReading:
    """Return the swatches of one photographed sheet, and what was left out.

    Parameters
    ----------
    picture
        The content of a JPEG, PNG or WebP file, or where it lies.
    layout
        Where the boxes are.
    names
        Of the tubes, for all rows of the layout in their order; a blank one, and those left over,
        keep the name they have there.
    paper_lab
        CIELAB (D65) of the paper painted on; the colours are those on this paper.
    label
        What faults are told of; the file's name if left out.

    Notes
    -----
    A box that looks like bare paper although stronger ones are painted is left out with a note. A
    row without a name in which nothing is painted is left out; with a name it is a fault. A
    channel that the photograph cannot show (sRGB holds no vivid cyan) is a bound: such a colour is
    handed on as a `ScreenColour` whose channel is 0.

    Raises
    ------
    InputError
        With every fault found, if there is any.
    """
    where = label or picture_name(picture)
    shot = unpacked(picture, where)
    if not np.ptp(shot.pixels, axis=2).any():
        what = "has no colour, only greys; photograph or scan the card in colour."
        raise InputError([Fault(where, what)])
    sheet, projection = _placed(shot, _named(layout, names), where)
    rows, columns = shot.pixels.shape[:2]
    check_boxes(sheet, projection, rows=rows, columns=columns, where=where)
    paper = lab_to_linear(np.array(paper_lab))
    light = light_over(shot.pixels, sheet, projection, paper=paper, where=where)
    looking = Looking(shot.pixels, projection, light, paper)
    black = seen_places(sheet.black, looking)
    seen = [[seen_box(box, looking) for box in row.boxes] for row in sheet.rows]
    judged = judged_rows(sheet.rows, seen, paper=paper, black=black, where=where)
    return CardReading(sheet.number, _swatch_sheet(judged, where), judged.notes)


def _named(layout: CardLayout, names: Sequence[str]) -> CardLayout:
    """Return the layout with the names given; a fault if they cannot be those of its rows."""
    rows = sum(len(sheet.rows) for sheet in layout.sheets)
    if len(names) > rows:
        what = f"has {len(names)} names for {rows} rows; give at most one for each."
        raise InputError([Fault("names", what)])
    named = layout.with_names(names)
    keys = [alike_key(row.name) for sheet in named.sheets for row in sheet.rows if row.name]
    twice = next((key for key in keys if keys.count(key) > 1), None)
    if twice is not None:
        what = f"names two rows '{twice}'; give each tube a name of its own."
        raise InputError([Fault("names", what)])
    return named


def _placed(shot: Photograph, layout: CardLayout, where: str) -> tuple[Sheet, Projection]:
    """Return the sheet that is seen, and what takes its places to pixels."""
    if layout.unit is Unit.MM:
        sheet, matrix = found_sheet(shot.pixels, layout, where)
        return sheet, lambda places: projected(matrix, places)
    rows, columns = shot.pixels.shape[:2]
    full = (shot.width, shot.height) if layout.unit is Unit.PIXELS else (1, 1)
    factor = np.array([columns, rows]) / full
    return layout.sheets[0], lambda places: np.asarray(places * factor)


def _swatch_sheet(judged: Judged, where: str) -> SwatchSheet:
    """Return what was found painted, as the fit takes it."""
    tubes = tuple(
        PaintedTube(row.name, row.codes, tuple(_swatch(seen, told) for seen, told in kept))
        for row, kept in judged.rows
    )
    black = None if judged.black is None else _lab(judged.black)
    return SwatchSheet(where, None, tubes, black)


def _swatch(seen: SeenBox, where: str) -> PaintedSwatch:
    return PaintedSwatch(where, seen.box.strength, seen.box.over_black, seen.colour, seen.noise)


def _lab(linear: FloatArray) -> Seen:
    L, a, b = linear_to_lab(linear).tolist()
    return SeenLab((L, a, b))
