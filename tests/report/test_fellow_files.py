"""Files of one run name each other by digest, and a stranger among them is noticed."""

import json
import os
from hashlib import sha256
from pathlib import Path

import pytest

from fewtubes.report.fellow_files import digests, paths_from, strangers

FELLOWS: dict[str, str | bytes] = {"shopping-list.csv": "täglich\r\n", "recipes.csv": b"\xff"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a plan and its fellows."""
    for name, content in FELLOWS.items():
        (tmp_path / name).write_bytes(content if isinstance(content, bytes) else content.encode())
    (tmp_path / "plan.json").write_text(json.dumps(digests(FELLOWS)), encoding="utf-8")
    return tmp_path


def test_digests_are_those_of_the_bytes_written() -> None:
    """SHA-256 of "abc" from FIPS 180-2, appendix B.1 (from memory)."""
    told = digests({"a.csv": "abc"})
    expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert told == {"fellow_files_sha256": {"a.csv": expected}}
    umlaut = digests(FELLOWS)["fellow_files_sha256"]["shopping-list.csv"]
    assert umlaut == sha256(b"t\xc3\xa4glich\r\n").hexdigest()
    assert digests({}) == {}


def test_fellows_are_no_strangers(folder: Path) -> None:
    assert strangers(folder) == ()
    (folder / "recipes.csv").unlink()
    assert strangers(folder) == ()


def test_a_stranger_is_noticed(folder: Path) -> None:
    (folder / "recipes.csv").write_bytes(b"of another run")
    assert strangers(folder) == ("recipes.csv",)


@pytest.mark.parametrize("plan", ["", "[]", "{}", "7", '{"fellow_files_sha256": 7}', "[" * 100_000])
def test_a_plan_that_names_nothing_tells_nothing(folder: Path, plan: str) -> None:
    (folder / "plan.json").write_text(plan, encoding="utf-8")
    assert strangers(folder) == ()


def test_only_files_right_in_the_folder_are_looked_at(folder: Path) -> None:
    (folder / "below").mkdir()
    names = ["../x", "/etc/passwd", "below", "below/x", ".", "..", ""]
    plan = {"fellow_files_sha256": dict.fromkeys(names, "0")}
    (folder / "plan.json").write_text(json.dumps(plan), encoding="utf-8")
    assert strangers(folder) == ()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes there")
def test_a_pipe_does_not_hang(folder: Path) -> None:
    for name in ("recipes.csv", "plan.json"):
        (folder / name).unlink()
        os.mkfifo(folder / name)
        assert strangers(folder) == ()


def test_paths_lead_from_the_folder(tmp_path: Path) -> None:
    out = tmp_path / "out"
    files = {
        out: {"page.html": "same"},
        out / "pictures": {"a.svg": "below"},
        tmp_path: {"b.svg": "above"},
        tmp_path / "\udcff": {"c.svg": "no text"},
    }
    assert paths_from(out, files) == {
        "page.html": "same",
        "pictures/a.svg": "below",
        "../b.svg": "above",
    }


def test_paths_lead_through_links(tmp_path: Path) -> None:
    (tmp_path / "deep" / "out").mkdir(parents=True)
    (tmp_path / "link").symlink_to(tmp_path / "deep" / "out")
    assert paths_from(tmp_path / "link", {tmp_path: {"a": "x"}}) == {"../../a": "x"}
