"""Writes named arrays of numbers as bytes, and reads them back without trusting the bytes.

The first line is JSON and tells of each array its name, type and shape; then follow their numbers
one after the other. Nothing is unpacked that could be more than what lies there, and no object.
"""

import json
import math
import re
from collections.abc import Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

__all__ = ["packed", "unpacked"]

NUMBERS = re.compile(r"[<>|][fiub][1248]")
"""Types that can be told: floating point, whole numbers, truth values."""

LONGEST_HEAD = 10_000
"""Longest first line looked at [bytes]."""

MOST_AXES = 8
"""Axes of an array at most."""

Arrays = Mapping[str, npt.NDArray[Any]]

Layout = Mapping[str, tuple["np.dtype[Any]", tuple[int, ...]]]
"""Type and shape of each array by name."""


def packed(content: Arrays) -> bytes:
    """Return named arrays as bytes."""
    arrays = {name: np.asarray(array, order="C") for name, array in content.items()}
    head = [[name, array.dtype.str, array.shape] for name, array in arrays.items()]
    line = json.dumps(head).encode("ascii") + b"\n"
    if not all(NUMBERS.fullmatch(array.dtype.str) for array in arrays.values()):
        raise ValueError(f"only numbers can be kept (got {line!r})")
    return line + b"".join(array.tobytes() for array in arrays.values())


def unpacked(data: bytes | memoryview) -> dict[str, npt.NDArray[Any]] | None:
    """Return the inverse of `packed`, arrays that cannot be written; None for anything else."""
    line, found, _ = bytes(data[:LONGEST_HEAD]).partition(b"\n")
    try:
        head = json.loads(line.decode("ascii"))
        layout = {name: (_type(told), _shape(shape)) for name, told, shape in head}
        if len(layout) != len(head):
            return None  # a name stands twice
        return _cut(data[len(line) + len(found) :], layout)
    except (ValueError, TypeError, OverflowError, RecursionError):
        return None


def _cut(data: bytes | memoryview, layout: Layout) -> dict[str, npt.NDArray[Any]]:
    """Return the arrays that lie one after the other, or raise ValueError."""
    sizes = [told.itemsize * math.prod(shape) for told, shape in layout.values()]
    if sum(sizes) != len(data):
        raise ValueError("another length")
    arrays, begin = {}, 0
    for (name, (told, shape)), size in zip(layout.items(), sizes, strict=True):
        arrays[name] = np.frombuffer(data[begin : begin + size], dtype=told).reshape(shape)
        begin += size
    return arrays


def _type(told: object) -> "np.dtype[Any]":
    if not isinstance(told, str) or not NUMBERS.fullmatch(told):
        raise ValueError("no type of numbers")
    return np.dtype(told)


def _shape(told: object) -> tuple[int, ...]:
    if not isinstance(told, list) or len(told) > MOST_AXES:
        raise ValueError("no shape")
    if not all(type(length) is int and length >= 0 for length in told):
        raise ValueError("no shape")
    return tuple(told)
