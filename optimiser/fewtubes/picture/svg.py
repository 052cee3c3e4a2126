"""Pictures as SVG 1.1: alone in a file, or as part of a page.

Colours stand in attributes, not in style sheets, so that a page may forbid every foreign style.
"""

from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from fewtubes.picture.shapes import Area, Fill, Grade, Line, Picture, Points, Shape, Words

__all__ = ["FONTS", "svg_file", "svg_inline"]

FONTS = "Iowan Old Style, Palatino Linotype, Palatino, Book Antiqua, Georgia, serif"
"""Serif types that systems bring along; the last word stands for whichever there is."""

NAMESPACE = "http://www.w3.org/2000/svg"


def svg_file(picture: Picture) -> str:
    """Return a picture as the content of an SVG file, with its ground."""
    box = f"0 0 {_number(picture.width)} {_number(picture.height)}"
    ground = (
        f'<rect width="{_number(picture.width)}" height="{_number(picture.height)}"'
        f' fill="{picture.ground}"/>'
    )
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="{NAMESPACE}" viewBox="{box}" width="{_number(picture.width)}"'
            f' height="{_number(picture.height)}" role="img" aria-labelledby="title desc">',
            f'<title id="title">{escape(picture.title)}</title>',
            f'<desc id="desc">{escape(picture.description)}</desc>',
            ground,
            *_drawn(picture, ""),
            "</svg>\n",
        ]
    )


def svg_inline(picture: Picture, *, prefix: str, spoken: bool = True) -> str:
    """Return a picture as an element of a page, without its ground.

    Parameters
    ----------
    picture
        The picture.
    prefix
        Begins every id in it; unlike that of any other picture on the page.
    spoken
        Whether it is read out; not where the text beside says the same.
    """
    said = f"{picture.title}. {picture.description}"
    access = f'role="img" aria-label={quoteattr(said)}' if spoken else 'aria-hidden="true"'
    box = f"0 0 {_number(picture.width)} {_number(picture.height)}"
    return "\n".join([f'<svg viewBox="{box}" {access}>', *_drawn(picture, prefix), "</svg>"])


def _drawn(picture: Picture, prefix: str) -> Iterator[str]:
    """Yield the elements of all shapes, each gradient before it is used."""
    for number, shape in enumerate(picture.shapes):
        yield from _element(shape, f"{prefix}g{number}")


def _element(shape: Shape, id_: str) -> Iterator[str]:
    if isinstance(shape, Words):
        yield _words(shape)
    elif isinstance(shape, Line):
        yield _line(shape)
    else:
        yield from _area(shape, id_)


def _area(area: Area, id_: str) -> Iterator[str]:
    paints = [("fill", area.fill), ("stroke", area.rim)]
    attributes = ""
    for name, paint in paints:
        if isinstance(paint, Grade):
            yield _gradient(paint, f"{id_}{name}")
        if paint is not None:
            attributes += f' {name}="{_paint(paint, f"{id_}{name}")}"'
    if area.rim is not None:
        attributes += f' stroke-width="{_number(area.rim_width)}" stroke-linejoin="round"'
    yield f'<path d="M{_path(area.points)}Z"{attributes}/>'


def _gradient(grade: Grade, id_: str) -> str:
    """Return a linear gradient along x, its stops as shares of the way."""
    first, last = grade.stops[0][0], grade.stops[-1][0]
    stops = "".join(
        f'<stop offset="{(x - first) / (last - first):.4f}" stop-color="{colour}"/>'
        for x, colour in grade.stops
    )
    return (
        f'<linearGradient id="{id_}" gradientUnits="userSpaceOnUse" x1="{_number(first)}"'
        f' x2="{_number(last)}" y1="0" y2="0">{stops}</linearGradient>'
    )


def _paint(paint: Fill, id_: str) -> str:
    return f"url(#{id_})" if isinstance(paint, Grade) else paint


def _line(line: Line) -> str:
    dashes = ' stroke-dasharray="4 3"' if line.dashed else ""
    return (
        f'<path d="M{_path(line.points)}" fill="none" stroke="{line.colour}"'
        f' stroke-width="{_number(line.width)}" stroke-linecap="round"{dashes}/>'
    )


def _words(words: Words) -> str:
    weight = ' font-weight="bold"' if words.bold else ""
    if words.halo is not None:
        weight += f' stroke="{words.halo}" stroke-width="4" paint-order="stroke"'
    anchor = "" if words.anchor == "start" else f' text-anchor="{words.anchor}"'
    return (
        f'<text x="{_number(words.x)}" y="{_number(words.y)}" font-family="{FONTS}"'
        f' font-size="{_number(words.size)}" fill="{words.colour}"{anchor}{weight}>'
        f"{escape(words.text)}</text>"
    )


def _path(points: Points) -> str:
    return "L".join(f"{_number(x)} {_number(y)}" for x, y in points)


def _number(value: float) -> str:
    """Return a length to a tenth of a unit, which no screen shows."""
    return f"{value:.1f}".removesuffix(".0")
