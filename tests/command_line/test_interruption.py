"""Stopped by the keyboard while the integer program is being solved, in a process of its own."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

SCENARIO = Path(__file__).parents[2] / "scenarios" / "cottage-border.toml"
"""Keeps the solver busy for far longer than the limits below."""

LATEST_S = 10.0
"""Time to stop [s]. It takes half a second; the machine may be busy. It once was 19 to 42."""


def children(process: int) -> list[int]:
    """Return the processes that one has started, as Linux tells it."""
    folder = Path(f"/proc/{process}/task/{process}/children")
    return [int(number) for number in folder.read_text(encoding="ascii").split()]


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="asks Linux for processes")
@pytest.mark.parametrize("method", ["program", "both"])
def test_the_keyboard_stops_the_solver(method: str, cache_folder: Path) -> None:
    arguments = ["shop", str(SCENARIO), "--prove-by", method, "--seconds", "300"]
    with subprocess.Popen(  # noqa: S603  # this very interpreter
        [sys.executable, "-m", "fewtubes", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "FEWTUBES_CACHE": str(cache_folder)},
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),  # noqa: PLW1509
    ) as process:
        end = time.monotonic() + 120
        while not (solvers := children(process.pid)):
            assert process.poll() is None, process.communicate()
            assert time.monotonic() < end
            time.sleep(0.1)
        time.sleep(0.5)  # it has been started, and mostly is within HiGHS
        began = time.monotonic()
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=60)
        took = time.monotonic() - began
    assert (process.returncode, err) == (130, "stopped; nothing was written\n")
    assert took < LATEST_S
    assert not any(Path(f"/proc/{solver}").exists() for solver in solvers)
