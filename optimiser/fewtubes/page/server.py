"""The page is served on the loopback address until it is told to end."""

import socket
from collections.abc import Callable
from dataclasses import replace

from starlette.concurrency import run_in_threadpool

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.errors import Fault, InputError
from fewtubes.page.app import make_app
from fewtubes.page.form import first_values
from fewtubes.page.settings import HOST, Settings
from fewtubes.page.shelf import laid_out

__all__ = ["serve"]

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
        If the catalogue has faults or the port is taken.
    """
    import uvicorn  # noqa: PLC0415

    catalogue = read_catalogue(settings.catalogue)
    usual = first_values(catalogue)
    cache = Cache(settings.cache)
    shelf = laid_out(catalogue, optics_for(catalogue, usual["paper"][0], usual["light"][0], cache))
    with _bound(settings.port) as listening:
        bound = replace(settings, port=listening.getsockname()[1])
        app = make_app(bound, catalogue, shelf)

        class Server(uvicorn.Server):
            """Ends the work before the requests that wait for it, so that none is cut off."""

            async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
                await run_in_threadpool(app.state.desk.tabs.stop_all)
                await super().shutdown(sockets)

        server = Server(
            uvicorn.Config(
                app,
                log_level="error",
                access_log=False,  # addresses hold the token
                server_header=False,
                proxy_headers=False,
                ws="none",
                timeout_graceful_shutdown=GRACE,
            )
        )
        listening.listen()
        opened(bound.address)
        server.run(sockets=[listening])


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
