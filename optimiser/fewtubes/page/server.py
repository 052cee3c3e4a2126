"""The page is served on the loopback address until it is told to end."""

import logging
import signal
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from types import FrameType

import uvicorn
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool

from fewtubes.catalogue.reading import read_catalogue, read_unfinished
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.errors import Fault, InputError
from fewtubes.page.app import make_app
from fewtubes.page.assortment import assortment_of
from fewtubes.page.connection import connection_type
from fewtubes.page.form import first_values
from fewtubes.page.price_lists import currencies_of
from fewtubes.page.run_state import MANY
from fewtubes.page.settings import HOST, Settings
from fewtubes.page.tables_named import beside
from fewtubes.scenario.box_file import read_box

__all__ = ["serve", "server_of"]

GRACE = 3
"""Time for requests to end once the page is told to [s]."""


def serve(settings: Settings, *, opened: Callable[[str], None]) -> None:
    """Serve the page; returns when it was interrupted.

    Parameters
    ----------
    settings
        Port 0 takes any that is free.
    opened
        Called with the address once the page can be asked for.

    Raises
    ------
    InputError
        If the catalogue, or what was named beside it, has faults, or the port is taken.
    """
    read = _catalogue(settings.catalogue)
    catalogue = beside(read, prices=settings.usual_prices, flowers=settings.flowers)
    currencies_of(catalogue, settings.prices[1:])  # faults of further lists are told now
    usual = first_values(catalogue)
    if settings.box is not None:
        read_box(settings.box, catalogue)  # faults are told before anything is drawn
    cache = Cache(settings.cache)
    assortment = assortment_of(
        catalogue,
        optics_for(catalogue, usual["paper"][0], usual["light"][0], cache),
        priced=len(settings.prices) < MANY,
    )
    with _bound(settings.port) as listening:
        bound = replace(settings, port=listening.getsockname()[1])
        app = make_app(bound, catalogue, assortment)

        server = server_of(app, bound)
        listening.listen()
        opened(bound.address)
        with _hang_up_closes(server):
            server.run(sockets=[listening])


def _catalogue(folder: Path | None) -> Catalogue:
    """Return the catalogue in a folder; one just begun will do, as tubes can be added on the page.

    Papers and lights there must be.
    """
    if folder is None:
        return read_catalogue()
    begun = read_unfinished(folder, str(folder))
    return begun if begun.papers and begun.lights else read_catalogue(folder)


def server_of(app: Starlette, settings: Settings) -> uvicorn.Server:
    """Return the server of an application whose `state.run` is closed before it ends."""
    logging.getLogger("python_multipart").setLevel(logging.ERROR)  # a form that is none is told of
    return _Server(
        uvicorn.Config(
            app,
            http=connection_type(settings.patience),
            log_level="error",
            access_log=False,  # addresses hold the token
            server_header=False,
            proxy_headers=False,
            ws="none",
            timeout_graceful_shutdown=GRACE,
        ),
        close=app.state.run.close,
    )


class _Server(uvicorn.Server):
    """Ends the work before the requests that wait for it, so that none is cut off."""

    def __init__(self, config: uvicorn.Config, *, close: Callable[[], None]) -> None:
        super().__init__(config)
        self._close = close

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        await run_in_threadpool(self._close)
        await super().shutdown(sockets)


@contextmanager
def _hang_up_closes(server: uvicorn.Server) -> Iterator[None]:
    """Let a terminal that is closed (SIGHUP) close the page as the keyboard does.

    Where the signal is ignored, as under nohup, it stays so.
    """
    hang_up = getattr(signal, "SIGHUP", None)
    before = None if hang_up is None else signal.getsignal(hang_up)
    if hang_up is None or before in (None, signal.SIG_IGN):
        yield
        return
    came = threading.Event()

    def closed(_signal: int, _frame: FrameType | None) -> None:
        came.set()
        server.should_exit = True

    signal.signal(hang_up, closed)
    try:
        yield
    finally:
        signal.signal(hang_up, before)
    if came.is_set():
        signal.raise_signal(hang_up)


def _bound(port: int) -> socket.socket:
    """Return a socket on the loopback address."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((HOST, port))
    except OSError as error:
        listening.close()
        reason = error.strerror or str(error)
        what = f"is {port}, which cannot be used ({reason}); leave it out to take a free one."
        raise InputError([Fault("--port", what)]) from error
    return listening
