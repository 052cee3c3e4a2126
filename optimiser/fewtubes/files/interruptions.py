"""Signals that end a program: held while files change places, or told as an exception.

A signal that ends the program in the middle of changing places would leave half of a set. While
they are held, signals are only noted; afterwards each has its way as if it had just come.
Everywhere else they end the program as the system has it, since nothing is lost by that.
"""

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

__all__ = ["Hold", "Stopped", "held", "told"]

ENDING = tuple(
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
)
"""The keyboard, whoever ends programs, and the terminal that is closed (not on Windows)."""


class Stopped(KeyboardInterrupt):
    """The program was told to end, by the signal of that number."""

    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(number)


@contextmanager
def told() -> Iterator[None]:
    """Let signals that would end this process at once raise `Stopped` instead.

    So that what would outlast it can be ended first. Signals that are ignored, as under ``nohup``,
    stay so. Only for work that never waits in another library for long, since exceptions wait for
    it; in other threads than the main one this does nothing.
    """
    main = threading.current_thread() is threading.main_thread()
    numbers = [n for n in ENDING if main and signal.getsignal(n) is signal.SIG_DFL]
    try:
        for number in numbers:
            signal.signal(number, _raise_stopped)
        yield
    finally:
        for number in numbers:
            signal.signal(number, signal.SIG_DFL)


def _raise_stopped(number: int, _frame: FrameType | None) -> None:
    raise Stopped(number)


class Hold:
    """Signals that came while they were held."""

    def __init__(self) -> None:
        self._before: dict[int, Callable[[int, FrameType | None], Any] | int] = {}
        self._come: list[int] = []

    def give_way(self) -> None:
        """Let those that came so far have their way: this is a place where work may break off."""
        while self._come:
            number = self._come.pop(0)
            handler = self._before[number]
            if callable(handler):
                handler(number, None)
            else:
                self._come.insert(0, number)  # it ends the process once all is tidied up
                raise Stopped(number)

    def begin(self) -> None:
        """Note signals from now on, except those that are ignored or that others handle."""
        for number in ENDING:
            handler = signal.getsignal(number)
            if handler is not None and handler is not signal.SIG_IGN:
                self._before[number] = handler
                signal.signal(number, self._note)

    def end(self) -> None:
        """Put everything back, and let those that came have their way."""
        for number, handler in self._before.items():
            signal.signal(number, handler)
        while self._come:
            signal.raise_signal(self._come.pop(0))

    def _note(self, number: int, _frame: FrameType | None) -> None:
        if number not in self._come:
            self._come.append(number)


@contextmanager
def held() -> Iterator[Hold]:
    """Hold the signals that end a program; in the main thread only, others cannot."""
    hold = Hold()
    main = threading.current_thread() is threading.main_thread()
    try:
        if main:
            hold.begin()
        yield hold
    finally:
        hold.end()
