"""A fingerprint of a catalogue's tables, so that kept results are used for the same tables only."""

import hashlib
from pathlib import Path

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import TABLE_COLUMNS
from fewtubes.errors import Fault, InputError

__all__ = ["catalogue_digest"]


def catalogue_digest(folder: Path | None = None) -> str:
    """Return the SHA-256 over names and bytes of the tables, 64 hexadecimal digits.

    Parameters
    ----------
    folder
        The catalogue's folder, None for the demo catalogue. Files beside the tables do not count.
    """
    home = demo_catalogue_folder() if folder is None else folder
    digest = hashlib.sha256()
    for name in TABLE_COLUMNS:
        try:
            data = (home / name).read_bytes()
        except OSError as error:
            fault = Fault(name, f"cannot be read from '{home}' ({error.strerror}); check the file.")
            raise InputError([fault]) from error
        # The length keeps bytes from wandering between neighbouring tables unnoticed.
        digest.update(f"{name}\n{len(data)}\n".encode())
        digest.update(data)
    return digest.hexdigest()
