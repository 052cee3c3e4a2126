"""One picture drawn as SVG and as PNG: the colours that were asked for, where they were asked for.

Expected pixels are the colours of the shapes themselves.
"""

import io
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from fewtubes.picture.moving import moved
from fewtubes.picture.png import DOTS_PER_UNIT, png_bytes
from fewtubes.picture.shapes import Area, Grade, Line, Picture, Shape, Words
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.sheets import framed, stacked
from fewtubes.picture.svg import svg_file, svg_inline

SVG = "{http://www.w3.org/2000/svg}"
SQUARE = ((10.0, 10.0), (50.0, 10.0), (50.0, 30.0), (10.0, 30.0))
GRADE = Grade(((10.0, "#000000"), (50.0, "#ff8000")))
HOSTILE = "<script>alert('x')</script> & \"quoted\" $x_1$"


def picture(*shapes: Shape, title: str = "a picture") -> Picture:
    return Picture(60, 40, "#f0f0f0", title, "what it shows", shapes)


def pixels(drawn: Picture) -> np.ndarray:
    from matplotlib.image import imread

    shares = np.asarray(imread(io.BytesIO(png_bytes(drawn)), format="png"))[..., :3]
    return np.asarray(np.rint(shares * 255).astype(int))


def at(image: np.ndarray, x: float, y: float) -> list[int]:
    """Return the pixel at a place given in the picture's unit."""
    found: list[int] = image[int(y * DOTS_PER_UNIT), int(x * DOTS_PER_UNIT)].tolist()
    return found


def test_png_shows_ground_and_area_in_their_colours() -> None:
    image = pixels(picture(Area(SQUARE, "#3366cc")))
    assert image.shape == (40 * DOTS_PER_UNIT, 60 * DOTS_PER_UNIT, 3)
    assert at(image, 30, 20) == [0x33, 0x66, 0xCC]
    assert at(image, 5, 5) == [0xF0, 0xF0, 0xF0]


def test_png_grades_in_proportion_and_stays_inside_the_outline() -> None:
    image = pixels(picture(Area(SQUARE, GRADE)))
    # A quarter of the way from black to #ff8000: 64, 32, 0; the pixel's own width blurs a little.
    np.testing.assert_allclose(at(image, 20, 20), [64, 32, 0], atol=4)
    assert at(image, 30, 5) == [0xF0, 0xF0, 0xF0]


def test_later_shapes_lie_on_earlier_ones() -> None:
    image = pixels(picture(Area(SQUARE, "#111111"), Line(((0, 20), (60, 20)), "#ee0000", 6)))
    assert at(image, 30, 20) == [0xEE, 0, 0]


def test_svg_is_well_formed_and_holds_words_as_they_are() -> None:
    drawn = picture(Words(5, 20, HOSTILE, "#000000", 12), title=HOSTILE)
    root = ET.fromstring(svg_file(drawn))  # noqa: S314 - our own output
    assert [text.text for text in root.iter(f"{SVG}text")] == [HOSTILE]
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == HOSTILE
    assert not list(root.iter(f"{SVG}script"))


def test_a_name_full_of_signs_is_drawn_as_png_too() -> None:
    assert png_bytes(picture(Words(5, 20, HOSTILE + "\u6f22\U0001f33c", "#000000", 12)))


def test_svg_gradient_has_the_stops_of_the_grade_in_picture_units() -> None:
    root = ET.fromstring(svg_file(picture(Area(SQUARE, GRADE))))  # noqa: S314
    gradient = next(root.iter(f"{SVG}linearGradient"))
    assert (gradient.get("x1"), gradient.get("x2")) == ("10", "50")
    assert [stop.get("stop-color") for stop in gradient] == ["#000000", "#ff8000"]
    path = next(root.iter(f"{SVG}path"))
    assert path.get("fill") == f"url(#{gradient.get('id')})"


def test_inline_pictures_are_named_or_hidden_and_share_no_id() -> None:
    drawn = picture(Area(SQUARE, GRADE))
    one, other = (svg_inline(drawn, prefix=prefix) for prefix in ("a-", "b-"))
    ids = [element.get("id") for text in (one, other) for element in ET.fromstring(text).iter()]  # noqa: S314
    known = [id_ for id_ in ids if id_]
    assert len(known) == len(set(known)) == 2
    assert ET.fromstring(one).get("role") == "img"  # noqa: S314
    assert ET.fromstring(one).get("aria-label") == "a picture. what it shows"  # noqa: S314
    assert ET.fromstring(svg_inline(drawn, prefix="c-", spoken=False)).get("aria-hidden") == "true"  # noqa: S314


@pytest.mark.parametrize(
    "shape",
    [Area(SQUARE, GRADE, rim=GRADE), Line(SQUARE, "#000000"), Words(10, 10, "x", "#000000", 9)],
)
def test_a_shape_moved_there_and_back_is_the_same(shape: Shape) -> None:
    there = moved(shape, 7.5, -3.25)
    assert there != shape
    assert moved(there, -7.5, 3.25) == shape


def test_a_moved_grade_goes_with_its_area() -> None:
    image = pixels(picture(moved(Area(SQUARE, GRADE), 5, 0)))
    np.testing.assert_allclose(at(image, 25, 20), [64, 32, 0], atol=4)


def test_frames_and_stacks_hold_all_shapes_inside(sheet: Sheet) -> None:
    one = picture(Area(SQUARE, "#3366cc"))
    stack = stacked([one, one], ["first", "second"], sheet, title="two")
    framed_stack = framed(stack, sheet, heading="A heading", notes=("a note",))
    words = [shape.text for shape in framed_stack.shapes if isinstance(shape, Words)]
    assert sorted(words) == ["A heading", "a note", "first", "second"]
    areas = [shape for shape in framed_stack.shapes if isinstance(shape, Area)]
    assert len(areas) == 2
    for area in areas:
        xs, ys = zip(*area.points, strict=True)
        assert 0 <= min(xs) <= max(xs) <= framed_stack.width
        assert 0 <= min(ys) <= max(ys) <= framed_stack.height
