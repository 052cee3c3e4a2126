"""A line drawing has the outlines and numbers of its picture, and no colour."""

from fewtubes.picture.line_drawing import NUMBER_SIZE, line_drawing
from fewtubes.picture.shapes import Area, Line, Picture, Words
from fewtubes.picture.sheet import BEYOND, MISSED, Sheet

SHEET = Sheet(paper="#fefefe", ground="#ffffff")

CORNERS = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0))


def test_areas_become_outlines_and_lines_thin() -> None:
    shapes = (
        Area(CORNERS, "#aa0000"),
        Line(CORNERS, "#00aa00", 3.0, dashed=True),
        Words(5.0, 20.0, f"12 {MISSED}{BEYOND}", "#0000aa", 14.0),
    )
    drawn = line_drawing(Picture(10, 30, "#ffffff", "t", "d", shapes), SHEET)
    area, line, words = drawn.shapes
    assert area == Area(CORNERS, "#ffffff", rim=SHEET.soft_ink, rim_width=1.0)
    assert line == Line(CORNERS, SHEET.soft_ink, 1.0)
    assert isinstance(words, Words)
    assert (words.text, words.size) == ("12", NUMBER_SIZE)
    # The middle of the figures stays: 20 − 0.72 · 14 ÷ 2 = 14.96 = y − 0.72 · 28 ÷ 2.
    assert abs(words.y - (14.96 + 0.72 * NUMBER_SIZE / 2)) < 1e-9
    assert (drawn.title, drawn.width, drawn.height) == ("t", 10, 30)
