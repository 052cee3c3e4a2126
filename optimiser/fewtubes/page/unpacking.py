"""Photographs are unpacked one at a time, each in a process that ends with it.

So the memory it took is given back, a picture that takes too long can be stopped, and one that
fells its decoder does not fell the page. Nothing is written anywhere: file and pixels go through
the connection.
"""

import threading
from collections.abc import Callable
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

from fewtubes.card.picture import LONGEST_SIDE
from fewtubes.colour.picture_file import WHERE, Photograph, Pixels, decoded, photograph
from fewtubes.errors import Fault, InputError
from fewtubes.page.processes import begun

__all__ = ["Unpacker"]

LONGEST_SECONDS = 20.0
"""For one photograph; the largest allowed took one or two where this was written [s]."""


class Unpacker:
    """Unpacks photographs, one at a time."""

    def __init__(self, *, seconds: float = LONGEST_SECONDS) -> None:
        self._seconds = seconds
        self._turn = threading.Lock()
        self._lock = threading.Lock()
        self._process: BaseProcess | None = None
        self._closed = False

    def unpack(self, data: bytes) -> Pixels:
        """Return a photograph reduced, as `decoded` does; waits for its turn.

        Raises
        ------
        InputError
            If it is too large, no picture, or cannot be unpacked in time.
        """
        pixels: Pixels = self._unpacked(_work, data)
        return pixels

    def unpack_card(self, data: bytes) -> Photograph:
        """Return the photograph of a card, as fine as its reading needs it; see `unpack`."""
        card: Photograph = self._unpacked(_work_on_card, data)
        return card

    def _unpacked(self, work: Callable[[Connection], None], data: bytes) -> Any:
        with self._turn:
            process, connection = self._begin(work)
            try:
                with connection:
                    told = self._told(connection, data)
            except (EOFError, OSError):
                raise _fault("could not be unpacked; save it smaller and try again.") from None
            finally:
                process.kill()  # it holds nothing that had to be put in order
                process.join()
                self._process = None
        if isinstance(told, tuple):
            raise InputError(told)
        return told

    def close(self) -> None:
        """Stop what is being unpacked, and unpack nothing more."""
        with self._lock:
            self._closed = True
            if self._process is not None:
                self._process.kill()

    def _begin(self, work: Callable[[Connection], None]) -> tuple[BaseProcess, Connection]:
        with self._lock:
            if self._closed:
                raise _fault("comes too late; the page is being closed.")
            self._process, connection = begun(work)
            return self._process, connection

    def _told(self, connection: Connection, data: bytes) -> Any:
        """Return what was unpacked, or what is wrong with the file."""
        connection.send_bytes(data)
        if not connection.poll(self._seconds):
            raise _fault(
                f"was not unpacked within {self._seconds:g} s; save it smaller and try again."
            )
        return connection.recv()


def _work(connection: Connection) -> None:
    """Unpack one photograph; the entry of the process."""
    _answer(connection, decoded)


def _work_on_card(connection: Connection) -> None:
    """Unpack one photograph of a card; the entry of the process."""
    _answer(connection, lambda data: photograph(data, longest_side=LONGEST_SIDE))


def _answer(connection: Connection, unpacked: Callable[[bytes], object]) -> None:
    with connection:
        try:
            connection.send(unpacked(connection.recv_bytes()))
        except InputError as error:
            connection.send(error.faults)
        except (BrokenPipeError, EOFError):
            return  # nobody is listening any more


def _fault(what: str) -> InputError:
    return InputError([Fault(WHERE, what)])
