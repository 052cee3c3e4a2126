"""A set of files is written whole or not at all.

Each file is first written and flushed to disk beside its place. Only when all are there does each
take its place, and the earlier files are kept until the last one has. An error or an interruption
before that point puts everything back as it was.
"""

import contextlib
import os
import secrets
import shutil
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from fewtubes.errors import OutputError

__all__ = ["write_all", "write_together"]


@dataclass(frozen=True)
class _Replacement:
    """One file on its way: the target, the new content beside it and the earlier file, if any."""

    target: Path
    staged: Path
    earlier: Path
    existed: bool


def write_all(folder: Path, files: Mapping[str, bytes | str]) -> None:
    """Write all files into a folder, or none.

    Parameters
    ----------
    folder
        Made with its parents if it is not there.
    files
        Content by plain file name; text is written as UTF-8 with its line ends as they are.

    Raises
    ------
    OutputError
        If a file could not be written; nothing was changed then.
    """
    write_together({folder: files})


def write_together(folders: Mapping[Path, Mapping[str, bytes | str]]) -> None:
    """Write all files into several folders, or none of them into any.

    Parameters
    ----------
    folders
        For each folder its files, as for `write_all`; no file may be named twice.

    Raises
    ------
    OutputError
        If a file could not be written; nothing was changed then.
    """
    contents: dict[Path, bytes | str] = {}
    for folder, files in folders.items():
        for name, content in files.items():
            if name in {"", ".", ".."} or Path(name).name != name:
                raise ValueError(f"a plain file name is needed (got {name!r})")
            contents[folder / name] = content
    try:
        with contextlib.ExitStack() as stack:
            for folder in folders:
                stack.enter_context(_made(folder))
            _replace_all([_replacement(target) for target in contents], list(contents.values()))
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


def _replacement(target: Path) -> _Replacement:
    if target.is_dir():
        raise IsADirectoryError(None, "there is a folder of that name", str(target))
    token = secrets.token_hex(8)
    return _Replacement(
        target=target,
        staged=target.with_name(f".fewtubes-{token}.new"),
        earlier=target.with_name(f".fewtubes-{token}.old"),
        existed=os.path.lexists(target),
    )


def _replace_all(replacements: Sequence[_Replacement], contents: Sequence[bytes | str]) -> None:
    try:
        for item, content in zip(replacements, contents, strict=True):
            _stage(item, content)
        for item in replacements:
            if item.existed:
                _keep_earlier(item)
        for item in replacements:
            item.staged.replace(item.target)
    except BaseException:
        for item in replacements:
            _put_back(item)
        raise
    try:
        _forget_earlier(replacements)
    except BaseException:  # an interruption: the new files stand, so finish tidying up
        _forget_earlier(replacements)
        raise


def _forget_earlier(replacements: Sequence[_Replacement]) -> None:
    for item in replacements:
        with contextlib.suppress(OSError):
            item.earlier.unlink(missing_ok=True)


def _stage(item: _Replacement, content: bytes | str) -> None:
    """Write the content beside its place, down to the disk, with the earlier file's permissions."""
    data = content.encode("utf-8") if isinstance(content, str) else content
    with item.staged.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    if item.existed and item.target.exists():
        shutil.copymode(item.target, item.staged)


def _keep_earlier(item: _Replacement) -> None:
    """Give the earlier file a second name; copy it where the disk knows no hard links."""
    try:
        os.link(item.target, item.earlier, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(item.target, item.earlier, follow_symlinks=False)


def _put_back(item: _Replacement) -> None:
    """Undo one replacement, however far it got; what lies on the disk tells how far."""
    staged, earlier = os.path.lexists(item.staged), os.path.lexists(item.earlier)
    with contextlib.suppress(OSError):
        if staged:
            item.staged.unlink()
        elif earlier:
            item.earlier.replace(item.target)
        elif not item.existed:
            item.target.unlink(missing_ok=True)
    with contextlib.suppress(OSError):
        item.earlier.unlink(missing_ok=True)


def _sentence(folders: Sequence[Path], error: OSError | ValueError) -> str:
    """Return one sentence: what could not be written, why, and that nothing was changed."""
    if isinstance(error, FileExistsError | NotADirectoryError):
        reason = "it, or a part of its path, is a file and not a folder"
    elif isinstance(error, IsADirectoryError) and error.filename:
        reason = f"{Path(error.filename).name}: {error.strerror}"
    else:
        reason = getattr(error, "strerror", None) or str(error)
    places = " and ".join(f"'{folder}'" for folder in folders)
    return (
        f"The results cannot be written to {places} ({reason}); nothing was changed. Name another"
        " folder, or make room or give leave to write there."
    )
