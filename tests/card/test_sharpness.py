"""The width of edges."""

import cv2
import numpy as np
import pytest

from fewtubes.card.sharpness import edge_width


def squares(blur: float) -> np.ndarray:
    board = (np.indices((800, 800)) // 50).sum(axis=0) % 2
    grey = cv2.GaussianBlur(board.astype(np.float32) * 200, (0, 0), blur) if blur else board * 200
    return np.repeat(np.asarray(grey)[..., None], 3, axis=2).astype(np.uint8)


def test_a_sharp_edge_is_one_pixel_wide() -> None:
    assert edge_width(squares(0)) == pytest.approx(1, abs=0.05)


def test_a_blurred_edge_is_as_wide_as_its_blur_makes_it() -> None:
    # A step of height 1 blurred by a Gaussian of spread s is steepest with 1 / (s √(2π)).
    assert edge_width(squares(2.0)) == pytest.approx(2 * np.sqrt(2 * np.pi), rel=0.05)


@pytest.mark.parametrize("shape", [(400, 400, 3), (5, 400, 3)])
def test_without_edges_there_is_no_width(shape: tuple[int, ...]) -> None:
    assert edge_width(np.full(shape, 90, dtype=np.uint8)) == 0
