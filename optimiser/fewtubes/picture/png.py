"""Pictures as PNG, drawn by matplotlib with the types it brings along.

Imported where used, since its import takes its time.
"""

import io
import warnings
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.picture.shapes import Area, Fill, Grade, Line, Picture, Points, Words

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["png_bytes"]

UNITS_PER_INCH = 96
"""A picture's unit is that of a web page, 1/96 inch."""

POINTS_PER_UNIT = 72 / UNITS_PER_INCH

DOTS_PER_UNIT = 2
"""Fine enough for a print at the size of the screen."""

FAMILY = "DejaVu Serif"
"""Comes with matplotlib, so that a PNG looks the same everywhere."""


def png_bytes(picture: Picture) -> bytes:
    """Return a picture as the content of a PNG file."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    size = (picture.width / UNITS_PER_INCH, picture.height / UNITS_PER_INCH)
    figure = Figure(figsize=size, dpi=UNITS_PER_INCH * DOTS_PER_UNIT, facecolor=picture.ground)
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1), frameon=False)
    axes.set_axis_off()
    axes.set_xlim(0, picture.width)
    axes.set_ylim(picture.height, 0)
    for depth, shape in enumerate(picture.shapes):
        if isinstance(shape, Words):
            _put_words(axes, shape, depth)
        elif isinstance(shape, Line):
            _put_line(axes, shape, depth)
        else:
            _put_area(axes, shape, depth)
    stream = io.BytesIO()
    with warnings.catch_warnings():
        # A name may hold signs the type lacks; they are drawn as boxes, which says so well enough.
        warnings.filterwarnings("ignore", message="Glyph .* missing from font")
        figure.savefig(stream, format="png", metadata={"Software": None})
    return stream.getvalue()


def _put_words(axes: "Axes", words: Words, depth: int) -> None:
    from matplotlib.patheffects import withStroke

    alignment = {"start": "left", "middle": "center", "end": "right"}[words.anchor]
    axes.text(
        words.x,
        words.y,
        words.text,
        color=words.colour,
        fontsize=words.size * POINTS_PER_UNIT,
        family=FAMILY,
        fontweight="bold" if words.bold else "normal",
        ha=alignment,
        va="baseline",
        zorder=depth,
        parse_math=False,
        path_effects=None
        if words.halo is None
        else [withStroke(linewidth=3, foreground=words.halo)],
    )


def _put_line(axes: "Axes", line: Line, depth: int) -> None:
    x, y = np.array(line.points).T
    axes.plot(
        x,
        y,
        color=line.colour,
        linewidth=line.width * POINTS_PER_UNIT,
        linestyle=(0, (4, 3)) if line.dashed else "solid",
        solid_capstyle="round",
        zorder=depth,
    )


def _put_area(axes: "Axes", area: Area, depth: int) -> None:
    from matplotlib.patches import Polygon

    solid = area.fill if isinstance(area.fill, str) else "none"
    patch = Polygon(area.points, closed=True, facecolor=solid, edgecolor="none", zorder=depth)
    axes.add_patch(patch)
    if isinstance(area.fill, Grade):
        xs = [x for x, _ in area.points]
        ys = [y for _, y in area.points]
        box = (min(xs), max(xs), max(ys), min(ys))
        places = np.linspace(box[0], box[1], max(2, round(box[1] - box[0]) * DOTS_PER_UNIT))
        image = axes.imshow(
            _channels(area.fill, places)[None],
            extent=box,
            aspect="auto",
            interpolation="bilinear",
            zorder=depth,
        )
        image.set_clip_path(patch)
    if area.rim is not None:
        _put_rim(axes, area.points, area.rim, area.rim_width, depth)


def _put_rim(axes: "Axes", points: Points, rim: Fill, width: float, depth: int) -> None:
    """Draw the rim piece by piece, each in the colour of its place."""
    from matplotlib.collections import LineCollection

    ring = np.array([*points, points[0]])
    pieces = np.stack([ring[:-1], ring[1:]], axis=1)
    colours = [rim] if isinstance(rim, str) else list(_channels(rim, pieces[:, :, 0].mean(axis=1)))
    collection = LineCollection(
        list(pieces),
        colors=colours,
        linewidths=width * POINTS_PER_UNIT,
        capstyle="round",
        zorder=depth,
    )
    axes.add_collection(collection, autolim=False)


def _channels(grade: Grade, places: np.ndarray) -> np.ndarray:
    """Return sRGB [0–1] at places x, shape (n, 3)."""
    stops = np.array([x for x, _ in grade.stops])
    known = np.array(
        [[int(hex_[k : k + 2], 16) / 255 for k in (1, 3, 5)] for _, hex_ in grade.stops]
    )
    return np.stack([np.interp(places, stops, known[:, c]) for c in range(3)], axis=1)
