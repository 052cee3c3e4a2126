"""Scenarios answered on a Dask cluster of two processes of this machine."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from tests.timed_files import without_seconds

from fewtubes.coverage.cache import Cache
from fewtubes.coverage.carried import CarriedCache
from fewtubes.errors import InputError
from fewtubes.term import cluster
from fewtubes.term.answering import Settings, answer
from fewtubes.term.asked import read_folder
from fewtubes.term.run import answer_all

distributed = pytest.importorskip("distributed", reason="needs the extra 'cluster'")

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

Write = Callable[..., Path]

MANY = 12
"""Scenarios, enough to break off between the first and the last."""

pytestmark = pytest.mark.filterwarnings("ignore")  # of Dask's own doing


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """Return where a scheduler with two workers is, in processes of their own."""
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
    ) as started:
        yield str(started.scheduler_address)


@dataclass(frozen=True)
class Deadly:
    """A scenario that ends the process that works on it, unless that is the one it comes from."""

    home: int

    @property
    def picture(self) -> None:
        """The pictures planned, which every answer asks for first."""
        if os.getpid() != self.home:
            os._exit(1)


def files_of(out: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(out)): without_seconds(path.read_bytes())
        for path in sorted(out.rglob("*"))
        if path.is_file() and ".done" not in path.parts
    }


@pytest.mark.usefixtures("alone")
def test_answers_are_those_of_this_machine_to_the_byte(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache, address: str
) -> None:
    write("one")
    write("two", budget="4.00", flower="primrose")
    write("clash", budget="1.00", more='must_have = ["lemon"]')
    (folder / "broken.toml").write_text("budget = = 1", encoding="utf-8")
    asked = read_folder(folder, SMALL)
    for name, at in (("here", None), ("there", address)):
        answer_all(
            asked,
            settings=Settings(),
            out=tmp_path / name,
            cluster=at,
            cache=shared_cache,
            progress=lambda _stage: None,
        )
    here, there = files_of(tmp_path / "here"), files_of(tmp_path / "there")
    assert {"answers.csv", "one/plan.json", "two/recipes.csv"} <= set(here)
    assert here == there


def test_what_a_worker_cannot_do_is_told_of_its_scenario(
    folder: Path, write: Write, shared_cache: Cache, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("one")
    spread = cluster.reached(address)
    # From here on what is sent says another version, as a worker that joined later would find.
    monkeypatch.setattr(cluster, "__version__", "0.0.1")
    (one,) = read_folder(folder, SMALL)
    ((place, found),) = spread([(one, CarriedCache(shared_cache.folder))], Settings())
    assert place == 0
    assert "The cluster could not answer it" in found.row.fault
    assert "0.0.1" in found.row.fault


def test_workers_of_another_version_are_refused(
    address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cluster, "__version__", "0.0.1")
    with pytest.raises(InputError, match=r"2 of 2 workers at .* another version .*here 0\.0\.1"):
        cluster.reached(address)


def test_nobody_at_the_address_is_told_soon() -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with pytest.raises(InputError, match=f"nobody answers at 'tcp://127.0.0.1:{port}'"):
        cluster.reached(f"tcp://127.0.0.1:{port}")


@pytest.mark.parametrize("address", ["", " ", "nonsense", "http://127.0.0.1:8786", "tcp://here"])
def test_what_is_no_address_is_refused_unasked(
    address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*_given: Any, **_named: Any) -> None:
        raise AssertionError("something was contacted")

    monkeypatch.setattr(socket, "create_connection", never)
    with pytest.raises(InputError, match="is no address; give the one that the scheduler told"):
        cluster.reached(address)


def test_without_dask_one_sentence_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "distributed", None)  # as if it were not installed
    with pytest.raises(InputError, match=r"pip install 'fewtubes\[cluster\]'"):
        cluster.reached("tcp://127.0.0.1:8786")


@pytest.mark.usefixtures("alone")
def test_killed_midway_it_goes_on_and_its_files_are_the_same(
    folder: Path, write: Write, tmp_path: Path, shared_cache: Cache, address: str
) -> None:
    for number in range(MANY):
        write(f"week-{number:02}", budget=f"{4 + number / 10:.2f}")
    asked, whole, out = read_folder(folder, SMALL), tmp_path / "whole", tmp_path / "out"
    quiet: dict[str, Any] = {"settings": Settings(), "cache": shared_cache}
    answer_all(asked, out=whole, progress=lambda _stage: None, **quiet)
    command = [sys.executable, "-m", "fewtubes", "batch", str(folder), "--catalogue", str(SMALL)]
    with subprocess.Popen(  # noqa: S603  # this very interpreter
        [*command, "--out", str(out), "--cluster", address],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "FEWTUBES_CACHE": str(shared_cache.folder)},
    ) as process:
        end = time.monotonic() + 120
        while not [*(out / ".done").glob("[!.]*.json")] and process.poll() is None:
            assert time.monotonic() < end
            time.sleep(0.005)
        process.kill()
    assert not (out / "answers.csv").exists()
    found = answer_all(asked, out=out, cluster=address, progress=lambda _stage: None, **quiet)
    before = [row.done_before for row in found.rows]
    assert any(before)
    assert not all(before)
    assert files_of(out) == files_of(whole)


def test_a_worker_that_dies_takes_one_scenario_alone(
    folder: Path, write: Write, shared_cache: Cache
) -> None:
    # There is but one: with it what was mixed is lost, and those that need it are run anew.
    from dask import config

    for name in ("one", "two", "worse", "last"):
        write(name)
    asked = read_folder(folder, SMALL)
    mixed = CarriedCache(shared_cache.folder)  # of one machine, whose workers mix what it lacks
    deadly = replace(asked[2], scenario=Deadly(os.getpid()))  # type: ignore[arg-type]  # on purpose
    jobs = [(one, mixed) for one in (*asked[:2], deadly, *asked[3:])]
    with (
        config.set({"distributed.scheduler.allowed-failures": 0}),
        distributed.LocalCluster(
            n_workers=1, threads_per_worker=1, dashboard_address=None, host="127.0.0.1"
        ) as started,
    ):
        told = dict(cluster.reached(str(started.scheduler_address))(jobs, Settings()))
    assert sorted(told) == [0, 1, 2, 3]
    here = [answer(one, mixed, Settings()).row for one in asked]
    assert [told[place].row for place in (0, 1, 3)] == [here[place] for place in (0, 1, 3)]
    assert told[2].row.title == asked[2].title == "Week two"
    assert "the worker that was at it came to a sudden end" in told[2].row.fault


def test_where_no_worker_is_left_it_is_told(
    folder: Path, write: Write, shared_cache: Cache, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("one")
    (one,) = read_folder(folder, SMALL)
    monkeypatch.setattr(cluster, "GRACE", 0.1)
    monkeypatch.setattr(cluster, "_workers", lambda _client: False)
    never = SimpleNamespace(status="pending")
    monkeypatch.setattr(
        cluster, "_sent", lambda _client, jobs, _settings: dict.fromkeys(jobs, never)
    )
    spread = cluster.reached(address)
    ((place, found),) = spread([(one, CarriedCache(shared_cache.folder))], Settings())
    assert place == 0
    assert "no worker is left there" in found.row.fault
