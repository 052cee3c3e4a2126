"""Swatches that changed places, and strokes that only turned out too strong or too thin."""

import numpy as np
import pytest

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.colour.difference import delta_e_2000
from fewtubes.errors import InputError
from fewtubes.fitting.left_out import Predicted
from fewtubes.fitting.mixed_up import Foretold, check_not_mixed_up
from fewtubes.fitting.sheet import PaintedSwatch, PaintedTube, SeenLab

LIGHT, DEEP = (75.0, 30.0, -5.0), (45.0, 55.0, -10.0)


def _half(
    name: str, seen: tuple[float, float, float], said: tuple[float, float, float], nearest: float
) -> Foretold:
    """Return a tube by its half wash: as seen, and what the others say of it."""
    swatch = PaintedSwatch(name, 0.5, over_black=False, colour=SeenLab(seen), noise=1.5)
    difference = float(delta_e_2000(np.array(seen), np.array(said)))
    foretold = Predicted(np.array(said), difference, min(nearest, difference))
    return PaintedTube(name, (), (swatch,)), np.array([seen]), (foretold,)


def _check(nearest: float) -> None:
    collector = FaultCollector()
    tubes = [_half("a", LIGHT, DEEP, nearest), _half("b", DEEP, LIGHT, nearest)]
    check_not_mixed_up(tubes, collector)
    collector.raise_if_any()


def test_each_fits_the_other_tube_and_at_no_strength_its_own() -> None:
    with pytest.raises(InputError, match="seem to have changed places"):
        _check(nearest=99.0)


def test_what_a_slip_of_the_hand_explains_has_not_changed_places() -> None:
    _check(nearest=3.0)
