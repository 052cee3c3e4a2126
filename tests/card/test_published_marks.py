"""The corner marks are those that OpenCV looks for."""

from itertools import combinations

import cv2
import numpy as np

from fewtubes.card.marks import CODES, FIELDS, codes_of_sheet, mark_fields, sheet_of_code

DISTANCE = 7
"""Fields in which two codes of the dictionary of 100 differ at least: it corrects 3 (OpenCV)."""


def test_codes_are_those_of_the_library() -> None:
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_100)
    for code in range(len(CODES)):
        theirs = cv2.aruco.generateImageMarker(dictionary, code, FIELDS) > 127
        assert (mark_fields(code) == theirs).all(), code


def test_no_two_can_be_taken_for_one_another() -> None:
    inner = [mark_fields(code)[1:-1, 1:-1] for code in range(len(CODES))]
    turned = [[np.rot90(fields, turns) for turns in range(4)] for fields in inner]
    for one, other in combinations(range(len(CODES)), 2):
        assert min((inner[one] != way).sum() for way in turned[other]) >= DISTANCE


def test_a_code_tells_its_sheet() -> None:
    assert codes_of_sheet(3, 48) == (56, 57, 58, 59)
    assert {sheet_of_code(code) for code in codes_of_sheet(3, 48)} == {14}
