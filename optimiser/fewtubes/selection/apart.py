"""HiGHS in a process of its own, so that it can be stopped.

HiGHS looks up from its work seldom: on programs of this size up to thirteen seconds pass between
two calls of its interrupt callbacks, and while it runs no signal reaches Python. A process can be
killed at any time, and is when its time has long been up. Its input stays open for as long as it
is wanted, so that it also ends with whoever started it, however that ends.
"""

import os
import pickle
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

from fewtubes.selection.arrays import ProgramArrays
from fewtubes.selection.highs import Findings, Options, run_highs

__all__ = ["run_apart", "serve"]

PACKAGES = Path(__file__).parents[2]
"""The folder that holds this package; the process looks for it there first."""

PATIENCE = 1.0
"""Time after its limit that HiGHS is given to look up and tell what it found [s]."""


def run_apart(program: ProgramArrays, options: Options, *, seconds: float) -> Findings | None:
    """Run HiGHS in a process of its own; None if the process broke off.

    So it does if HiGHS does not look up in time. An interruption kills the process before it goes
    on.

    Parameters
    ----------
    seconds
        Time from now on after which HiGHS is to end by itself [s].
    """
    path = os.pathsep.join(filter(None, (str(PACKAGES), os.environ.get("PYTHONPATH"))))
    process = subprocess.Popen(  # this very interpreter
        # -P: no module is taken from the folder that the painter happens to be in.
        [sys.executable, "-P", "-m", "fewtubes.selection.apart"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": path},
        start_new_session=True,  # the keyboard interrupts this process alone
    )
    impatience = threading.Timer(seconds + PATIENCE, process.kill)
    impatience.daemon = True
    impatience.start()
    try:
        assert process.stdin is not None  # noqa: S101  # both are pipes
        assert process.stdout is not None  # noqa: S101
        pickle.dump((program, dict(options), time.time() + seconds), process.stdin)
        process.stdin.flush()
        findings = pickle.load(process.stdout)  # noqa: S301  # from our own process
    except (BrokenPipeError, EOFError, pickle.UnpicklingError):
        return None
    finally:
        impatience.cancel()
        process.kill()
        process.communicate()
    return findings if isinstance(findings, Findings) else None


def serve() -> None:
    """Run the program that comes in, put out what was found; end at once when the input does."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    program, options, deadline = pickle.load(sys.stdin.buffer)  # noqa: S301  # from our starter
    threading.Thread(target=_end_with_input, daemon=True).start()
    findings = run_highs(program, {**options, "time_limit": max(0.0, deadline - time.time())})
    pickle.dump(findings, sys.stdout.buffer)
    sys.stdout.buffer.flush()


def _end_with_input() -> None:
    """End the process when its input is closed; HiGHS leaves other threads alone meanwhile."""
    sys.stdin.buffer.read()
    os._exit(1)


if __name__ == "__main__":
    serve()
