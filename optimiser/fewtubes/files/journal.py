"""What is about to change places in a folder, written down before it does.

A set of files goes into one or several folders. In each of them a journal tells what belongs where
and by which digest it is known; the new files lie beside their places first, and the earlier ones
get a second name. All that is on the disk in every folder before the first file changes its place,
so that whoever comes after a run that was cut off can finish or undo what it began.

All names begin with ``.fewtubes-`` and the token of the run. Only a journal of one's own is
believed, and it speaks of files in its own folder only.
"""

import contextlib
import errno
import hashlib
import json
import os
import re
import stat
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from fewtubes.files.regular_files import is_ours, read_regular

__all__ = ["Journal", "Move", "leftovers", "mark", "read_journal", "sync_folders"]

FORMAT = 1

MOST_BYTES = 10**7
"""Longest journal that is read; one move takes about 300."""

NAME = re.compile(r"\.fewtubes-([0-9a-f]{16})(?:\.journal|(?:-[0-9]{1,9})?\.(?:new|old))")
"""Names that runs give to what they leave while they write, the token first."""

DIGEST = re.compile(r"[0-9a-f]{64}")

BLOCK = 2**20
"""Read at once to take a digest [bytes]."""

NO_FOLDER_SYNC = "nt"
"""`os.name` where folders cannot be opened and so not be flushed."""

NOT_KNOWN = (errno.EINVAL, errno.EBADF, errno.ENOTSUP, errno.EOPNOTSUPP)
"""What a disk says that knows no flushing of folders (fsync(2))."""


@dataclass(frozen=True)
class Move:
    """One file on its way to its place.

    Parameters
    ----------
    name
        Plain name of the place in the folder.
    new
        Mark of the new content.
    earlier
        Mark of what is there before, None for nothing; see `mark`.
    """

    name: str
    new: str
    earlier: str | None


@dataclass(frozen=True)
class Journal:
    """What is to change places in one folder.

    Parameters
    ----------
    folder
        Where, as a full path without links.
    token
        Of the run, 16 hexadecimal digits; the same in all folders of one set.
    moves
        The files.
    others
        The other folders of the set.
    """

    folder: Path
    token: str
    moves: tuple[Move, ...]
    others: tuple[Path, ...] = ()

    @property
    def path(self) -> Path:
        """The journal itself."""
        return self.folder / f".fewtubes-{self.token}.journal"

    def target(self, place: int) -> Path:
        """Where the file of that number belongs."""
        return self.folder / self.moves[place].name

    def staged(self, place: int) -> Path:
        """Where the new file lies until it takes its place."""
        return self.folder / f".fewtubes-{self.token}-{place}.new"

    def kept(self, place: int) -> Path:
        """Where the earlier file is kept."""
        return self.folder / f".fewtubes-{self.token}-{place}.old"

    def write(self) -> None:
        """Write it down to the disk."""
        values = {
            "format": FORMAT,
            "others": [str(folder) for folder in self.others],
            "moves": [[move.name, move.new, move.earlier] for move in self.moves],
        }
        with self.path.open("x", encoding="ascii") as stream:
            stream.write(json.dumps(values) + "\n")
            stream.flush()
            os.fsync(stream.fileno())


def read_journal(folder: Path, token: str) -> Journal | None:
    """Return the journal of a run in a folder; None if there is none that can be believed.

    One that was cut off while it was written is none: nothing had changed its place then.
    """
    path = Journal(folder, token, ()).path
    data = read_regular(path, most=MOST_BYTES)
    try:
        if data is None or not is_ours(path.lstat()):
            return None
        return _understood(folder, token, json.loads(data))
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        return None


def _understood(folder: Path, token: str, values: object) -> Journal | None:
    if not isinstance(values, Mapping) or values.get("format") != FORMAT:
        return None
    moves = tuple(Move(*told) for told in values["moves"])
    if not all(_plain(move.name) and DIGEST.fullmatch(move.new) for move in moves):
        return None
    others = tuple(Path(told) for told in values["others"])
    return Journal(folder, token, moves, others)


def _plain(name: str) -> bool:
    """Whether a name is that of a file in the folder, and none of those used while writing."""
    return name not in {"", ".", ".."} and Path(name).name == name and not NAME.fullmatch(name)


def leftovers(folder: Path) -> dict[str, list[Path]]:
    """Return for each token the files in a folder that runs of this user left or are using."""
    found: dict[str, list[Path]] = {}
    with contextlib.suppress(PermissionError), os.scandir(folder) as entries:
        for entry in entries:
            named = NAME.fullmatch(entry.name)
            if named and _may_be_ours(entry):
                found.setdefault(named[1], []).append(folder / entry.name)
    return found


def _may_be_ours(entry: "os.DirEntry[str]") -> bool:
    """Whether this user wrote it; what was kept of earlier files may be anybody's."""
    try:
        return entry.name.endswith(".old") or is_ours(entry.stat(follow_symlinks=False))
    except FileNotFoundError:  # another run has just removed it
        return False


def mark(path: Path) -> str | None:
    """Return what tells one content from another: of a file its SHA-256; None for nothing there."""
    try:
        found = path.lstat()
        if stat.S_ISREG(found.st_mode):
            return _digest(path)
        if stat.S_ISLNK(found.st_mode):
            return f"link to {os.readlink(path)}"  # noqa: PTH115  # as text, not as a path
    except FileNotFoundError:
        return None
    except PermissionError:
        pass
    # Neither a file that can be read nor a link: it is the same as long as it is this very one.
    return f"number {found.st_ino} of device {found.st_dev}"


def _digest(path: Path) -> str:
    digest = hashlib.sha256()
    with path.open("rb") as stream:
        while block := stream.read(BLOCK):
            digest.update(block)
    return digest.hexdigest()


def sync_folders(folders: Iterable[Path]) -> None:
    """Bring names given and taken in folders to the disk, where the system can."""
    if os.name == NO_FOLDER_SYNC:
        return
    for folder in folders:
        try:
            handle = os.open(folder, os.O_RDONLY)
        except PermissionError:  # it may be written and not read
            continue
        try:
            os.fsync(handle)
        except OSError as error:
            if error.errno not in NOT_KNOWN:
                raise
        finally:
            os.close(handle)
