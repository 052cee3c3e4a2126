"""Where the box at home is kept: in the file that was named, or in one of the page's own."""

import hashlib
from collections.abc import Sequence
from pathlib import Path

from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError
from fewtubes.page.at_home import OWNED, HomeFile, home_values
from fewtubes.page.forgetting import forgotten
from fewtubes.page.memory import catalogue_key
from fewtubes.page.settings import Settings
from fewtubes.page.tabs import FormValues
from fewtubes.words.printable import printable

__all__ = ["forget_own_box", "home_file", "is_level", "own_box_path", "with_home"]

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


def with_home(values: FormValues, home: HomeFile | None) -> FormValues:
    """Return values in which what is at home now is marked, in place of what was at home then."""
    if home is None:
        return values
    box = home.box
    marked = {key: typed for key, typed in values.items() if not is_level(key, typed)}
    owned = {
        key
        for key, typed in marked.items()
        if list(typed) == [OWNED] and box.left(key.removeprefix("tube-"))
    }
    return {**home_values(box), **{k: typed for k, typed in marked.items() if k not in owned}}


def is_level(key: str, typed: Sequence[str]) -> bool:
    """Return whether a field marks a tube as at home, with how full it is."""
    return key.startswith("tube-") and "".join(typed).startswith(f"{OWNED} ")
