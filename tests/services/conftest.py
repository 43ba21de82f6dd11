"""A met service on this machine: it answers with what a test puts there, over HTTP or TLS.

The answers are ours, made from the published documentation of each service.
"""

from __future__ import annotations

import json
import ssl
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from types import SimpleNamespace
from typing import Any

import pytest
import trustme

from backbud.services.agreed import Agreed

Reply = Callable[[BaseHTTPRequestHandler], None]


class MetServer:
    """`replies` by path without its query; `asked`: each request's path and headers."""

    def __init__(self, port: int, secure: bool) -> None:
        self.url = f"{'https' if secure else 'http'}://localhost:{port}"
        self.replies: dict[str, Reply] = {}
        self.asked: list[tuple[str, dict[str, str]]] = []

    def answers(self, path: str, value: Any, **headers: str) -> None:
        """Answer a path with JSON."""
        self.replies[path] = with_body(json.dumps(value).encode(), **headers)


def with_body(
    body: bytes, status: int = 200, sort: str = "application/json", **headers: str
) -> Reply:
    """A reply of these bytes."""

    def reply(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(status)
        handler.send_header("Content-Type", sort)
        handler.send_header("Content-Length", str(len(body)))
        for name, value in headers.items():
            handler.send_header(name.replace("_", "-"), value)
        handler.end_headers()
        handler.wfile.write(body)

    return reply


@contextmanager
def met_server(context: ssl.SSLContext | None = None) -> Iterator[MetServer]:
    """A server as long as it is wanted."""

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            path = self.path.partition("?")[0]
            server.asked.append((self.path, {k.casefold(): v for k, v in self.headers.items()}))
            with suppress(OSError):  # whoever asked has gone
                server.replies.get(path, with_body(b"{}", 404))(self)

        def log_message(self, *_: Any) -> None:
            pass

    listening = ThreadingHTTPServer(("localhost", 0), Handler)
    listening.daemon_threads = True
    if context is not None:
        listening.socket = context.wrap_socket(listening.socket, server_side=True)
    server = MetServer(listening.server_address[1], context is not None)
    thread = threading.Thread(target=listening.serve_forever, args=(0.02,), daemon=True)
    thread.start()
    try:
        yield server
    finally:
        listening.shutdown()
        listening.server_close()


COMPACT = "/weatherapi/locationforecast/2.0/compact"


def compact(now: datetime, lows: tuple[float, ...], high: float = 8.0) -> dict[str, Any]:
    """Locationforecast compact: hours of the first two days, then six hours at a time.

    Each night is at its low at 6:00 UTC and each day at its high at 12:00; it rains 0.5 mm in each
    hour of the second afternoon, and the wind is 9 m/s at noon.
    """
    start = now.replace(minute=0, second=0, microsecond=0)
    steps = []
    for n in range(24 * len(lows)):
        at = start + timedelta(hours=n)
        if n >= 48 and at.hour % 6:
            continue
        day = (at.date() - start.date()).days
        low = lows[min(max(day - 1, 0), len(lows) - 1)]
        air = low if at.hour == 6 and day else high if at.hour == 12 else (low + high) / 2
        data: dict[str, Any] = {
            "instant": {
                "details": {"air_temperature": air, "wind_speed": 9.0 if at.hour == 12 else 3.0}
            }
        }
        rain = 0.5 if day == 2 and at.hour in (13, 14) else 0.0
        name = "next_1_hours" if n < 48 else "next_6_hours"
        data[name] = {
            "summary": {"symbol_code": "cloudy"},
            "details": {"precipitation_amount": rain},
        }
        steps.append({"time": at.strftime("%Y-%m-%dT%H:%M:%SZ"), "data": data})
    units = {"air_temperature": "celsius", "wind_speed": "m/s", "precipitation_amount": "mm"}
    return {
        "type": "Feature",
        "geometry": {"type": "Point", "coordinates": [0.0, 52.0, 10]},
        "properties": {
            "meta": {"updated_at": now.strftime("%Y-%m-%dT%H:%M:%SZ"), "units": units},
            "timeseries": steps,
        },
    }


NOW = datetime(2027, 3, 6, 16, 20, tzinfo=UTC)


@pytest.fixture(scope="module")
def one_server() -> Iterator[MetServer]:
    with met_server() as server:
        yield server


@pytest.fixture
def met(one_server: MetServer) -> MetServer:
    """A service over HTTP, as it may be on this machine alone."""
    one_server.replies.clear()
    one_server.asked.clear()
    return one_server


@pytest.fixture(scope="session")
def authority() -> trustme.CA:
    """Whoever signs a certificate for these tests."""
    return trustme.CA()


@pytest.fixture
def kit() -> SimpleNamespace:
    """What tests make answers of."""
    return SimpleNamespace(
        COMPACT=COMPACT, NOW=NOW, compact=compact, with_body=with_body, met_server=met_server
    )


@pytest.fixture
def named(met: MetServer) -> Agreed:
    """What a person named: this server for a yard near London."""
    return Agreed(
        service="met-norway",
        place="yard",
        latitude="51.50",
        longitude="0.10",
        contact="una@example.org",
        address=met.url,
        records=f"{met.url}/access",
    )


@pytest.fixture
def journal(tmp_path):
    """A journal's folder."""
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (tmp_path / "cards.txt").write_text("place yard\n  latitude 51.503 N\n  longitude 0.1 E\n")
    return tmp_path
