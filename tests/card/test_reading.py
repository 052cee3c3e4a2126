"""Colours read from a photographed card are those that were painted.

A card of the demo's paints is drawn, photographed and read. The limits: the fit that follows is to
reach ΔE00 2.5 for mixtures, so that colours are wanted to about 1; six seeds gave a median of 0.3,
0.6 for nine in ten and 1.4 at most, of which half is the unevenness of the washes themselves.
"""

import io
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms, ImageOps
from tests.card.painted import DOTS_PER_MM, QUICK, PaintedCard
from tests.card.photographed import Shot, as_jpeg, photographed, scanned

from fewtubes.card.layout import CardLayout, Rectangle, Sheet, Unit
from fewtubes.card.points import PointedSwatch, layout_of_points
from fewtubes.card.reading import COTTON_WHITE, card_reading, read_card, read_cards
from fewtubes.card.seen_boxes import NOISE_FLOOR
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import lab_to_linear, linear_to_lab
from fewtubes.errors import InputError
from fewtubes.fitting.sheet import ScreenColour, SeenLab, SwatchSheet

MEDIAN, NINE_TENTHS, MOST = 0.6, 1.0, 2.0
"""ΔE00."""

DARKEST_TOLD = 0.004
"""Linear light of a channel that may pass for none: level 2 of sRGB, 2 / 255 / 12.92 = 0.0006, if
the dimmest photograph here has 0.3 · 0.7 · 0.86 = 0.18 of white."""


def errors(sheet: SwatchSheet, painted: PaintedCard) -> np.ndarray:
    """Return how far each swatch is from its true colour [ΔE00]; bounds are looked at apart."""
    found = []
    for tube in sheet.tubes:
        for swatch in tube.swatches:
            true = painted.labs[tube.name, swatch.strength, swatch.over_black]
            if isinstance(swatch.colour, SeenLab):
                found.append(delta_e_2000(np.array(swatch.colour.lab), true))
            else:
                assert isinstance(swatch.colour, ScreenColour)
                linear = lab_to_linear(true)
                zero = np.array(swatch.colour.channels) == 0
                assert (linear[zero] < DARKEST_TOLD).all()
                assert zero[linear < -0.002].all()
                shown = linear_to_lab(np.clip(linear, 0, 1))
                levels = np.array(swatch.colour.channels) / 255
                lab = linear_to_lab(
                    np.where(levels <= 0.04045, levels / 12.92, ((levels + 0.055) / 1.055) ** 2.4)
                )
                found.append(delta_e_2000(lab, shown))
    return np.array(found)


def assert_near(
    sheet: SwatchSheet,
    painted: PaintedCard,
    *,
    nine_tenths: float = NINE_TENTHS,
    most: float = MOST,
) -> None:
    far = errors(sheet, painted)
    assert np.median(far) < MEDIAN
    assert np.quantile(far, 0.9) < nine_tenths
    assert far.max() < most


def test_the_default_paper_is_that_of_the_demo(a4: PaintedCard) -> None:
    assert pytest.approx(tuple(a4.paper), abs=0.001) == COTTON_WHITE


def test_an_a4_card_is_read(a4: PaintedCard) -> None:
    reading = read_cards(a4.photographs, a4.card)
    assert [tube.name for tube in reading.sheet.tubes] == [tube.name for tube in a4.tubes]
    assert_near(reading.sheet, a4)
    assert reading.notes == ()
    for tube in reading.sheet.tubes:
        order = [(swatch.over_black, -swatch.strength) for swatch in tube.swatches]
        assert order == sorted(order)
        assert len(order) == 5
    assert reading.sheet.paper is None
    assert isinstance(reading.sheet.black, SeenLab)
    # The bar sends back 0.04: L* = 116 · 0.04^⅓ − 16 = 23.7.
    assert reading.sheet.black.lab == pytest.approx((23.7, 0, 0), abs=1.0)


@pytest.mark.parametrize("turns", [0, 1, 2, 3])
def test_a_letter_card_is_read_however_it_lies(turns: int, letter: PaintedCard) -> None:
    shot = replace(QUICK, quarter_turns=turns, seed=turns)
    assert_near(read_card(photographed(letter.sheets[0], shot), letter.card), letter)


@pytest.mark.parametrize(
    "shot",
    [
        replace(QUICK, blur=1.6),  # half a millimetre
        replace(QUICK, exposure=0.3),
        replace(QUICK, darkest=0.4, channels=(1.25, 1.0, 0.75), exposure=0.7),
        replace(QUICK, tilt=0.15),
        replace(QUICK, noise=4.0),
        replace(QUICK, quality=60),
    ],
    ids=["blurred", "dim", "lamp", "askew", "noisy", "coarse"],
)
def test_a_middling_photograph_does(shot: Shot, letter: PaintedCard) -> None:
    # Of six seeds of each 1.13 and 1.94 at most, both of the coarse and noisy ones.
    sheet = read_card(photographed(letter.sheets[0], shot), letter.card)
    assert_near(sheet, letter, nine_tenths=1.5, most=3.0)


def test_vivid_colours_are_bounds(a4: PaintedCard) -> None:
    """SRGB holds neither a strong yellow nor a phthalocyanine blue; nothing is made up for it."""
    sheet = read_card(a4.photographs[0], a4.card)
    yellow = sheet.tubes[0].swatches[0].colour
    assert isinstance(yellow, ScreenColour)
    assert yellow.channels[2] == 0


def test_errors_are_within_the_noise_that_is_told(a4: PaintedCard) -> None:
    sheet = read_card(a4.photographs[0], a4.card)
    off = [
        np.sqrt(np.mean((np.array(swatch.colour.lab) - true) ** 2)) / swatch.noise
        for tube in sheet.tubes
        for swatch in tube.swatches
        if isinstance(swatch.colour, SeenLab)
        for true in [a4.labs[tube.name, swatch.strength, swatch.over_black]]
    ]
    assert 0.1 < np.sqrt(np.mean(np.square(off))) < 1.0
    least = min(swatch.noise for tube in sheet.tubes for swatch in tube.swatches)
    assert least >= NOISE_FLOOR


def test_a_patchy_wash_is_less_sure(letter: PaintedCard) -> None:
    even = read_card(letter.photographs[0], letter.card)
    sheet = letter.sheets[0].copy()
    box = letter.card.sheets[0].rows[1].boxes[0].rectangle
    _patch(sheet, Rectangle(box.left, box.top, box.width * 0.45, box.height))[:] *= 0.6
    patchy = read_card(photographed(sheet, QUICK), letter.card)
    assert patchy.tubes[1].swatches[0].noise > 2 * even.tubes[1].swatches[0].noise
    assert patchy.tubes[2].swatches[0].noise < 1.5 * even.tubes[2].swatches[0].noise


def test_a_scan_is_read(letter: PaintedCard, tmp_path: Path) -> None:
    path = tmp_path / "scan.png"
    path.write_bytes(scanned(letter.sheets[0]))
    sheet = read_card(path, letter.card)
    assert sheet.label == "scan.png"
    assert sheet.tubes[0].swatches[1].where == (f"scan.png, row 1 ('{letter.tubes[0].name}'), half")
    assert_near(sheet, letter)


def test_paint_on_some_of_the_bare_paper_does_no_harm(letter: PaintedCard) -> None:
    sheet = letter.sheets[0].copy()
    for row in letter.card.sheets[0].rows[:2]:
        _patch(sheet, row.boxes[0].white[0])[:] *= [0.9, 0.4, 0.4]
    assert_near(read_card(photographed(sheet, QUICK), letter.card), letter)


def shaded(sheet: np.ndarray, width_mm: float) -> np.ndarray:
    """Return a sheet whose right half lies in a shadow, its edge so soft."""
    across = np.arange(sheet.shape[1]) / DOTS_PER_MM - 130  # mm from the shadow's edge
    shadow = 1 - 0.35 / (1 + np.exp(-across / width_mm))
    return np.asarray(sheet * shadow[None, :, None])


def test_a_soft_shadow_does_no_harm(letter: PaintedCard) -> None:
    picture = photographed(shaded(letter.sheets[0], 25), QUICK)
    reading = card_reading(picture, letter.card)
    assert_near(reading.sheet, letter)
    assert reading.notes == ()


def test_beside_a_shadows_edge_colours_are_less_sure(letter: PaintedCard) -> None:
    picture = photographed(shaded(letter.sheets[0], 5), QUICK)
    reading = card_reading(picture, letter.card)
    plain = read_card(letter.photographs[0], letter.card)
    assert reading.notes
    assert all("is darker than on the other" in note for note in reading.notes)
    pairs = [
        (swatch, other, letter.labs[tube.name, swatch.strength, swatch.over_black])
        for tube, same in zip(reading.sheet.tubes, plain.tubes, strict=True)
        for swatch, other in zip(tube.swatches, same.swatches, strict=True)
    ]
    unsure = [swatch for swatch, other, _ in pairs if swatch.noise > 2 * other.noise]
    assert {swatch.where for swatch in unsure} >= {note.split(": ")[0] for note in reading.notes}
    for swatch, _, true in pairs:
        if isinstance(swatch.colour, SeenLab):
            off = np.array(swatch.colour.lab) - true
            assert np.sqrt((off**2).mean()) < 3 * swatch.noise


def test_the_papers_own_colour_is_the_callers(letter: PaintedCard) -> None:
    """Under ivory paper's name the same ratio to paper is another colour."""
    ivory = (93.0, 0.0, 8.0)
    data = letter.photographs[0]
    white = read_card(data, letter.card).tubes[1].swatches[3].colour
    cream = read_card(data, letter.card, paper_lab=ivory).tubes[1].swatches[3].colour
    assert isinstance(white, SeenLab)
    assert isinstance(cream, SeenLab)
    ratio = lab_to_linear(np.array(ivory)) / lab_to_linear(np.array(COTTON_WHITE))
    expected = linear_to_lab(lab_to_linear(np.array(white.lab)) * ratio)
    assert cream.lab == pytest.approx(tuple(expected), abs=0.01)


@pytest.mark.parametrize("orientation", range(2, 9))
def test_rectangles_are_those_of_the_picture_as_shown(
    orientation: int, letter: PaintedCard
) -> None:
    """The camera's note on how it was held (Exif) is heeded, as Pillow heeds it."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    plain = Image.open(io.BytesIO(scanned(letter.sheets[0])))
    undo = {5: 5, 6: 8, 7: 7, 8: 6}.get(orientation, orientation)
    turned = ImageOps.exif_transpose(_with_orientation(plain, undo))
    data = as_jpeg(np.asarray(turned), quality=95, exif=exif)
    assert_near(read_card(data, by_hand(letter)), letter)


def _with_orientation(image: Image.Image, orientation: int) -> Image.Image:
    copy = image.copy()
    copy.getexif()[0x0112] = orientation
    return copy


def by_hand(painted: PaintedCard, unit: Unit = Unit.PIXELS) -> CardLayout:
    """Return the first sheet's layout as somebody would name it in a scan of it."""
    sheet = painted.card.sheets[0]
    factors = (DOTS_PER_MM, DOTS_PER_MM)
    if unit is Unit.SHARE:
        factors = (1 / sheet.width, 1 / sheet.height)

    def moved(place: Rectangle) -> Rectangle:
        across, down = factors
        return Rectangle(
            place.left * across, place.top * down, place.width * across, place.height * down
        )

    rows = tuple(
        replace(
            row,
            boxes=tuple(
                replace(
                    box,
                    rectangle=moved(box.rectangle),
                    white=tuple(map(moved, box.white)),
                    stroke=(),
                )
                for box in row.boxes
            ),
        )
        for row in sheet.rows
    )
    return CardLayout(unit, (Sheet(1, 0, 0, rows, black=tuple(map(moved, sheet.black))),))


@pytest.mark.parametrize("unit", [Unit.PIXELS, Unit.SHARE])
def test_rectangles_need_no_opencv(
    unit: Unit, letter: PaintedCard, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = scanned(letter.sheets[0])
    monkeypatch.setitem(sys.modules, "cv2", None)
    assert_near(read_card(data, by_hand(letter, unit)), letter)


def test_without_opencv_a_sentence_says_what_to_do(
    letter: PaintedCard, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = letter.photographs[0]
    monkeypatch.setitem(sys.modules, "cv2", None)
    with pytest.raises(InputError, match="pip install 'fewtubes\\[photo\\]'"):
        read_card(data, letter.card)


def test_points_are_read(letter: PaintedCard) -> None:
    layout = by_hand(letter, Unit.SHARE).sheets[0]
    swatches = [
        PointedSwatch(row.name, box.strength, box.over_black, *_middle(box.rectangle))
        for row in layout.rows
        for box in row.boxes
    ]
    white = [_middle(place) for row in layout.rows for box in row.boxes for place in box.white]
    size = letter.card.sheets[0]
    pointed = layout_of_points(
        swatches, white=white, width=size.width, height=size.height, radius=0.008
    )
    assert_near(read_card(scanned(letter.sheets[0]), pointed), letter)


def _middle(place: Rectangle) -> tuple[float, float]:
    return place.left + place.width / 2, place.top + place.height / 2


def test_colours_of_another_profile_are_brought_to_srgb(letter: PaintedCard) -> None:
    """In this profile red is called blue, and the picture's channels are swapped as well."""
    plain = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = plain.replace(b"rXYZ", b"????").replace(b"bXYZ", b"rXYZ").replace(b"????", b"bXYZ")
    assert swapped != plain
    levels = np.asarray(Image.open(io.BytesIO(scanned(letter.sheets[0]))))
    data = as_jpeg(levels[..., ::-1], quality=95, icc_profile=swapped)
    assert_near(read_card(data, letter.card), letter)


def test_names_are_given(letter: PaintedCard) -> None:
    blank = letter.card.with_names([])
    rows = [replace(row, name="") for row in blank.sheets[0].rows]
    unnamed = replace(blank, sheets=(replace(blank.sheets[0], rows=tuple(rows)),))
    data = letter.photographs[0]
    with pytest.raises(InputError) as caught:
        read_card(data, unnamed)
    assert len(caught.value.faults) == 4
    assert "is painted but has no name; write it beside name" in str(caught.value)
    named = read_card(data, unnamed, names=["a", "b", "c", "d"])
    assert [tube.name for tube in named.tubes] == ["a", "b", "c", "d"]
    with pytest.raises(InputError, match="5 names for 4 rows"):
        read_card(data, unnamed, names=list("abcde"))
    with pytest.raises(InputError, match="names two rows 'a'"):
        read_card(data, unnamed, names=["a", "A"])


def test_bare_rows_and_washes_are_left_out(letter: PaintedCard) -> None:
    sheet, layout = letter.sheets[0].copy(), letter.card
    rows = layout.sheets[0].rows
    paper = lab_to_linear(letter.paper)
    for box in rows[3].boxes:
        for place in (box.rectangle, *box.stroke):
            _patch(sheet, place)[:] = paper if not box.over_black else 0.04
    for place in rows[3].boxes[-1].stroke:
        _patch(sheet, place)[:] = paper
    _patch(sheet, rows[1].boxes[3].rectangle)[:] = paper
    unnamed = replace(
        layout, sheets=(replace(layout.sheets[0], rows=(*rows[:3], replace(rows[3], name=""))),)
    )
    data = photographed(sheet, QUICK)
    reading = card_reading(data, unnamed)
    assert [tube.name for tube in reading.sheet.tubes] == [row.name for row in rows[:3]]
    assert [len(tube.swatches) for tube in reading.sheet.tubes] == [5, 4, 5]
    (note,) = reading.notes
    assert note.endswith("eighth: looks like bare paper and was left out.")
    with pytest.raises(InputError, match=r"row 4 .* looks like bare paper at every strength"):
        read_card(data, layout)


def _patch(sheet: np.ndarray, place: Rectangle) -> np.ndarray:
    """Return the pixels of a place on a painted sheet, to be changed."""
    left, top, right, bottom = (
        round(DOTS_PER_MM * side)
        for side in (place.left, place.top, place.left + place.width, place.top + place.height)
    )
    return sheet[top:bottom, left:right]
