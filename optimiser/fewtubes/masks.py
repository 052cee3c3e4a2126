"""Sets of sample colours as bit masks."""

import numpy as np
import numpy.typing as npt

__all__ = ["WORD", "BoolArray", "MaskArray", "bits_to_masks", "masks_to_bits", "word_count"]

MaskArray = npt.NDArray[np.uint64]
"""Samples as bits, shape (…, words); bit t % 64 of word t // 64 is sample t."""

BoolArray = npt.NDArray[np.bool_]

WORD = 64
"""Samples in a word."""


def word_count(sample_count: int) -> int:
    """Return the number of 64-bit words that hold the samples, at least 1."""
    return max(1, -(-sample_count // WORD))


def bits_to_masks(bits: BoolArray) -> MaskArray:
    """Pack booleans, shape (…, samples), to masks, shape (…, words)."""
    padded = np.zeros((*bits.shape[:-1], word_count(bits.shape[-1]) * WORD), dtype=np.bool_)
    padded[..., : bits.shape[-1]] = bits
    return np.packbits(padded, axis=-1, bitorder="little").view(np.uint64)


def masks_to_bits(masks: MaskArray, sample_count: int) -> BoolArray:
    """Unpack masks, shape (…, words), to booleans, shape (…, samples)."""
    octets = np.ascontiguousarray(masks).view(np.uint8)
    return np.unpackbits(octets, axis=-1, bitorder="little")[..., :sample_count].view(np.bool_)
