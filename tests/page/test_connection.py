"""Connections from which nothing comes are dropped, and those that are in use are not."""

import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager, suppress
from dataclasses import replace
from types import SimpleNamespace
from typing import Any, cast
from urllib.parse import urlencode

import anyio
import pytest
import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from fewtubes.catalogue.records import Catalogue
from fewtubes.page.app import make_app
from fewtubes.page.assortment import Assortment
from fewtubes.page.server import server_of
from fewtubes.page.settings import HOST, Patience, Settings

LONG = 60.0
"""Long enough for a busy machine [s]; a test that waits so long has failed."""

SOON = 0.2
"""The limit that a test tries [s]."""

NEVER = 1000.0
"""A limit that a test does not come to [s]."""

PATIENT = Patience(head_seconds=NEVER, body_seconds=NEVER, answer_seconds=NEVER)

Connect = Callable[[], socket.socket]

Served = AbstractContextManager[tuple[uvicorn.Server, Connect]]

Serve = Callable[[Starlette, Settings], Served]

ServePage = Callable[[Patience], Served]


@pytest.fixture
def serve() -> Iterator[Serve]:
    """Return what serves an application from a thread; connections last as long as the test."""
    with ExitStack() as sockets:

        @contextmanager
        def serving(app: Starlette, settings: Settings) -> Iterator[tuple[uvicorn.Server, Connect]]:
            with socket.create_server((HOST, 0)) as listening:
                address, server = listening.getsockname(), server_of(app, settings)
                thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
                thread.start()
                wait_until(lambda: server.started)
                try:
                    yield (
                        server,
                        lambda: sockets.enter_context(socket.create_connection(address, LONG)),
                    )
                finally:
                    server.should_exit = True
                    thread.join()

        yield serving


def wait_until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + LONG
    while not true():
        assert time.monotonic() < end
        time.sleep(0.01)


def rest(connection: socket.socket) -> bytes:
    """Return all that comes until the connection is dropped; fails if it is not."""
    got = b""
    try:
        while piece := connection.recv(65536):
            got += piece
    except ConnectionResetError:
        pass
    return got


def head(settings: Settings, method: str, path: str, *more: str) -> bytes:
    """Return the head of a request as the painter's browser sends it."""
    address = f"{HOST}:{settings.port}"
    lines = [
        f"{method} {path} HTTP/1.1",
        f"Host: {address}",
        f"Origin: http://{address}",
        f"Cookie: {settings.cookie}={settings.token}",
        *more,
    ]
    return "\r\n".join([*lines, "", ""]).encode()


def opened(connection: socket.socket, settings: Settings) -> str:
    """Open a tab and return its path."""
    connection.sendall(head(settings, "GET", "/", "Connection: close"))
    return rest(connection).partition(b"location: ")[2].partition(b"\r\n")[0].decode()


@pytest.fixture
def page(serve: Serve, settings: Settings, demo: Catalogue, assortment: Assortment) -> ServePage:
    """Return what serves the page with other limits."""

    def serving(patience: Patience) -> Served:
        other = replace(settings, patience=patience)
        return serve(make_app(other, demo, assortment), other)

    return serving


def bare(answer: Callable[[Request], Any]) -> Starlette:
    """Return an application with one answer to everything."""
    app = Starlette(routes=[Route("/", answer, methods=["GET"])])
    app.state.run = SimpleNamespace(close=lambda: None)
    return app


@pytest.mark.parametrize("sent", [b"", b"GET / HT", b"GET / HTTP/1.1\r\nHost: a\r\n"])
def test_a_head_that_does_not_come(page: ServePage, sent: bytes) -> None:
    with page(replace(PATIENT, head_seconds=SOON)) as (_, connect):
        connection = connect()
        connection.sendall(sent)
        assert rest(connection) == b""


def test_a_second_head_that_does_not_come(page: ServePage, settings: Settings) -> None:
    with page(replace(PATIENT, head_seconds=SOON)) as (_, connect):
        connection = connect()
        connection.sendall(head(settings, "GET", "/static/page.css") + b"GET / HT")
        assert rest(connection).startswith(b"HTTP/1.1 200 ")


@pytest.mark.parametrize(
    "body", ["Content-Length: 1000", "Transfer-Encoding: chunked"], ids=["announced", "in chunks"]
)
def test_a_body_that_does_not_come(page: ServePage, settings: Settings, body: str) -> None:
    with page(replace(PATIENT, body_seconds=SOON)) as (_, connect):
        tab = opened(connect(), settings)
        connection = connect()
        connection.sendall(head(settings, "POST", f"{tab}ask", body))
        answer = rest(connection)
        assert answer.startswith(b"HTTP/1.1 408 ")
        assert b"did not come" in answer
        assert b"content-security-policy" in answer


def test_a_refused_body_that_drips_on(page: ServePage, settings: Settings) -> None:
    with page(replace(PATIENT, head_seconds=SOON)) as (_, connect):
        connection = connect()
        connection.sendall(head(settings, "POST", "/nowhere", "Content-Length: 100000"))
        connection.settimeout(SOON / 4)
        got, end = b"", time.monotonic() + LONG
        try:
            while time.monotonic() < end:
                connection.sendall(b"a")
                try:
                    got += connection.recv(65536)
                except TimeoutError:
                    continue
        except (ConnectionResetError, BrokenPipeError):
            pass
        assert time.monotonic() < end
        assert got.startswith(b"HTTP/1.1 404 ")


@pytest.mark.parametrize("at_once", [True, False])
def test_an_answer_that_is_not_taken(serve: Serve, settings: Settings, at_once: bool) -> None:
    async def large(_request: Request) -> Response:
        piece, pieces = bytes(1_000_000), 50  # together more than any socket holds
        if at_once:
            return PlainTextResponse(piece * pieces)
        return StreamingResponse(piece for _ in range(pieces))

    limited = replace(settings, patience=replace(PATIENT, answer_seconds=SOON))
    with serve(bare(large), limited) as (server, connect):
        connection = connect()
        connection.sendall(head(settings, "GET", "/", "Content-Length: 1000000"))
        wait_until(lambda: bool(server.server_state.connections))
        with suppress(ConnectionResetError, BrokenPipeError):
            for _ in range(int(LONG / SOON) * 4):  # it goes on asking, and takes nothing
                connection.sendall(b"a")
                time.sleep(SOON / 4)
        assert not server.server_state.connections


def test_whoever_waits_for_an_answer_is_not_dropped(serve: Serve, settings: Settings) -> None:
    async def slow(_request: Request) -> Response:
        await anyio.sleep(5 * SOON)
        return PlainTextResponse("at last")

    hasty = Patience(head_seconds=SOON, body_seconds=SOON, answer_seconds=SOON)
    with serve(bare(slow), replace(settings, patience=hasty)) as (_, connect):
        connection = connect()
        connection.sendall(head(settings, "GET", "/"))
        assert rest(connection).endswith(b"at last")


def test_whoever_asks_nothing_gives_way(page: ServePage, settings: Settings) -> None:
    with page(replace(PATIENT, connections=3)) as (_, connect):
        silent = [connect() for _ in range(10)]
        for connection in silent[:7]:
            assert rest(connection) == b""
        asking = connect()
        asking.sendall(head(settings, "GET", "/static/page.css", "Connection: close"))
        assert rest(asking).startswith(b"HTTP/1.1 200 ")
        assert rest(silent[7]) == b""


def test_what_is_no_request_after_an_answer(
    page: ServePage, settings: Settings, caplog: pytest.LogCaptureFixture
) -> None:
    with page(PATIENT) as (_, connect):
        connection = connect()
        connection.sendall(head(settings, "POST", "/nowhere", "Transfer-Encoding: chunked"))
        got = connection.recv(65536)
        assert got.startswith(b"HTTP/1.1 404 ")
        connection.sendall(b"no chunk at all\r\n")
        rest(connection)
    assert not caplog.records  # asyncio logs what a protocol raises


@pytest.mark.parametrize("place", ["/nowhere", "/static/page.css", "ask"])
@pytest.mark.parametrize("at_once", [True, False])
def test_a_body_that_is_none(
    page: ServePage,
    settings: Settings,
    capfd: pytest.CaptureFixture[str],
    place: str,
    at_once: bool,
) -> None:
    with page(PATIENT) as (server, connect):
        path = place if place.startswith("/") else f"{opened(connect(), settings)}{place}"
        connection = connect()
        asked = head(settings, "POST", path, "Transfer-Encoding: chunked")
        if at_once:
            connection.sendall(asked + b"no chunk at all\r\n")
        else:
            connection.sendall(asked)
            time.sleep(SOON)
            with suppress(ConnectionResetError, BrokenPipeError):
                connection.sendall(b"no chunk at all\r\n")
        answer = rest(connection)
        wait_until(lambda: not server.server_state.tasks)
    if at_once:
        assert answer.startswith(b"HTTP/1.1 400 ")
    assert "Traceback" not in capfd.readouterr().err


@pytest.mark.parametrize("place", ["ask", "photograph", "colours"])
def test_a_browser_that_goes_away_in_the_middle_of_a_form(
    page: ServePage,
    settings: Settings,
    capfd: pytest.CaptureFixture[str],
    place: str,
) -> None:
    with page(PATIENT) as (server, connect):
        tab = opened(connect(), settings)
        connection = connect()
        kind = "Content-Type: multipart/form-data; boundary=x"
        connection.sendall(
            head(
                settings,
                "POST",
                f"{tab}{place}",
                kind,
                "Content-Length: 1000",
                "Expect: 100-continue",
            )
        )
        assert connection.recv(65536).startswith(b"HTTP/1.1 100 ")  # the form is being read
        connection.sendall(b"--x\r\n")
        connection.close()
        wait_until(lambda: not server.server_state.tasks)
    assert capfd.readouterr().err == ""


def test_closing_while_a_report_is_waited_for(
    serve: Serve, comparing_app: Starlette, settings: Settings, filled: dict[str, Any]
) -> None:
    with serve(comparing_app, settings) as (server, connect):
        tab = opened(connect(), settings)
        form = urlencode(filled, doseq=True).encode()
        kind = "Content-Type: application/x-www-form-urlencoded"
        asking, waiting = connect(), connect()
        length = f"Content-Length: {len(form)}"
        asking.sendall(
            head(settings, "POST", f"{tab}ask", kind, length, "Connection: close") + form
        )
        assert rest(asking).startswith(b"HTTP/1.1 303 ")
        for connection, place in ((connect(), "answer"), (waiting, "last/report.html")):
            connection.sendall(head(settings, "GET", f"{tab}{place}"))
            assert connection is waiting or connection.recv(12) == b"HTTP/1.1 200"
        wait_until(lambda: bool(server.server_state.tasks))
    answer = rest(waiting)
    assert answer.startswith(b"HTTP/1.1 200 ")
    assert b"<!DOCTYPE html>" in answer


def test_closing_waits_for_nobody_who_does_not_go_on(
    page: ServePage, settings: Settings, capfd: pytest.CaptureFixture[str]
) -> None:
    with page(PATIENT) as (server, connect):
        connect().sendall(b"GET / HT")
        tab = opened(connect(), settings)
        connect().sendall(head(settings, "POST", f"{tab}ask", "Content-Length: 10") + b"a")
        connect().sendall(head(settings, "GET", "/static/page.css") * 2000)  # and takes nothing
        wait_until(lambda: len(server.server_state.connections) == 3)
        wait_until(lambda: any(_written_up(one) for one in server.server_state.connections))
    assert capfd.readouterr().err == ""


def _written_up(connection: object) -> bool:
    """Return whether more was written to a connection than is taken from it."""
    return cast(Any, connection).flow.write_paused is True
