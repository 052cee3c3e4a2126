"""What the cache remembers, forgets, and survives."""

import os
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from fewtubes.coverage.cache import Cache, _seal, default_cache

Arrays = dict[str, npt.NDArray[Any]]

BASIS: Arrays = {"K": np.arange(6.0).reshape(2, 3), "tolerance": np.array(4.0)}
CONTENT: Arrays = {"labs": np.ones((2, 3)), "counts": np.array([1, 2], dtype=np.int16)}


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    """Return an empty cache whose folder is yet to be made."""
    return Cache(tmp_path / "deep" / "down")


def the_file(cache: Cache) -> Path:
    """Return the one file of a cache."""
    assert cache.folder is not None
    (file,) = cache.folder.iterdir()
    return file


def test_what_is_stored_comes_back(cache: Cache) -> None:
    assert cache.load("reach", BASIS) is None
    cache.store("reach", BASIS, CONTENT)
    loaded = cache.load("reach", BASIS)
    assert loaded is not None
    assert set(loaded) == set(CONTENT)
    for name, array in CONTENT.items():
        np.testing.assert_array_equal(loaded[name], array)
        assert loaded[name].dtype == array.dtype


def test_a_later_result_replaces_an_earlier_one(cache: Cache) -> None:
    cache.store("reach", BASIS, CONTENT)
    cache.store("reach", BASIS, {"labs": np.zeros(1)})
    loaded = cache.load("reach", BASIS)
    assert loaded is not None
    assert set(loaded) == {"labs"}
    the_file(cache)  # one file, no leftovers


@pytest.mark.parametrize(
    "other",
    [
        BASIS | {"K": BASIS["K"] + [0, 0, 1e-12]},
        BASIS | {"K": BASIS["K"].reshape(3, 2)},
        BASIS | {"K": BASIS["K"].astype(np.float32)},
        BASIS | {"tolerance": np.array(4.5)},
        BASIS | {"more": np.array(1)},
        {"K": BASIS["K"]},
        {"S": BASIS["K"], "tolerance": BASIS["tolerance"]},
    ],
    ids=["value", "shape", "type", "tolerance", "more", "less", "name"],
)
def test_another_basis_finds_nothing(cache: Cache, other: Arrays) -> None:
    cache.store("reach", BASIS, CONTENT)
    assert cache.load("reach", other) is None


def test_another_kind_or_version_finds_nothing(
    cache: Cache, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache.store("reach", BASIS, CONTENT)
    assert cache.load("weights", BASIS) is None
    monkeypatch.setattr("fewtubes.coverage.cache.__version__", "0.0.0")
    assert cache.load("reach", BASIS) is None


def test_the_order_of_names_and_of_memory_does_not_matter(cache: Cache) -> None:
    cache.store("reach", BASIS, CONTENT)
    turned = {"tolerance": BASIS["tolerance"], "K": np.asfortranarray(BASIS["K"])}
    assert cache.load("reach", turned) is not None


def test_any_damage_is_noticed(cache: Cache) -> None:
    """Every byte changed in turn; among them are those that mark a file as encrypted or newer."""
    cache.store("reach", BASIS, {"x": np.arange(3.0)})
    file = the_file(cache)
    whole = file.read_bytes()
    for place in range(len(whole)):
        file.write_bytes(whole[:place] + bytes([whole[place] ^ 0xFF]) + whole[place + 1 :])
        assert cache.load("reach", BASIS) is None, place
    file.write_bytes(whole)
    assert cache.load("reach", BASIS) is not None


@pytest.mark.parametrize("data", [b"", b"PK", b"not an archive at all", bytes(5000)])
def test_another_content_is_as_good_as_none(cache: Cache, data: bytes) -> None:
    cache.store("reach", BASIS, CONTENT)
    the_file(cache).write_bytes(data)
    assert cache.load("reach", BASIS) is None
    cache.store("reach", BASIS, CONTENT)  # and is replaced
    assert cache.load("reach", BASIS) is not None


def test_the_file_of_another_basis_or_kind_is_noticed(cache: Cache) -> None:
    """A file under another's name, as when one tolerance's is copied over another's."""
    other = BASIS | {"tolerance": np.array(8.0)}
    cache.store("reach", BASIS, CONTENT)
    file = the_file(cache)
    cache.store("reach", other, {"labs": np.zeros(1)})
    assert cache.folder is not None
    (foreign,) = set(cache.folder.iterdir()) - {file}
    file.write_bytes(foreign.read_bytes())
    assert cache.load("reach", BASIS) is None
    assert cache.load("reach", other) is not None
    cache.store("weights", BASIS, CONTENT)
    (weights,) = cache.folder.glob("weights-*")
    weights.replace(file)
    assert cache.load("reach", BASIS) is None


@pytest.mark.parametrize("body", [b"", b"nonsense", b"PK\x03\x04", b"[[]]\n", b"[" * 9999])
def test_sealed_nonsense_is_as_good_as_none(cache: Cache, body: bytes) -> None:
    cache.store("reach", BASIS, CONTENT)
    file = the_file(cache)
    file.write_bytes(_seal(file.name, body) + body)
    assert cache.load("reach", BASIS) is None


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes and devices there")
@pytest.mark.parametrize("kind", ["pipe", "folder", "endless device", "huge", "loop"])
def test_what_is_no_ordinary_file_is_as_good_as_none(cache: Cache, kind: str) -> None:
    cache.store("reach", BASIS, CONTENT)
    file = the_file(cache)
    file.unlink()
    if kind == "pipe":
        os.mkfifo(file)
    elif kind == "folder":
        file.mkdir()
    elif kind == "huge":
        with file.open("wb") as stream:
            stream.truncate(2**40)
    else:
        file.symlink_to("/dev/zero" if kind == "endless device" else file)
    assert cache.load("reach", BASIS) is None
    cache.store("reach", BASIS, CONTENT)
    assert (cache.load("reach", BASIS) is None) == (kind == "folder")  # which is left alone
    the_file(cache)  # and no leftovers


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes and devices there")
@pytest.mark.parametrize("kind", ["pipe", "device", "loop", "long", "null", "unprintable"])
def test_a_strange_folder_is_passed_over(tmp_path: Path, kind: str) -> None:
    names = {"long": "x" * 5000, "null": "a\0b", "unprintable": "\udcff"}
    folder = Path("/dev/full") if kind == "device" else tmp_path / names.get(kind, "strange")
    if kind == "pipe":
        os.mkfifo(folder)
    elif kind == "loop":
        folder.symlink_to(folder)
    cache = Cache(folder)
    cache.store("reach", BASIS, CONTENT)
    assert (cache.load("reach", BASIS) is not None) == (kind == "unprintable")


def test_more_than_is_read_is_not_written(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fewtubes.coverage.cache.MOST_BYTES", 100)
    cache.store("reach", BASIS, CONTENT)
    assert cache.load("reach", BASIS) is None
    assert cache.folder is not None
    assert not cache.folder.exists()


def test_unfinished_files_of_runs_cut_off_are_removed(cache: Cache) -> None:
    assert cache.folder is not None
    cache.folder.mkdir(parents=True)
    old = [cache.folder / name for name in ("reach-abcd_123.part", "weights-zyxwvuts.part")]
    fresh, foreign = cache.folder / "reach-00000000.part", cache.folder / "film.mkv.part"
    for path in (*old, fresh, foreign):
        path.write_bytes(b"x")
    for path in (*old, foreign):
        os.utime(path, (1e9, 1e9))
    cache.store("reach", BASIS, CONTENT)
    left = set(cache.folder.iterdir())
    assert {fresh, foreign} <= left
    assert len(left) == 3


def test_a_cut_off_file_is_as_good_as_none(cache: Cache) -> None:
    cache.store("reach", BASIS, CONTENT)
    file = the_file(cache)
    whole = file.read_bytes()
    for length in range(0, len(whole), 7):
        file.write_bytes(whole[:length])
        assert cache.load("reach", BASIS) is None


def test_a_folder_that_cannot_be_made_is_passed_over(tmp_path: Path) -> None:
    # A file stands where the folder should be; unlike a mode, that stops every user.
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    for folder in (tmp_path / "file", tmp_path / "file" / "below"):
        cache = Cache(folder)
        cache.store("reach", BASIS, CONTENT)
        assert cache.load("reach", BASIS) is None
    assert (tmp_path / "file").read_text(encoding="utf-8") == "in the way"


def test_a_full_disk_leaves_no_remains(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    cache.store("reach", BASIS, CONTENT)
    assert cache.folder is not None
    assert list(cache.folder.iterdir()) == []


def test_no_folder_remembers_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Cache().store("reach", BASIS, CONTENT)
    assert Cache().load("reach", BASIS) is None
    assert list(tmp_path.iterdir()) == []


def test_where_the_users_cache_lies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FEWTUBES_CACHE", str(tmp_path / "mine"))
    assert default_cache().folder == tmp_path / "mine"
    monkeypatch.delenv("FEWTUBES_CACHE")
    usual = default_cache().folder
    assert usual is not None
    assert "fewtubes" in usual.parts


def test_a_home_that_nobody_knows_has_no_cache(monkeypatch: pytest.MonkeyPatch) -> None:
    """There expanduser(3) leaves the sign for home as it is, which would be a folder here."""
    monkeypatch.delenv("FEWTUBES_CACHE", raising=False)
    monkeypatch.setattr("platformdirs.user_cache_dir", lambda _name: "~/.cache/fewtubes")
    assert default_cache().folder is None
