"""The box at home on the page: what is marked as at home, and the one file it is saved to.

A tube is marked by ``owned`` and what is left of it, such as ``owned 0.5``; where the page was
started without a box, by ``owned`` alone.
"""

import os
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from fewtubes.catalogue.limits import parsed_number
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import Fault, InputError
from fewtubes.files.real_path import real_path
from fewtubes.files.writing import ChangedMeanwhileError, write_together
from fewtubes.page.fields import first_of
from fewtubes.page.forgetting import forgotten
from fewtubes.page.tabs import FormValues
from fewtubes.scenario.box_file import read_box
from fewtubes.scenario.box_text import edited_text
from fewtubes.scenario.home_box import LEFT_RANGE, BoxAtHome, TubeAtHome
from fewtubes.words.left import LEFT, left_words

__all__ = [
    "KNOWN",
    "OWNED",
    "HomeFile",
    "home_values",
    "known_values",
    "left_chosen",
    "marked_box",
    "wish_of",
    "wishes_offered",
]

OWNED = "owned"

KNOWN = "box-known"
"""Field with the ids that the file held when the tab was opened or saved, parted by blanks."""

ATTEMPTS = 5
"""Times that a change is made anew because another window wrote meanwhile."""

LISTED = {"must_have": "must be bought", "never": "never"}


class HomeFile:
    """The file of the box at home, which the page writes when it is told to.

    Parameters
    ----------
    path
        The file.
    catalogue
        Holds its tubes.
    remembered
        Whether it is the page's own, which need not be there yet and is saved with every question.

    Raises
    ------
    InputError
        If the file has faults.
    """

    def __init__(self, path: Path, catalogue: Catalogue, *, remembered: bool = False) -> None:
        self._named = path.absolute()
        self._path = real_path(path)
        self.name = path.name
        self.remembered = remembered
        self._catalogue = catalogue
        self._lock = threading.Lock()
        self._last = self._read()

    @property
    def box(self) -> BoxAtHome:
        """The box as the file has it now; as it was last, if it cannot be read any more."""
        try:
            self._last = self._read()
        except InputError:
            return self._last
        return self._last

    def save(self, values: FormValues) -> BoxAtHome:
        """Save the tubes marked as at home, and take out those that no longer are; see `_merged`.

        Raises
        ------
        InputError
            If the file cannot be read any more, told of the field ``tubes``.
        OutputError
            If it could not be written; it is as it was then.
        """
        return self._changed(lambda box: _merged(box, values, self._catalogue))

    def put(
        self, ids: Iterable[str], left: float = 1.0, *, catalogue: Catalogue | None = None
    ) -> BoxAtHome:
        """Put tubes in.

        Parameters
        ----------
        ids
            As in the catalogue.
        left
            What is left of each, a share [0–1].
        catalogue
            Holds them, from now on, where they were added to it since the page was started.

        Raises
        ------
        InputError, OutputError
            As of `save`.
        """
        self._catalogue = catalogue or self._catalogue
        return self._changed(lambda box: box.with_tubes(ids, left))

    @contextmanager
    def with_put(self, ids: Iterable[str]) -> Iterator[tuple[Path, str, str, bytes | None]]:
        """Put full tubes in, those that are there already left as they are.

        Yields folder and name of the file, its text, to be written by whoever asks, together with
        others, and what it held before; nobody else changes it meanwhile.

        Raises
        ------
        InputError
            If the file cannot be read any more, told of the field ``tubes``.
        """
        with self._lock:
            box, text, before = self._edited(lambda box: box.with_tubes(_new_in(box, ids), 1.0))
            yield self._path.parent, self._path.name, text, before
            self._last = box

    def forget(self) -> Path | None:
        """Forget the box, if it is the page's own; a painter's own file is never removed.

        Of a link to such a file the link goes, and the file stays, which is returned.

        Raises
        ------
        OutputError
            If it could not be removed.
        """
        if not self.remembered:
            return None
        with self._lock:
            stays = forgotten(self._named, is_own=lambda _file: False)
            self._path = self._named
            self._last = BoxAtHome()
        return stays

    def restock(self, catalogue: Catalogue) -> None:
        """Look tubes up in a catalogue to which some were added."""
        self._catalogue = catalogue

    def _read(self) -> BoxAtHome:
        """Return what the file holds; nothing where it is the page's own and is not there yet."""
        if self.remembered and not os.path.lexists(self._path):
            return BoxAtHome()
        return read_box(self._path, self._catalogue)

    def _changed(self, change: Callable[[BoxAtHome], BoxAtHome]) -> BoxAtHome:
        folder, name = self._path.parent, self._path.name
        with self._lock:
            for attempt in range(1, ATTEMPTS + 1):
                box, text, held = self._edited(change)
                try:
                    write_together({folder: {name: text}}, earlier={folder: {name: held}})
                except ChangedMeanwhileError:
                    if attempt < ATTEMPTS:
                        continue
                    raise
                break
            self._last = box
            return box

    def _edited(
        self, change: Callable[[BoxAtHome], BoxAtHome]
    ) -> tuple[BoxAtHome, str, bytes | None]:
        """Return the box as changed, the text of its file then, and what the file held before."""
        try:
            held = self._path.read_bytes() if self._path.is_file() else None
            box = change(self._read())
            return box, edited_text((held or b"").decode("utf-8-sig"), box), held
        except InputError as error:
            raise InputError([Fault("tubes", str(fault)) for fault in error.faults]) from error


def _new_in(box: BoxAtHome, ids: Iterable[str]) -> list[str]:
    return [id_ for id_ in ids if box.left(id_) is None]


def home_values(box: BoxAtHome) -> FormValues:
    """Return what the form begins with where there is a box: its tubes marked."""
    return {f"tube-{tube.id}": [_marked(tube.left)] for tube in box.tubes} | known_values(box)


def known_values(box: BoxAtHome) -> dict[str, list[str]]:
    """Return what the form holds of a box once it was shown or saved: what was in it."""
    return {KNOWN: [" ".join(tube.id for tube in box.tubes)]}


def wish_of(values: FormValues, tube: str) -> str:
    """Return the list that a tube was put on, or an empty text; an empty tube is on none."""
    wish, _, left = first_of(values, f"tube-{tube}").partition(" ")
    return "" if wish == OWNED and left and not left_chosen(values, tube) else wish


def left_chosen(values: FormValues, tube: str) -> float | None:
    """Return what is left of a tube that is marked as at home [0–1]; None if it is not."""
    wish, _, typed = first_of(values, f"tube-{tube}").partition(" ")
    left = parsed_number(typed) if wish == OWNED else None
    return left if left is not None and LEFT_RANGE.admits(left) else None


def marked_box(values: FormValues, box: BoxAtHome | None, catalogue: Catalogue) -> BoxAtHome:
    """Return the box that is asked about: the tubes marked, and those with another wish as before.

    An empty box where the page was started without one.
    """
    if box is None:
        return BoxAtHome()
    kept = (t for t in box.tubes if first_of(values, f"tube-{t.id}") in LISTED)
    tubes = {tube.id: tube for tube in (*kept, *_marks(values, catalogue))}
    order = [*(tube.id for tube in box.tubes), *catalogue.tubes]
    found = dict.fromkeys(id_ for id_ in order if id_ in tubes)
    return BoxAtHome(tuple(tubes[id_] for id_ in found), title=box.title, catalogue=box.catalogue)


def wishes_offered(
    values: FormValues, tube: str, home: HomeFile | None
) -> tuple[tuple[str, str, bool], ...]:
    """Return what can be chosen of a tube: value, words, and whether it is chosen."""
    chosen, left = first_of(values, f"tube-{tube}"), left_chosen(values, tube)
    own = [(OWNED, "I own it")]
    if home is not None:
        shares = sorted({*LEFT.values(), *(() if left is None else (left,))}, reverse=True)
        own = [(_marked(share), f"at home: {left_words(share)}") for share in shares]
        own += [(OWNED, "I own it, for this question")] if chosen == OWNED else []
    offered = [("", "no wish"), *own, *LISTED.items()]
    return tuple((value, words, value == chosen) for value, words in offered)


def _marked(left: float) -> str:
    return f"{OWNED} {left!r}"


def _marks(values: FormValues, catalogue: Catalogue) -> Iterator[TubeAtHome]:
    """Yield the tubes marked as at home, in the order of the catalogue."""
    for id_ in catalogue.tubes:
        left = left_chosen(values, id_)
        if left is not None:
            yield TubeAtHome(id_, left)


def _merged(box: BoxAtHome, values: FormValues, catalogue: Catalogue) -> BoxAtHome:
    """Return the box with what was marked put in, and what is no longer marked taken out.

    Only a tube that the file held when the tab was opened or saved is taken out, so that nothing
    is lost that was put in from elsewhere since; and none that is wished for or refused.
    """
    marks = {tube.id: tube for tube in _marks(values, catalogue)}
    gone = {
        id_
        for id_ in first_of(values, KNOWN).split()
        if id_ not in marks and not first_of(values, f"tube-{id_}")
    }
    for tube in marks.values():
        if tube.left != box.left(tube.id):
            box = box.with_tubes([tube.id], tube.left)
    return box.without(gone)
