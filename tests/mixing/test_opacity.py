"""The four classes of transparency."""

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import Transparency, contrast_ratio, transparency


@pytest.mark.parametrize(
    ("ratio", "word"),
    [
        # Our own cut-offs, no standard: 0.10, 0.25, 0.50 begin the next class.
        (0.0, "transparent"),
        (0.0999, "transparent"),
        (0.10, "semi-transparent"),
        (0.2499, "semi-transparent"),
        (0.25, "semi-opaque"),
        (0.4999, "semi-opaque"),
        (0.50, "opaque"),
        (1.0, "opaque"),
    ],
)
def test_classes(ratio: float, word: str) -> None:
    assert transparency(ratio).word == word


def test_classes_are_ranked_by_what_they_hide() -> None:
    grades = [transparency(ratio) for ratio in np.linspace(0, 1, 101)]
    assert grades == sorted(grades)
    assert set(grades) == set(Transparency)


def test_many_films_at_once(catalogue: Catalogue, optics: Optics) -> None:
    tubes = list(catalogue.tubes.values())
    K, S = np.array([tube.K for tube in tubes]), np.array([tube.S for tube in tubes])
    luminous = optics.weights[:, 1]
    ratios = contrast_ratio(K, S, luminous)
    assert ratios.shape == (len(tubes),)
    assert ((ratios > 0) & (ratios < 1)).all()
    for k, s, ratio in zip(K, S, ratios, strict=True):
        assert contrast_ratio(k, s, luminous) == pytest.approx(ratio, rel=1e-12)
