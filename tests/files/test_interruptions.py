"""Signals are held, told, and have their way afterwards."""

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator

import pytest

from fewtubes.files.interruptions import ENDING, Stopped, held, told

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals of POSIX")

Seen = list[int]


@pytest.fixture
def seen() -> Iterator[Seen]:
    """Return the signals that a handler of the test's own has seen."""
    numbers: Seen = []
    before = {n: signal.signal(n, lambda number, _frame: numbers.append(number)) for n in ENDING}
    yield numbers
    for number, handler in before.items():
        signal.signal(number, handler)


@pytest.mark.parametrize("number", ENDING)
def test_a_signal_waits_for_the_end(seen: Seen, number: int) -> None:
    with held():
        os.kill(os.getpid(), number)
        os.kill(os.getpid(), number)
        assert seen == []
    assert seen == [number]  # once, however often it came


def test_a_signal_has_its_way_where_work_may_break_off(seen: Seen) -> None:
    with held() as hold:
        os.kill(os.getpid(), signal.SIGTERM)
        hold.give_way()
        assert seen == [signal.SIGTERM]
        hold.give_way()
    assert seen == [signal.SIGTERM]


def test_the_keyboard_breaks_off_where_it_may() -> None:
    steps: list[str] = []

    def work() -> None:
        with held() as hold:
            steps.append("first")
            os.kill(os.getpid(), signal.SIGINT)
            steps.append("second")
            hold.give_way()
            steps.append("third")

    with pytest.raises(KeyboardInterrupt):
        work()
    assert steps == ["first", "second"]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_what_is_ignored_stays_ignored(monkeypatch: pytest.MonkeyPatch) -> None:
    """As under nohup(1)."""
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        with held(), told():
            assert signal.getsignal(signal.SIGHUP) is signal.SIG_IGN
            os.kill(os.getpid(), signal.SIGHUP)
    finally:
        signal.signal(signal.SIGHUP, before)


def test_another_thread_holds_nothing(seen: Seen) -> None:
    """Python lets the main thread alone handle signals (library reference, `signal`)."""
    done = []

    def work() -> None:
        with held() as hold, told():
            hold.give_way()
            done.append(True)

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert done == [True]
    assert seen == []


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_what_would_end_the_process_is_told(number: signal.Signals) -> None:
    assert signal.getsignal(number) is signal.SIG_DFL
    with pytest.raises(Stopped) as raised, told():
        os.kill(os.getpid(), number)
    assert raised.value.number == number
    assert signal.getsignal(number) is signal.SIG_DFL


def test_a_process_ends_by_the_signal_once_all_is_tidied_up() -> None:
    code = (
        "import os, signal\n"
        "from fewtubes.files.interruptions import held\n"
        "with held() as hold:\n"
        "    try:\n"
        "        os.kill(os.getpid(), signal.SIGTERM)\n"
        "        hold.give_way()\n"
        "    finally:\n"
        "        print('tidied up', flush=True)\n"
    )
    ended = subprocess.run(  # noqa: S603  # this very interpreter
        [sys.executable, "-c", code], capture_output=True, text=True, check=False
    )
    assert (ended.returncode, ended.stdout, ended.stderr) == (-signal.SIGTERM, "tidied up\n", "")
