"""The perspective, by hand and against OpenCV."""

import cv2
import numpy as np

from fewtubes.card.homography import homography, projected

SQUARE = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])


def test_a_perspective_worked_by_hand() -> None:
    # (x, y) → (2x / (1 + x), 2y / (1 + x)): the side x = 1 is seen at half the size of x = 0.
    matrix = np.array([[2.0, 0, 0], [0, 2.0, 0], [1.0, 0, 1.0]])
    seen = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 2.0]])
    assert np.allclose(projected(matrix, SQUARE), seen)
    assert np.allclose(homography(SQUARE, seen), matrix)
    # The middle of the square: 2 · 0.5 / 1.5 = 2/3 in both.
    assert np.allclose(projected(homography(SQUARE, seen), np.array([0.5, 0.5])), 2 / 3)


def test_it_agrees_with_opencv_on_many_points() -> None:
    random = np.random.default_rng(4)
    points = random.uniform(0, 300, (16, 2))
    true = np.array([[3.1, 0.2, 40], [-0.3, 2.8, 25], [2e-4, -1e-4, 1]])
    exact = projected(true, points)
    assert np.allclose(homography(points, exact), true, rtol=1e-6, atol=1e-9)
    seen = exact + random.normal(0, 0.3, exact.shape)
    theirs, _ = cv2.findHomography(points, seen)  # least squares over all points
    places = random.uniform(0, 300, (50, 2))
    ours = projected(homography(points, seen), places)
    # It goes on to the least geometric error, so that they agree within the noise only.
    assert np.abs(ours - projected(np.asarray(theirs), places)).max() < 0.3
