"""A set of files is written whole or not at all.

A journal in each folder tells what is to come, and each file is first written beside its place.
Only when all of that is on the disk does each take its place; the earlier files are kept until the
last one has. An error or an interruption before that point puts everything back as
it was. Signals that would end the program wait until the set is in place. If the program is killed
or the power fails, the next run that writes there finishes or undoes the set.
"""

import contextlib
import errno
import os
import secrets
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from hashlib import sha256
from pathlib import Path

from fewtubes.errors import OutputError
from fewtubes.files.folder_locks import locked
from fewtubes.files.interruptions import Hold, held
from fewtubes.files.journal import Journal, Move, mark, sync_folders
from fewtubes.files.real_path import real_path
from fewtubes.files.settling import (
    Settled,
    clear,
    involved,
    put_back,
    put_in_place,
    settle,
    untouched,
)

__all__ = ["ChangedMeanwhileError", "Contents", "Earlier", "write_all", "write_together"]

Contents = Mapping[str, bytes | str]
"""Content by plain file name; text is written as UTF-8 with its line ends as they are."""

Earlier = Mapping[Path, Mapping[str, bytes | str | None]]
"""By folder and plain file name what a file is to hold still when it is replaced, or that there is
none (None); text stands for its UTF-8."""

UNCHANGED: Earlier = {}

ATTEMPTS = 5
"""Times that folders are looked at for sets half done before others are found to be too busy."""


class ChangedMeanwhileError(OutputError):
    """Another run has written what the new files were made from."""


def _nothing(*_told: object) -> None:
    """Do nothing, where nobody wants to be told."""


def write_all(
    folder: Path,
    files: Contents,
    *,
    written: Callable[[], None] = _nothing,
    settled: Callable[[Path, Settled], None] = _nothing,
) -> None:
    """Write all files into a folder, or none; see `write_together`.

    Parameters
    ----------
    folder
        Made with its parents if it is not there.
    files
        Content by plain file name.
    written, settled
        As for `write_together`.

    Raises
    ------
    OutputError
        If a file could not be written; nothing was changed then.
    """
    write_together({folder: files}, written=written, settled=settled)


def write_together(
    folders: Mapping[Path, Contents],
    *,
    earlier: Earlier = UNCHANGED,
    written: Callable[[], None] = _nothing,
    settled: Callable[[Path, Settled], None] = _nothing,
) -> None:
    """Write all files into several folders, or none of them into any.

    Parameters
    ----------
    folders
        For each folder its files, as for `write_all`; no file may be named twice.
    earlier
        What the new files were made from, so that nothing is lost that another run wrote since; it
        is looked at once no other run can write any more.
    written
        Called once all files are in their places; a signal that came meanwhile has its way only
        afterwards, so that whoever is interrupted by it knows.
    settled
        Called for each folder in which an earlier run was cut off half way, with what became of it.

    Raises
    ------
    OutputError
        If a file could not be written or is not as it was; nothing was changed then, and if
        something could not be put back the message says so.
    """
    for name in (name for files in folders.values() for name in files):
        if name in {"", ".", ".."} or Path(name).name != name:
            raise ValueError(f"a plain file name is needed (got {name!r})")
    if not folders:
        return
    with held() as hold:
        try:
            with contextlib.ExitStack() as stack:
                for folder in folders:
                    stack.enter_context(_made(folder))
                contents = _by_real_folder(folders)
                stack.enter_context(_alone_in(list(contents), hold, settled))
                _check_as_earlier(earlier)
                _replace_all(contents, hold)
                written()
        except (OSError, ValueError) as error:  # ValueError: a null character in the folder's name
            raise OutputError(_sentence(list(folders), error)) from error


@contextlib.contextmanager
def _made(folder: Path) -> Iterator[None]:
    """Make a folder with its parents; if the body fails, remove those that were made."""
    missing = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        folder.mkdir(parents=True, exist_ok=True)
        yield
    except BaseException:
        for path in missing:  # innermost first
            with contextlib.suppress(OSError):
                path.rmdir()
        raise


def _by_real_folder(folders: Mapping[Path, Contents]) -> dict[Path, dict[str, bytes]]:
    """Return the content as bytes, by full path, so that no folder is there twice."""
    found: dict[Path, dict[str, bytes]] = {}
    for folder, files in folders.items():
        real = found.setdefault(real_path(folder), {})
        for name, content in files.items():
            real[name] = content.encode("utf-8") if isinstance(content, str) else content
    return found


@contextlib.contextmanager
def _alone_in(
    folders: Sequence[Path], hold: Hold, settled: Callable[[Path, Settled], None]
) -> Iterator[None]:
    """Keep other runs out of folders, and settle there what earlier ones left."""
    for _ in range(ATTEMPTS):
        wanted = involved(folders)
        with locked(wanted, waiting=hold.give_way) as sure:
            if set(involved(folders)) <= set(wanted):
                for folder, outcome in settle(wanted, locked=sure).items():
                    settled(folder, outcome)
                yield
                return
    raise OSError(errno.EBUSY, "other runs are writing there and do not end")


def _check_as_earlier(earlier: Earlier) -> None:
    """Raise an `OutputError` where files are no longer what the new ones were made from."""
    for folder, files in earlier.items():
        changed = [name for name, content in files.items() if not _holds(folder / name, content)]
        if changed:
            raise ChangedMeanwhileError(
                f"In '{folder}' {_joined(changed)} changed while this was worked out; nothing was"
                " written. Give the command again."
            )


def _joined(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if names[1:] else names)


def _holds(path: Path, content: bytes | str | None) -> bool:
    """Return whether a file has that content; None stands for no file."""
    wanted = content.encode("utf-8") if isinstance(content, str) else content
    try:
        return path.read_bytes() == wanted
    except FileNotFoundError:
        return wanted is None


def _replace_all(contents: Mapping[Path, Mapping[str, bytes]], hold: Hold) -> None:
    """Write everything beside its place, and then let all of it take its place."""
    token, folders = secrets.token_hex(8), list(contents)
    journals = [_planned(folder, contents[folder], token, folders) for folder in folders]
    try:
        for journal in journals:
            journal.write()
        for journal in journals:
            for place, data in enumerate(contents[journal.folder].values()):
                _stage(journal, place, data)
                _keep_earlier(journal, place)
                hold.give_way()
        sync_folders(folders)
        hold.give_way()
        put_in_place(journals)
    except BaseException as error:
        if not _undone(journals):
            raise _HalfChangedError(str(error)) from error
        raise
    clear(journals)


def _undone(journals: Sequence[Journal]) -> bool:
    """Put everything back; if that cannot be done leave to the next run what it needs for it."""
    put_back(journals)
    try:
        undone = all(map(untouched, journals))
    except OSError:
        undone = False
    if undone:
        clear(journals)
    return undone


class _HalfChangedError(OSError):
    """Some files have changed their places, and could not be put back."""


def _planned(
    folder: Path, files: Mapping[str, bytes], token: str, folders: Sequence[Path]
) -> Journal:
    """Return what is to change places in a folder."""
    moves = []
    for name, data in files.items():
        if (folder / name).is_dir():
            raise IsADirectoryError(None, "there is a folder of that name", str(folder / name))
        moves.append(Move(name, sha256(data).hexdigest(), mark(folder / name)))
    return Journal(folder, token, tuple(moves), tuple(o for o in folders if o != folder))


def _stage(journal: Journal, place: int, data: bytes) -> None:
    """Write the content beside its place, down to the disk, with the earlier file's permissions."""
    staged, target = journal.staged(place), journal.target(place)
    with staged.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    if target.exists():
        shutil.copymode(target, staged)


def _keep_earlier(journal: Journal, place: int) -> None:
    """Give the earlier file a second name; copy it where the disk knows no hard links."""
    if journal.moves[place].earlier is None:
        return
    try:
        os.link(journal.target(place), journal.kept(place), follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(journal.target(place), journal.kept(place), follow_symlinks=False)


def _sentence(folders: Sequence[Path], error: OSError | ValueError) -> str:
    """Return one sentence: what could not be written, why, and that nothing was changed."""
    if isinstance(error, FileExistsError | NotADirectoryError):
        reason = "it, or a part of its path, is a file and not a folder"
    elif isinstance(error, IsADirectoryError) and error.filename:
        reason = f"{Path(error.filename).name}: {error.strerror}"
    else:
        reason = getattr(error, "strerror", None) or str(error)
    places = " and ".join(f"'{folder}'" for folder in folders)
    changed = "nothing was changed"
    if isinstance(error, _HalfChangedError):
        changed = (
            "what was changed could not be put back, so that old and new files may stand there side"
            " by side until a run that writes there puts that right"
        )
    return (
        f"The results cannot be written to {places} ({reason}); {changed}. Name another folder, or"
        " make room or give leave to write there."
    )
