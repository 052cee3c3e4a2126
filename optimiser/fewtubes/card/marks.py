"""The corner marks: squares of five by five fields within a black rim, one code for each corner.

The codes are the first 96 of the dictionary of 5 × 5 fields that OpenCV's module `aruco` finds by
itself (S. Garrido-Jurado and others, Automatic generation and detection of highly reliable
fiducial markers under occlusion, Pattern Recognition 47(6), 2014); any two differ in at least 7
fields, turned as they may be. They stand here so that a card can be printed without that library.
"""

import numpy as np
import numpy.typing as npt

__all__ = ["CODES", "CORNERS", "FIELDS", "codes_of_sheet", "mark_fields", "sheet_of_code"]

FIELDS = 7
"""Fields along a mark's side, with the rim."""

CORNERS = ("top left", "top right", "bottom right", "bottom left")
"""In the order of the codes of a sheet."""

CODES = tuple(
    int(code, 16)
    for code in """
    145b2bc 01c06e6 1af0edd 10395f7 1aeb524 1d4082d 0d3d7ec 0e2146b 10d6132 1313fa5 13cee03
    1a2dac0 1e62b11 05e7166 1fcfca8 051e37f 097a758 0bea26f 0f64dc4 1061de8 12dda75 150e440
    16b0ca1 0ba12de 19cd023 1a59972 1c3ce8b 0224246 03b9672 024223b 027376e 0368873 040d0ce
    04aaac8 04643ba 07a6fea 0998aac 082d101 09aad1d 0863c72 0ad2825 0a52f9e 0d849f7 0c309d9
    0da7e31 0e9627a 0e9b997 0f94806 0f59125 0f6b7d7 11b58e4 11ad279 11e380b 1169445 12ffb4a
    158cb8d 15987f0 1422fdf 14e1227 156df22 173dbf1 164c93c 17cbb86 1880a87 19147dd 184eb8a
    18d85ad 1b2cda9 1babd73 1e9d432 1e76528 0f5740a 1b11a53 018ce65 02ab219 098e981 0a8061c
    141a158 185314c 196d12c 1fad3a2 00922b5 019bce0 00b547c 002c76f 0132289 012d2a7 00c4b43
    0067bc5 00faa0d 01f1f54 038e879 0323b23 02c3647 02da51b 02e9d8d
    """.split()  # noqa: SIM905  a list of words would take a page
)
"""Each the 25 fields of a mark row by row, 1 for white."""


def codes_of_sheet(number: int, first: int) -> tuple[int, ...]:
    """Return the codes of a sheet's four corners, in the order of `CORNERS`.

    Parameters
    ----------
    number
        Of the sheet, from 1.
    first
        Code of the first sheet of this size of paper.
    """
    start = first + len(CORNERS) * (number - 1)
    return tuple(range(start, start + len(CORNERS)))


def sheet_of_code(code: int) -> int:
    """Return which four a code belongs to, counted from 0 through all sizes of paper."""
    return code // len(CORNERS)


def mark_fields(code: int) -> npt.NDArray[np.bool_]:
    """Return which fields of a mark are white, shape (7, 7)."""
    fields = np.zeros((FIELDS, FIELDS), dtype=np.bool_)
    bits = f"{CODES[code]:025b}"
    fields[1:-1, 1:-1] = np.array([bit == "1" for bit in bits]).reshape(5, 5)
    return fields
