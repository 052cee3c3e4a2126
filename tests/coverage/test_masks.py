"""Bit masks there and back."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import array_shapes, arrays

from fewtubes.masks import BoolArray, bits_to_masks, masks_to_bits, word_count

tables = arrays(np.bool_, array_shapes(min_dims=1, max_dims=3, min_side=0, max_side=150))


@given(tables)
def test_bits_come_back(bits: BoolArray) -> None:
    masks = bits_to_masks(bits)
    assert masks.dtype == np.uint64
    assert masks.shape == (*bits.shape[:-1], word_count(bits.shape[-1]))
    back = masks_to_bits(masks, bits.shape[-1])
    assert back.dtype == np.bool_
    np.testing.assert_array_equal(back, bits)


@given(tables)
def test_as_many_bits_as_samples(bits: BoolArray) -> None:
    """Nothing is set beyond the last sample, so that counting bits counts samples."""
    assert np.bitwise_count(bits_to_masks(bits)).sum() == bits.sum()


@given(st.integers(0, 199))
def test_where_a_sample_is_kept(sample: int) -> None:
    # By definition bit t % 64 of word t // 64.
    bits = np.zeros(200, dtype=np.bool_)
    bits[sample] = True
    words = bits_to_masks(bits).tolist()
    assert words == [1 << sample % 64 if word == sample // 64 else 0 for word in range(4)]


@pytest.mark.parametrize(
    ("samples", "words"), [(0, 1), (1, 1), (64, 1), (65, 2), (128, 2), (129, 3)]
)
def test_words_needed(samples: int, words: int) -> None:
    assert word_count(samples) == words


def test_a_cut_out_of_a_table_of_masks() -> None:
    bits = np.random.default_rng(11).random((5, 6, 70)) < 0.5
    np.testing.assert_array_equal(masks_to_bits(bits_to_masks(bits)[:, ::2], 70), bits[:, ::2])
