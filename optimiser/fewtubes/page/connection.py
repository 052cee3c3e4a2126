"""A browser's connection, which is dropped if the browser stays silent for too long.

The server by itself waits for the rest of a request, and for a browser to take its answer, for
ever. Here a connection is dropped that brings no whole head of a request in time or leaves its
answer lying; a body that does not come is ended by the guard. The number of
connections is limited; whoever has waited longest without asking anything gives way.
"""

import asyncio

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from fewtubes.page.settings import Patience

__all__ = ["connection_type"]

LAST_SECONDS = 1.0
"""For a browser to take its answer once the page is being closed [s]."""


def connection_type(patience: Patience) -> type[H11Protocol]:
    """Return a class of connections that wait as long as `patience` says."""

    class Connection(_Connection):
        pass

    Connection.patience = patience
    return Connection


class _Connection(H11Protocol):
    """HTTP/1.1 on one connection, with limits."""

    patience = Patience()
    _timer: asyncio.TimerHandle | None = None
    _since = 0.0
    """Since when a head is waited for, by the loop's clock [s]."""
    _closing = False

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection, if there is room."""
        super().connection_made(transport)
        self._await_head()
        if len(self.connections) > self.patience.connections:
            self._make_room()

    def connection_lost(self, exc: Exception | None) -> None:
        """Let go of a connection."""
        self._disarm()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Take what has come; what is no HTTP after an answer ends the connection silently."""
        try:
            super().data_received(data)
        except h11.LocalProtocolError:  # the refusal of what came cannot be said any more
            self.transport.abort()
        if self.answering and not self.flow.write_paused:
            self._disarm()

    def send_400_response(self, msg: str) -> None:
        """Refuse what is no HTTP; a request of which it was the body gets no other answer."""
        if self.answering:
            self.cycle.disconnected = True
            self.cycle.message_event.set()
        super().send_400_response(msg)

    def on_response_complete(self) -> None:
        """Begin to wait for the next request."""
        super().on_response_complete()
        if not self.answering:
            self._await_head()

    def pause_writing(self) -> None:
        """Begin to wait for the browser to take what is written."""
        super().pause_writing()
        self._arm(self.patience.answer_seconds)

    def resume_writing(self) -> None:
        """Go on, now that it did."""
        super().resume_writing()
        if self.answering:
            self._disarm()
        else:
            self._await_head()

    def shutdown(self) -> None:
        """Close the connection; do not wait for a browser that does not go on by itself."""
        self._closing = True
        super().shutdown()
        if self.answering and self.cycle.more_body:
            self.transport.abort()
        elif self.flow.write_paused:
            self._arm(LAST_SECONDS)

    @property
    def answering(self) -> bool:
        """Whether a request has come whose answer is not complete."""
        return self.cycle is not None and not self.cycle.response_complete

    def _await_head(self) -> None:
        self._since = self.loop.time()
        lying = self.flow.write_paused  # the answer is complete, and is not taken yet
        self._arm(self.patience.answer_seconds if lying else self.patience.head_seconds)

    def _arm(self, seconds: float) -> None:
        """Drop the connection after a time, unless something comes of it before."""
        self._disarm()
        if self._closing:
            seconds = min(seconds, LAST_SECONDS)
        self._timer = self.loop.call_later(seconds, self.transport.abort)

    def _disarm(self) -> None:
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None

    def _make_room(self) -> None:
        """Drop whoever has waited longest without asking anything."""
        kind = _Connection
        waiting = [one for one in self.connections if isinstance(one, kind) and not one.answering]
        longest = min(waiting, key=lambda one: one._since)
        self.connections.discard(longest)  # the loop tells it only later that it is lost
        longest.transport.abort()
