"""Who may ask what of the page: this machine's own browser, with this run's token.

A page on the web can make a browser send requests to this machine. It cannot forge the Host and
Origin headers (RFC 9110, RFC 6454), and the browser keeps a SameSite=Strict cookie from it
(RFC 6265bis). Everything else is refused before any handler sees it.
"""

import math
import secrets
from contextlib import suppress

import anyio
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fewtubes.colour.picture_file import LARGEST_BYTES
from fewtubes.page.settings import HOST, Settings
from fewtubes.page.too_much import takes_photographs, too_much_words

__all__ = ["Guard"]

DRAINED = 4
"""So many times the limit is read and thrown away, so that a browser gets to see the refusal."""

LONGEST_LENGTH = 15
"""Digits of an announced length; no body has so many bytes."""

SAFE_METHODS = frozenset({"GET", "HEAD"})

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
    " form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
"""No script, style or picture from anywhere else, and none written into the page."""

HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",  # with no-referrer a browser would not tell its Origin
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


class Guard:
    """ASGI middleware that refuses, and puts the security headers on every answer.

    Parameters
    ----------
    app
        What is guarded.
    settings
        Of this run.
    most_bytes
        Largest size of a form, without a photograph.
    """

    def __init__(self, app: ASGIApp, settings: Settings, most_bytes: int) -> None:
        self.app = app
        self.settings = settings
        self.most_bytes = most_bytes
        self.hosts = {f"{name}:{settings.port}" for name in (HOST, "localhost")}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or answer it with a refusal."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            await send({"type": "websocket.close", "code": 1008})
            return
        answer = self._refusal(scope["method"], scope["path"], Headers(scope=scope))
        limited = _Limited(receive, self._most(scope["path"]), self.settings.patience.body_seconds)
        if answer is None and limited.announced_too_much(Headers(scope=scope)):
            await limited.drain()
            answer = self._too_large(scope["path"])
        if answer is not None:
            await answer(scope, receive, _with_headers(send))
            return
        try:
            await self.app(scope, limited.receive, _with_headers(send))
        except ClientDisconnect:
            return  # the browser went away in the middle of a form: nobody to answer to
        except _TooLargeError:
            await self._too_large(scope["path"])(scope, receive, _with_headers(send))
        except _TooSlowError:
            await _too_slow()(scope, receive, _with_headers(send))

    def _most(self, path: str) -> int:
        """Return how many bytes may come, with a photograph or without."""
        return self.most_bytes + (LARGEST_BYTES if takes_photographs(path) else 0)

    def _too_large(self, path: str) -> Response:
        return _sentence(413, too_much_words(path, self.most_bytes))

    def _refusal(self, method: str, path: str, headers: Headers) -> Response | None:
        """Return why a request is refused, or None."""
        hosts, origins = headers.getlist("host"), headers.getlist("origin")
        if len(hosts) != 1 or hosts[0] not in self.hosts:
            return _sentence(421, "This page answers to its own address only.")
        own = f"http://{hosts[0]}"
        if any(origin != own for origin in origins):
            return _sentence(403, "This page takes nothing from other pages.")
        if method not in SAFE_METHODS:
            if method != "POST":
                return _sentence(405, "This page knows GET, HEAD and POST only.")
            if len(origins) != 1:
                return _sentence(403, "This page takes forms from its own pages only.")
        if self._is_opening(path) or self._has_token(headers):
            return None
        return _sentence(
            403, "Open this page by the address that `fewtubes page` printed in the terminal."
        )

    def _is_opening(self, path: str) -> bool:
        """Return whether a path is the address that was printed."""
        wanted = f"/open/{self.settings.token}"
        return secrets.compare_digest(path.encode("utf-8", "replace"), wanted.encode())

    def _has_token(self, headers: Headers) -> bool:
        """Return whether the cookie holds this run's token."""
        wanted = f"{self.settings.cookie}={self.settings.token}".encode()
        sent = (part.strip() for line in headers.getlist("cookie") for part in line.split(";"))
        return any(secrets.compare_digest(part.encode(), wanted) for part in sent)


class _TooLargeError(Exception):
    """More bytes came than may."""


class _TooSlowError(Exception):
    """The rest did not come in time."""


class _Limited:
    """The body of a request, counted and timed."""

    def __init__(self, receive: Receive, most: int, seconds: float) -> None:
        self._receive = receive
        self.most = most
        self.count = 0
        self.more = True
        """Whether something of it is still to come."""
        self.deadline = anyio.current_time() + seconds

    def announced_too_much(self, headers: Headers) -> bool:
        """Return whether the head of the request says that too much will come."""
        length = headers.get("content-length", "0")
        long = len(length) > LONGEST_LENGTH
        return long or not length.isdecimal() or int(length) > self.most

    async def receive(self) -> Message:
        """Return the next piece, or raise if it is one too many or does not come."""
        message = await self._next()
        if self.count > self.most:
            raise _TooLargeError
        return message

    async def drain(self) -> None:
        """Read on without keeping anything, for a while."""
        with suppress(_TooSlowError):
            while self.more and self.count < DRAINED * self.most:
                await self._next()

    async def _next(self) -> Message:
        """Return what comes next; after the body that is the end of the connection, at any time."""
        with anyio.CancelScope(deadline=self.deadline if self.more else math.inf):
            message = await self._receive()
            self.count += len(message.get("body", b""))
            self.more = message["type"] == "http.request" and message.get("more_body", False)
            return message
        raise _TooSlowError


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
        await send(message)

    return sending


def _too_slow() -> Response:
    answer = _sentence(408, "The rest of the form did not come; go back and send it again.")
    answer.headers["Connection"] = "close"
    return answer


def _sentence(status: int, text: str) -> Response:
    return PlainTextResponse(f"{text}\n", status_code=status)
