"""Removes a file that holds what is to be forgotten, and not only the link that leads to it."""

from collections.abc import Callable
from pathlib import Path

from fewtubes.errors import OutputError
from fewtubes.files.real_path import real_path
from fewtubes.words.printable import printable

__all__ = ["forgotten"]


def forgotten(path: Path, *, is_own: Callable[[Path], bool]) -> Path | None:
    """Remove a file; where it is a link also the file that it leads to, if that is the page's own.

    Parameters
    ----------
    path
        It need not be there.
    is_own
        Whether the file to which a link leads holds nothing but what the page wrote.

    Returns
    -------
    :
        The file to which a link led and which stays; None if nothing stays.

    Raises
    ------
    OutputError
        If one could not be removed; a link stays too then.
    """
    one = path
    try:
        if not path.is_symlink():
            path.unlink(missing_ok=True)
            return None
        real = real_path(path)
        stays = real.exists() and not is_own(real)
        if not stays and real != path:
            one = real
            real.unlink(missing_ok=True)
        one = path
        path.unlink(missing_ok=True)
    except OSError as error:
        reason = error.strerror or str(error)
        raise OutputError(f"{printable(str(one))} stays: {reason}") from error
    return real if stays else None
