"""Points become small squares."""

import pytest

from fewtubes.card.layout import Unit
from fewtubes.card.points import PointedSwatch, layout_of_points
from fewtubes.errors import InputError


def test_points_of_a_tube_are_one_row() -> None:
    swatches = [
        PointedSwatch("my rose", 1, over_black=False, x=0.5, y=0.5, codes=("PV19",)),
        PointedSwatch("blue", 1, over_black=False, x=0.2, y=0.2),
        PointedSwatch("My  Rose", 0.25, over_black=True, x=0.0, y=1.0),
    ]
    layout = layout_of_points(swatches, white=[(0.9, 0.1)], width=400, height=200, radius=0.01)
    assert layout.unit is Unit.SHARE
    rose, blue = layout.sheets[0].rows
    assert (rose.name, rose.codes, len(rose.boxes), blue.name) == ("my rose", ("PV19",), 2, "blue")
    # 0.01 of the longer side, 400, is 4: 0.01 of the width and 0.02 of the height to each side.
    place = rose.boxes[0].rectangle
    assert (place.left, place.top) == pytest.approx((0.49, 0.48))
    assert (place.width, place.height) == pytest.approx((0.02, 0.04))
    corner = rose.boxes[1]
    assert corner.over_black
    place = corner.rectangle
    assert (place.left, place.top) == pytest.approx((0.0, 0.96))
    assert (place.width, place.height) == pytest.approx((0.02, 0.04))
    assert len(layout.sheets[0].white) == 1


def test_points_are_missing() -> None:
    swatch = PointedSwatch("my rose", 1, over_black=False, x=0.5, y=0.5)
    with pytest.raises(InputError, match="none on bare paper"):
        layout_of_points([swatch], white=[], width=4, height=3)
    with pytest.raises(InputError, match="none on a swatch"):
        layout_of_points([], white=[(0.5, 0.5)], width=4, height=3)
