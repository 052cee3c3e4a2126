"""The content of a picture, from memory or from its file; it is never written anywhere."""

from os import PathLike
from pathlib import Path

from fewtubes.catalogue.files import shown_name
from fewtubes.colour.picture_file import LARGEST_BYTES, WHERE, Photograph, photograph
from fewtubes.errors import Fault, InputError

__all__ = ["LONGEST_SIDE", "Picture", "picture_name", "unpacked"]

LONGEST_SIDE = 2400
"""Pixels to which a photograph is reduced; eight to a millimetre of a card."""

Picture = bytes | str | PathLike[str] | Photograph
"""The content of a picture file, where it lies, or what was unpacked of it with `LONGEST_SIDE`."""


def picture_name(picture: Picture) -> str:
    """Return what a fault of a picture is told of."""
    return WHERE if isinstance(picture, bytes | Photograph) else shown_name(Path(picture))


def unpacked(picture: Picture, where: str) -> Photograph:
    """Return a picture in memory, upright and reduced; faults are told of `where`.

    Raises
    ------
    InputError
        If it cannot be read, is too large, or is no JPEG, PNG or WebP picture.
    """
    if isinstance(picture, Photograph):
        return picture
    return photograph(_content(picture, where), longest_side=LONGEST_SIDE, where=where)


def _content(picture: bytes | str | PathLike[str], where: str) -> bytes:
    """Return the content of a picture; a byte more than allowed at most."""
    if isinstance(picture, bytes):
        return picture
    path = Path(picture)
    try:
        if not path.is_file():
            what = "there is no such file" if not path.exists() else "is not a file"
            raise InputError([Fault(where, f"{what}; name the photograph or scan of the card.")])
        with path.open("rb") as file:
            return file.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:  # ValueError: a null character in the name
        reason = getattr(error, "strerror", None) or str(error)
        what = f"cannot be read ({reason}); check name and permissions."
        raise InputError([Fault(where, what)]) from None
