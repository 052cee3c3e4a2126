"""Finishes or undoes what an interrupted run began, and removes what it left.

The next run that writes into a folder does so, from what lies on the disk alone, so that it may be
cut off itself at any point. A set is finished where its journal is there in every folder and every
new file lies beside or in its place. Otherwise it is undone: either nothing had changed its place,
or the earlier files are still there under their second names.
"""

import contextlib
import os
import time
from collections.abc import Collection, Iterable, Sequence
from enum import StrEnum
from pathlib import Path

from fewtubes.files.journal import Journal, leftovers, mark, read_journal, sync_folders

__all__ = ["Settled", "clear", "involved", "put_back", "put_in_place", "settle", "untouched"]

ABANDONED_SECONDS = 3600
"""Age from which files are nobody's any more where folders cannot be locked."""


class Settled(StrEnum):
    """What became of a set that was left half done."""

    FINISHED = "what it had ready was put in place"
    UNDONE = "what it had changed was put back"
    LEFT = (
        "files there have changed since, so they were left as they are and may not belong together"
    )


def involved(folders: Iterable[Path]) -> list[Path]:
    """Return the folders, and those of sets that were left half done in them."""
    found = list(dict.fromkeys(folders))
    for folder in found:  # grows meanwhile
        for journal in _journals(folder):
            others = [other for other in journal.others if other not in found and other.is_dir()]
            found.extend(others)
    return found


def _journals(folder: Path) -> list[Journal]:
    read = [read_journal(folder, token) for token in leftovers(folder)]
    return [journal for journal in read if journal is not None]


def settle(folders: Iterable[Path], *, locked: Collection[Path]) -> dict[Path, Settled]:
    """Finish or undo what earlier runs began in folders, and remove what they left.

    Parameters
    ----------
    folders
        Those of `involved`.
    locked
        Those that no other run can be at work in.

    Returns
    -------
    What became of sets that were half in place, by folder.

    Raises
    ------
    OSError
        If a file could not be put in place or back; it is tried again by the next run.
    """
    told: dict[Path, Settled] = {}
    for folder in folders:
        for token, paths in leftovers(folder).items():
            if folder not in locked and not _abandoned(paths):
                continue
            journal = read_journal(folder, token)
            if journal is None:
                _remove(paths)
            else:
                told |= _settled(journal)
    return told


def _abandoned(paths: Iterable[Path]) -> bool:
    """Whether nothing was done with any of the files for long."""
    oldest = time.time() - ABANDONED_SECONDS
    found = [path.lstat() for path in paths]
    return all(max(one.st_mtime, one.st_ctime) < oldest for one in found)


def _settled(journal: Journal) -> dict[Path, Settled]:
    """Finish or undo one set in all its folders; tell of those where it had begun."""
    elsewhere = [read_journal(other, journal.token) for other in journal.others]
    journals = [journal, *(found for found in elsewhere if found is not None)]
    begun = [one for one in journals if not untouched(one)]
    outcome = None
    if begun and not all(_in_place(one) for one in journals):
        if len(journals) == 1 + len(journal.others) and all(_ready(one) for one in journals):
            put_in_place(journals)
            outcome = Settled.FINISHED
        else:
            put_back(journals)
            outcome = Settled.UNDONE if all(map(untouched, journals)) else Settled.LEFT
    clear(journals)
    return {} if outcome is None else dict.fromkeys((one.folder for one in begun), outcome)


def untouched(journal: Journal) -> bool:
    """Whether everything is as it was before."""
    return all(mark(journal.target(i)) == move.earlier for i, move in enumerate(journal.moves))


def _in_place(journal: Journal) -> bool:
    return all(mark(journal.target(i)) == move.new for i, move in enumerate(journal.moves))


def _ready(journal: Journal) -> bool:
    """Whether every new file is there, and no place was changed by anybody else since."""
    for i, move in enumerate(journal.moves):
        now = mark(journal.target(i))
        if now not in {move.new, move.earlier}:
            return False
        if now != move.new and mark(journal.staged(i)) != move.new:
            return False
    return True


def put_in_place(journals: Sequence[Journal]) -> None:
    """Let every new file that still lies beside its place take it, down to the disk."""
    for journal in journals:
        for i, move in enumerate(journal.moves):
            if os.path.lexists(journal.staged(i)) or mark(journal.target(i)) != move.new:
                journal.staged(i).replace(journal.target(i))
    sync_folders(journal.folder for journal in journals)


def put_back(journals: Sequence[Journal]) -> None:
    """Give every earlier file its place back, as far as that can be done.

    A file that somebody else has put there since is left alone; see `untouched` for the outcome.
    """
    for journal in journals:
        for i, move in enumerate(journal.moves):
            with contextlib.suppress(OSError):
                if move.new != move.earlier and mark(journal.target(i)) == move.new:
                    _put_back(journal, i)
    with contextlib.suppress(OSError):
        sync_folders(journal.folder for journal in journals)


def _put_back(journal: Journal, place: int) -> None:
    earlier = journal.moves[place].earlier
    if earlier is None:
        journal.target(place).unlink()
    elif mark(journal.kept(place)) == earlier:
        journal.kept(place).replace(journal.target(place))


def clear(journals: Sequence[Journal]) -> None:
    """Remove all that lies beside the places, the journals last."""
    for journal in journals:
        pairs = [(journal.staged(i), journal.kept(i)) for i in range(len(journal.moves))]
        _remove([path for pair in pairs for path in pair])
    _remove([journal.path for journal in journals])


def _remove(paths: Iterable[Path]) -> None:
    for path in paths:
        with contextlib.suppress(OSError):
            path.unlink(missing_ok=True)
