"""Arrays come back as they were, and nothing else is taken for arrays."""

import json
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as npst

from fewtubes.coverage.packed_arrays import packed, unpacked

NUMBERS = st.sampled_from(["<f8", "<f4", "<i8", "<i2", "<u8", "|u1", "|b1"])


@given(
    st.dictionaries(
        st.text(max_size=5),
        NUMBERS.flatmap(lambda kind: npst.arrays(kind, npst.array_shapes(min_side=0, max_dims=3))),
        max_size=3,
    )
)
def test_what_is_packed_comes_back(content: dict[str, np.ndarray[Any, Any]]) -> None:
    found = unpacked(packed(content))
    assert found is not None
    assert list(found) == list(content)
    for name, array in content.items():
        assert found[name].dtype == array.dtype
        np.testing.assert_array_equal(found[name], array, strict=True)


def test_the_order_in_memory_does_not_matter() -> None:
    array = np.asfortranarray(np.arange(6.0).reshape(2, 3))
    found = unpacked(packed({"x": array[:, ::-1]}))
    assert found is not None
    np.testing.assert_array_equal(found["x"], array[:, ::-1])


@pytest.mark.parametrize("array", [np.array(["a"]), np.array([object()]), np.array([1j])])
def test_only_numbers_are_kept(array: np.ndarray[Any, Any]) -> None:
    with pytest.raises(ValueError, match="only numbers"):
        packed({"x": array})


HEADS: list[object] = [
    None,
    7,
    {},
    "x",
    [7],
    [["x", "<f8"]],
    [["x", "<f8", [1], 1]],
    [["x", "<f8", 1]],
    [["x", "<f8", ["1"]]],
    [["x", "<f8", [-1]]],
    [["x", "<f8", [True]]],
    [["x", "<f8", [1.0]]],
    [["x", "<f8", [2]]],
    [["x", "<f8", [10**40]]],
    [["x", "<f8", [0, 10**40]], ["y", "<f8", [1]]],
    [["x", "<f8", [1] * 100]],
    [["x", "|O8", [1]]],
    [["x", "<f3", [1]]],
    [["x", "(1,)f8", [1]]],
    [["x", 8, [1]]],
    [[["x"], "<f8", [1]]],
    [["x", "<f8", [1]], ["x", "<f8", [1]]],
]


@pytest.mark.parametrize("head", HEADS, ids=str)
def test_another_head_is_none(head: object) -> None:
    """Before the eight bytes of one number; only the head that says so is taken."""
    number = np.array([1.5]).tobytes()
    assert unpacked(json.dumps([["x", "<f8", [1]]]).encode() + b"\n" + number) is not None
    assert unpacked(json.dumps(head).encode() + b"\n" + number) is None


@pytest.mark.parametrize(
    "data", [b"", b"\n", b"PK\x03\x04", b"[" * 100_000, b"\xff\n", b"9" * 9000]
)
def test_other_bytes_are_none(data: bytes) -> None:
    assert unpacked(data) is None
