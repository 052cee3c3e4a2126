"""All files or none: what is in a folder after success, after errors and after interruptions."""

import os
import shutil
import signal
import stat
import sys
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from fewtubes.errors import OutputError
from fewtubes.files.folder_locks import locked
from fewtubes.files.settling import Settled
from fewtubes.files.writing import write_all

OLD = {"list.csv": b"old list", "plan.json": b"old plan"}
NEW: Mapping[str, bytes | str] = {"list.csv": "näw\r\n", "plan.json": b"\x00\xff", "page.html": ""}
NEW_BYTES = {"list.csv": "näw\r\n".encode(), "plan.json": b"\x00\xff", "page.html": b""}


def contents(folder: Path) -> dict[str, bytes]:
    """Return the bytes of every file in a folder, hidden ones included."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with earlier files."""
    folder = tmp_path / "out"
    folder.mkdir()
    for name, data in OLD.items():
        (folder / name).write_bytes(data)
    return folder


def test_new_files_replace_earlier_ones(folder: Path) -> None:
    write_all(folder, NEW)
    assert contents(folder) == NEW_BYTES


def test_other_files_are_left_alone(folder: Path) -> None:
    (folder / "mine.txt").write_bytes(b"mine")
    write_all(folder, NEW)
    assert contents(folder) == {**NEW_BYTES, "mine.txt": b"mine"}


def test_the_folder_is_made_with_its_parents(tmp_path: Path) -> None:
    write_all(tmp_path / "a" / "b", NEW)
    assert contents(tmp_path / "a" / "b") == NEW_BYTES


def test_nothing_to_write_makes_the_folder_only(tmp_path: Path) -> None:
    write_all(tmp_path / "a", {})
    assert contents(tmp_path / "a") == {}


def test_permissions_of_earlier_files_are_kept(folder: Path) -> None:
    (folder / "list.csv").chmod(0o640)
    write_all(folder, NEW)
    assert stat.S_IMODE((folder / "list.csv").stat().st_mode) == 0o640


def test_new_files_have_ordinary_permissions(folder: Path) -> None:
    (folder / "usual").touch()
    write_all(folder, NEW)
    usual, written = ((folder / name).stat().st_mode for name in ("usual", "page.html"))
    assert written == usual


def test_an_earlier_link_is_replaced_and_its_goal_left_alone(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "goal").write_bytes(b"goal")
    (folder / "list.csv").unlink()
    (folder / "list.csv").symlink_to(tmp_path / "goal")
    write_all(folder, NEW)
    assert contents(folder) == NEW_BYTES
    assert (tmp_path / "goal").read_bytes() == b"goal"


@pytest.mark.parametrize("name", ["", ".", "..", "a/b", "/a"])
def test_names_must_be_plain(folder: Path, name: str) -> None:
    with pytest.raises(ValueError, match="a plain file name is needed"):
        write_all(folder, {"list.csv": "x", name: "y"})
    assert contents(folder) == OLD


def test_a_file_in_place_of_the_folder_is_told(folder: Path) -> None:
    for place in (folder / "list.csv", folder / "list.csv" / "deeper"):
        with pytest.raises(OutputError) as raised:
            write_all(place, NEW)
        assert str(raised.value) == (
            f"The results cannot be written to '{place}' (it, or a part of its path, is a file and"
            " not a folder); nothing was changed. Name another folder, or make room or give leave"
            " to write there."
        )
    assert contents(folder) == OLD


def test_a_folder_in_place_of_a_file_is_told(folder: Path) -> None:
    (folder / "page.html").mkdir()
    with pytest.raises(OutputError, match=r"page\.html: there is a folder of that name"):
        write_all(folder, NEW)
    (folder / "page.html").rmdir()
    assert contents(folder) == OLD


def test_an_impossible_folder_name_is_told() -> None:
    with pytest.raises(OutputError, match="nothing was changed"):
        write_all(Path("a\0b"), NEW)


def test_a_folder_that_was_made_is_removed_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(
        os, "fsync", failing_at(os.fsync, 1, OSError(28, "No space left on device"))
    )
    with pytest.raises(OutputError, match=r"\(No space left on device\); nothing was changed"):
        write_all(tmp_path / "a" / "b", NEW)
    assert list(tmp_path.iterdir()) == []


def test_a_disk_without_hard_links_is_served(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_link(*args: object, **kwargs: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(os, "link", no_link)
    write_all(folder, NEW)
    assert contents(folder) == NEW_BYTES
    monkeypatch.setattr(Path, "replace", failing_at(Path.replace, 1, OSError(5, "Input/output")))
    with pytest.raises(OutputError):
        write_all(folder, {"list.csv": "newer", "plan.json": "newer"})
    assert contents(folder) == NEW_BYTES


def failing_at(
    function: Callable[..., Any], place: int, error: BaseException, *, after: bool = False
) -> Callable[..., Any]:
    """Return the function with its call number `place` (0 = first) failing before or after it."""
    calls = iter(range(1_000_000))

    def counted(*args: Any, **kwargs: Any) -> Any:
        if next(calls) != place:
            return function(*args, **kwargs)
        if after:
            result = function(*args, **kwargs)
            if hasattr(result, "close"):  # a file that the caller never gets to see
                result.close()
        raise error

    return counted


def failing_from(
    function: Callable[..., Any], place: int, error: BaseException
) -> Callable[..., Any]:
    """Return the function with its calls from number `place` on failing."""
    calls = iter(range(1_000_000))

    def counted(*args: Any, **kwargs: Any) -> Any:
        if next(calls) < place:
            return function(*args, **kwargs)
        raise error

    return counted


STEPS = [
    # what is made to fail, its owner, and how often a write of NEW over OLD calls it
    (Path, "mkdir", 1),
    (Path, "open", 4),  # a journal, and three files
    (os, "fsync", 6),  # those, and the folder before and after
    (shutil, "copymode", 2),
    (Path, "replace", 3),
]


@pytest.mark.parametrize("after", [False, True])
@pytest.mark.parametrize("error", [OSError(5, "Input/output error"), KeyboardInterrupt()])
@pytest.mark.parametrize(
    ("owner", "name", "place"),
    [(owner, name, place) for owner, name, count in STEPS for place in range(count)],
)
def test_a_failure_at_any_step_leaves_all_as_it_was(
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
    *,
    owner: Any,
    name: str,
    place: int,
    error: BaseException,
    after: bool,
) -> None:
    failing = failing_at(getattr(owner, name), place, error, after=after)
    with monkeypatch.context() as patch:
        patch.setattr(owner, name, failing)
        expected = OutputError if isinstance(error, OSError) else KeyboardInterrupt
        with pytest.raises(expected):
            write_all(folder, NEW)
    assert contents(folder) == OLD


@pytest.mark.parametrize("place", range(3))
def test_the_keyboard_while_tidying_up_leaves_the_new_files_only(
    folder: Path, monkeypatch: pytest.MonkeyPatch, place: int
) -> None:
    """A real signal, which is held, not an exception out of the blue."""

    def interrupted(*args: Any, **kwargs: Any) -> None:
        if next(calls) == place:
            signal.raise_signal(signal.SIGINT)
        unlink(*args, **kwargs)

    calls, unlink = iter(range(1_000_000)), Path.unlink
    told: list[str] = []
    with monkeypatch.context() as patch:
        patch.setattr(Path, "unlink", interrupted)
        with pytest.raises(KeyboardInterrupt):
            write_all(folder, NEW, written=lambda: told.append("written"))
    assert contents(folder) == NEW_BYTES
    assert told == ["written"]


def test_what_cannot_be_put_back_is_told_and_put_back_by_the_next_run(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        # The second file cannot take its place, and the first cannot be given up again.
        broken = OSError(5, "Input/output error")
        patch.setattr(Path, "replace", failing_from(Path.replace, 1, broken))
        with pytest.raises(OutputError) as raised:
            write_all(folder, NEW)
    assert "Input/output error" in str(raised.value)
    assert "could not be put back" in str(raised.value)
    assert "nothing was changed" not in str(raised.value)
    settled: dict[Path, Settled] = {}
    write_all(folder, {"other.csv": "x"}, settled=settled.__setitem__)
    assert settled == {folder: Settled.FINISHED}
    assert contents(folder) == {**NEW_BYTES, "other.csv": b"x"}


def test_runs_that_write_at_once_leave_one_whole_set(folder: Path) -> None:
    """Sets of several threads, each whole; none sees leftovers of another's run."""
    names = [f"{number}.csv" for number in range(6)]
    sets = [dict.fromkeys(names, word) for word in ("one", "two", "three")]
    settled: list[Path] = []

    def write(files: Mapping[str, str]) -> None:
        for _ in range(8):
            write_all(folder, files, settled=lambda place, _outcome: settled.append(place))

    with ThreadPoolExecutor(len(sets)) as pool:
        list(pool.map(write, sets))
    found = {name: data.decode() for name, data in contents(folder).items() if name in names}
    assert found in sets
    assert set(contents(folder)) == {*OLD, *names}
    assert settled == []


@pytest.mark.skipif(sys.platform == "win32", reason="no such locks there")
def test_another_run_that_does_not_end_is_told(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("fewtubes.files.folder_locks.PATIENCE", 0.05)
    with (
        locked([folder], waiting=lambda: None),
        pytest.raises(OutputError, match="another run is writing there and does not end"),
    ):
        write_all(folder, NEW)
    assert contents(folder) == OLD


def test_leftovers_of_earlier_runs_are_removed_and_nothing_else(folder: Path) -> None:
    left = [".fewtubes-0123456789abcdef.new", ".fewtubes-0123456789abcdef-3.old"]
    foreign = [".fewtubes", ".fewtubes-notes.new", ".fewtubes-0123456789abcdef.txt", ".hidden.old"]
    for name in [*left, *foreign]:
        (folder / name).write_bytes(b"x")
    (folder / ".fewtubes-0123456789abcdef-4.new").mkdir()  # no file of ours
    write_all(folder, {})
    (folder / ".fewtubes-0123456789abcdef-4.new").rmdir()
    assert contents(folder) == OLD | dict.fromkeys(foreign, b"x")


@pytest.mark.parametrize("place", range(2))
@pytest.mark.parametrize("after", [False, True])
def test_an_interruption_while_keeping_earlier_files_changes_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch, *, place: int, after: bool
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "link", failing_at(os.link, place, KeyboardInterrupt(), after=after))
        with pytest.raises(KeyboardInterrupt):
            write_all(folder, NEW)
    assert contents(folder) == OLD
