"""What holds for all tests.

Drawn examples differ from run to run at a developer's desk, where a new find is welcome; a check
of a commit draws the same ones every time, so that it speaks of the commit alone.
"""

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from fewtubes.coverage.cache import Cache

settings.register_profile("check", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("check")


@pytest.fixture(scope="session")
def shared_cache(tmp_path_factory: pytest.TempPathFactory) -> Cache:
    """Return the cache of the whole run: what one process has mixed no other mixes again.

    Processes of a run (pytest-xdist) have folders beside each other.
    """
    base = tmp_path_factory.getbasetemp()
    run = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    return Cache(run / "mixed")


@pytest.fixture(scope="session", autouse=True)
def _nobody_elses_folders(
    shared_cache: Cache, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Path | None]:
    """Keep the run out of cache and data of whoever runs it, and its child processes as well."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FEWTUBES_CACHE", str(shared_cache.folder))
        patch.setenv("FEWTUBES_DATA", str(tmp_path_factory.mktemp("data")))
        yield shared_cache.folder


@pytest.fixture(scope="session", autouse=True)
def _signals_are_heard() -> None:
    """Heed signals also in a run that was started in the background, or to outlive its terminal.

    Shells let such a run, and all that it starts, ignore them.
    """
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    if hasattr(signal, "SIGHUP") and signal.getsignal(signal.SIGHUP) is signal.SIG_IGN:
        signal.signal(signal.SIGHUP, signal.SIG_DFL)
