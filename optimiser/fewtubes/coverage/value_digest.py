"""The digest of a value, the same in every run: by it one knows that a question has not changed.

Pickled bytes would not do: the order of a frozen set changes from run to run, and so does which of
two equal texts is one object.
"""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from hashlib import sha256
from pathlib import PurePath

import numpy as np

__all__ = ["digest_of"]

PLAIN = (str, int, float, Decimal, Fraction, PurePath)
"""What is told apart by its type and its text."""


def digest_of(value: object) -> str:
    """Return the SHA-256 digest of a value and everything in it, as hexadecimal digits.

    Parameters
    ----------
    value
        A frozen dataclass, a mapping, a sequence or set of such, an array or a plain value.

    Raises
    ------
    TypeError
        If anything in it is of another kind, of which one could not tell whether it has changed.

    Examples
    --------
    >>> digest_of({"a": (1, 2.5)}) == digest_of({"a": [1, 2.5]})
    True
    >>> digest_of(1) == digest_of(1.0)
    False
    """
    digest = sha256()
    for piece in _pieces(value):
        digest.update(len(piece).to_bytes(8, "little"))
        digest.update(piece)
    return digest.hexdigest()


def _pieces(value: object) -> Iterator[bytes]:
    """Yield a value as pieces of bytes; what it is made of stands between brackets."""
    if value is None or isinstance(value, Enum | bool):
        yield f"{type(value).__name__} {value!r}".encode()
    elif isinstance(value, PLAIN):
        kind = next(one for one in PLAIN if isinstance(value, one))
        yield f"{kind.__name__} {value if kind in {str, PurePath} else repr(value)}".encode()
    elif isinstance(value, np.ndarray):
        yield f"array {value.dtype.str} {value.shape}".encode()
        yield np.ascontiguousarray(value).tobytes()
    else:
        yield b"("
        yield from _parts(value)
        yield b")"


def _parts(value: object) -> Iterator[bytes]:
    """Yield what a value is made of: fields by name, keys with their values, members."""
    if is_dataclass(value) and not isinstance(value, type):
        yield type(value).__name__.encode()
        for field in fields(value):
            yield field.name.encode()
            yield from _pieces(getattr(value, field.name))
    elif isinstance(value, Mapping):
        for key, held in value.items():
            yield from _pieces(key)
            yield from _pieces(held)
    elif isinstance(value, frozenset | set):
        for digest in sorted(digest_of(member) for member in value):
            yield digest.encode()
    elif isinstance(value, list | tuple):
        for member in value:
            yield from _pieces(member)
    else:
        raise TypeError(f"a {type(value).__name__} has no digest")
