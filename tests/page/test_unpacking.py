"""Photographs are unpacked elsewhere, one at a time, and nothing of it is left."""

import io
import os
import signal
import threading
from collections.abc import Callable
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

import numpy as np
import pytest
from PIL import Image

from fewtubes.colour.picture_file import decoded
from fewtubes.errors import InputError
from fewtubes.page import unpacking
from fewtubes.page.processes import begun
from fewtubes.page.unpacking import Unpacker

Begun = tuple[BaseProcess, Connection]


@pytest.fixture(scope="module")
def file() -> bytes:
    out = io.BytesIO()
    pixels = np.random.default_rng(0).integers(0, 256, (40, 60, 3), dtype=np.uint8)
    Image.fromarray(pixels).save(out, "PNG")
    return out.getvalue()


@pytest.fixture
def processes(monkeypatch: pytest.MonkeyPatch) -> list[BaseProcess]:
    """Return the list that the processes begun are added to."""
    return watched(monkeypatch, lambda _: None)


def watched(
    monkeypatch: pytest.MonkeyPatch, treat: Callable[[BaseProcess], None]
) -> list[BaseProcess]:
    """Treat each process that is begun in some way, and note it."""
    noted: list[BaseProcess] = []

    def beginning(work: Callable[..., None]) -> Begun:
        assert not any(process.is_alive() for process in noted)  # one at a time
        process, connection = begun(work)
        noted.append(process)
        treat(process)
        return process, connection

    monkeypatch.setattr(unpacking, "begun", beginning)
    return noted


def stop(process: BaseProcess) -> None:
    """Let a process go no further, as one that is caught in a picture without end."""
    assert process.pid is not None
    os.kill(process.pid, signal.SIGSTOP)


def test_pixels_come_from_a_process_that_is_gone(
    file: bytes, processes: list[BaseProcess], monkeypatch: pytest.MonkeyPatch
) -> None:
    wanted = decoded(file)

    def unpacked_here(_data: bytes) -> None:
        raise AssertionError("the photograph was unpacked in the page's own process")

    monkeypatch.setattr(unpacking, "decoded", unpacked_here)
    assert (Unpacker().unpack(file) == wanted).all()
    assert [process.exitcode is None for process in processes] == [False]


def test_what_is_wrong_with_a_file_is_told() -> None:
    with pytest.raises(InputError, match=r"^photograph: is not a whole JPEG, PNG or WebP picture"):
        Unpacker().unpack(b"nothing of the kind")


def test_one_at_a_time(file: bytes, processes: list[BaseProcess]) -> None:
    unpacker = Unpacker()
    threads = [threading.Thread(target=unpacker.unpack, args=(file,)) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    # `watched` looks whether any other is alive whenever one is begun, and ends its thread if so.
    assert len(processes) == 3


def test_a_picture_without_end_is_given_up(file: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    noted = watched(monkeypatch, stop)
    with pytest.raises(InputError, match=r"was not unpacked within 0\.1 s; save it smaller"):
        Unpacker(seconds=0.1).unpack(file)
    assert not noted[0].is_alive()


def test_a_picture_that_fells_its_decoder(file: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    watched(monkeypatch, BaseProcess.kill)
    with pytest.raises(InputError, match="could not be unpacked"):
        Unpacker().unpack(file)


def test_closing_stops_what_goes_on_and_what_waits(
    file: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    noted = watched(monkeypatch, stop)
    unpacker, told = Unpacker(), []

    def unpack() -> None:
        with pytest.raises(InputError) as caught:
            unpacker.unpack(file)
        told.append(str(caught.value))

    threads = [threading.Thread(target=unpack) for _ in range(2)]
    for thread in threads:
        thread.start()
    while not noted:
        threads[0].join(0.01)
    unpacker.close()
    for thread in threads:
        thread.join()
    assert len(noted) == 1
    assert not noted[0].is_alive()
    assert any("the page is being closed" in words for words in told)


def test_the_keyboard_is_left_to_the_page(
    file: bytes, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    # Ctrl-C goes to all processes of a terminal, to one that is just beginning to import as well.
    watched(monkeypatch, lambda process: os.kill(process.pid or 0, signal.SIGINT))
    assert (Unpacker().unpack(file) == decoded(file)).all()
    assert capfd.readouterr().err == ""
