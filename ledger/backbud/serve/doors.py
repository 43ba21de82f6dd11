"""How long a connection may take to say what it wants, and how many may stand open at once.

Whoever only begins a request and stays then takes no place from those who finish theirs. Imported
by a server alone, since it loads uvicorn.
"""

from __future__ import annotations

import asyncio

from uvicorn.protocols.http.h11_impl import H11Protocol

# A browser opens six to one address (common practice, no source); a house has few of them.
MOST_CONNECTIONS = 100
# From the first byte of a request, or from the beginning, to the end of its headers.
HEADERS_SECONDS = 10.0


class Door(H11Protocol):
    """One connection, as uvicorn makes them."""

    _since = 0.0
    _closing: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        super().connection_made(transport)
        self._await_headers()
        open_ones = [
            one
            for one in self.connections
            if isinstance(one, Door) and not one.transport.is_closing()
        ]
        if len(open_ones) > MOST_CONNECTIONS:
            waiting = [one for one in open_ones if one._is_waiting() and one is not self]
            min(waiting, key=lambda one: one._since, default=self).transport.abort()

    def data_received(self, data: bytes) -> None:
        before = self.cycle
        super().data_received(data)
        if self.cycle is not before:
            self._stop_waiting()
        if self._is_waiting():
            self._await_headers()

    def connection_lost(self, exc: Exception | None) -> None:
        self._stop_waiting()
        super().connection_lost(exc)

    def on_response_complete(self) -> None:
        self._since = self.loop.time()
        super().on_response_complete()

    def _is_waiting(self) -> bool:
        """Whether no request is being answered."""
        return self.cycle is None or self.cycle.response_complete

    def _await_headers(self) -> None:
        """Give it so long from now, unless it has been given its time already."""
        if self._closing is None:
            self._since = self.loop.time()
            self._closing = self.loop.call_later(HEADERS_SECONDS, self._close)

    def _stop_waiting(self) -> None:
        if self._closing is not None:
            self._closing.cancel()
            self._closing = None

    def _close(self) -> None:
        if self._is_waiting():
            self.transport.abort()
