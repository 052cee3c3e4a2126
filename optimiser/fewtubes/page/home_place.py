"""Where the box at home is kept: in the file that was named, or in one of the page's own."""

import hashlib
from pathlib import Path

from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError
from fewtubes.page.at_home import HomeFile
from fewtubes.page.forgetting import forgotten
from fewtubes.page.memory import catalogue_key
from fewtubes.page.settings import Settings
from fewtubes.words.printable import printable

__all__ = ["forget_own_box", "home_file", "own_box_path"]

DIGITS = 8
"""Of the digest by which boxes of catalogues of the same name are told apart."""


def own_box_path(settings: Settings) -> Path | None:
    """Return the file of the page's own box, one for each catalogue; None if nothing is remembered.

    Tubes of one catalogue are unknown to another.
    """
    if settings.data is None:
        return None
    if settings.catalogue is None:
        return settings.data.absolute() / "box.toml"
    digest = hashlib.sha256(catalogue_key(settings.catalogue).encode("utf-8")).hexdigest()
    return settings.data.absolute() / f"box-{digest[:DIGITS]}.toml"


def home_file(settings: Settings, catalogue: Catalogue) -> tuple[HomeFile | None, str]:
    """Return the box at home, and why the page's own is not there as a sentence, "" if all is well.

    Raises
    ------
    InputError
        If the page was started with a box whose file has faults.
    """
    if settings.box is not None:
        return HomeFile(settings.box, catalogue), ""
    path = own_box_path(settings)
    if path is None:
        return None, ""
    try:
        return HomeFile(path, catalogue, remembered=True), ""
    except InputError as error:
        remedy = "no box is remembered until you put it right or let it be forgotten here"
        return None, f"{printable(str(path))}: {error.faults[0]} ({remedy})"


def forget_own_box(settings: Settings) -> Path | None:
    """Remove the page's own box, whatever it holds; return the file to which it led, if it did.

    Raises
    ------
    OutputError
        If it could not be removed.
    """
    path = own_box_path(settings)
    return None if path is None else forgotten(path, is_own=lambda _file: False)
