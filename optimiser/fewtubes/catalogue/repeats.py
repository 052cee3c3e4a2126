"""Finds what a table holds twice, or under names that cannot be told apart."""

from collections.abc import Iterable

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.rows import Row

__all__ = ["ALIKE", "Namesakes", "Sightings"]

ALIKE = "capitals, spaces and signs that do not show tell no names apart"
"""Why two names count as one; the way letters and accents are stored goes without saying."""


class Sightings:
    """What has been read before, and in which row, to tell repeats.

    A blank, or a number that could not be read, has been told of already and repeats nothing.
    """

    def __init__(self) -> None:
        self._first: dict[tuple[object, ...], str] = {}

    def is_new(self, row: Row, key: tuple[object, ...], thing: str) -> bool:
        """Return whether `key` is met for the first time; note a repeat of `thing`."""
        if not _is_known(key):
            return True
        first = self._first.setdefault(key, row.where)
        if first == row.where:
            return True
        row.note(f"{thing} is already in {_row_of(first)}; keep only one of them")
        return False


class Namesakes:
    """Names met before, to tell those that a reader would take for one another.

    Parameters
    ----------
    may_repeat
        Whether the very same name may stand in several rows, as a flower's does.
    """

    def __init__(self, *, may_repeat: bool = False) -> None:
        self._may_repeat = may_repeat
        self._first: dict[tuple[str, str], tuple[str, str]] = {}

    def note_any(self, row: Row, name: str, thing: str, *, within: str = "") -> None:
        """Note a name like one met before.

        Parameters
        ----------
        row, name
            The name, and where it stands.
        thing
            What bears it, as a message calls it.
        within
            What the name belongs to; names that belong to different things may be alike.
        """
        if not name:
            return
        first, met = self._first.setdefault((within, alike_key(name)), (row.where, name))
        if met != name:
            row.note(
                f"{thing} {shown(name)} cannot be told from {shown(met)} in {_row_of(first)}, since"
                f" {ALIKE}; write both the same way, or rename one"
            )
        elif first != row.where and not self._may_repeat:
            row.note(
                f"{thing} {shown(name)} is already in {_row_of(first)}; give each a name of its own"
            )


def _is_known(key: Iterable[object]) -> bool:
    """Return whether no part is blank or NaN, which alone differs from itself."""
    return all(part != "" and part == part for part in key)  # noqa: PLR0124


def _row_of(where: str) -> str:
    return where.rpartition(", ")[2]
