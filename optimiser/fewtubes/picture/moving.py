"""Shapes moved to another place."""

from dataclasses import replace

from fewtubes.picture.shapes import Area, Fill, Grade, Line, Points, Shape, Words

__all__ = ["moved"]


def moved(shape: Shape, right: float, down: float) -> Shape:
    """Return a shape moved to the right and down [picture units]."""
    if isinstance(shape, Words):
        return replace(shape, x=shape.x + right, y=shape.y + down)
    points = _moved_points(shape.points, right, down)
    if isinstance(shape, Line):
        return replace(shape, points=points)
    return _moved_area(replace(shape, points=points), right)


def _moved_area(area: Area, right: float) -> Area:
    rim = None if area.rim is None else _moved_fill(area.rim, right)
    return replace(area, fill=_moved_fill(area.fill, right), rim=rim)


def _moved_fill(fill: Fill, right: float) -> Fill:
    if isinstance(fill, str):
        return fill
    return Grade(tuple((x + right, colour) for x, colour in fill.stops))


def _moved_points(points: Points, right: float, down: float) -> Points:
    return tuple((x + right, y + down) for x, y in points)
