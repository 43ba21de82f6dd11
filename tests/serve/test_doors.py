"""Requests that are only begun, and pages that came with the journal: spoken to over sockets."""

from __future__ import annotations

import socket
import time
from pathlib import Path
from typing import Any

import pytest

from backbud.person import CONFIG_VARIABLE
from backbud.publish.commit import publish
from backbud.serve import doors

Watch = Any
EVIL = b"<!doctype html><body><script>evil()</script><p>planted</p></body>"


def begin(port: int) -> socket.socket:
    """A request that is begun and never ended."""
    one = socket.create_connection(("127.0.0.1", port), timeout=30)
    one.sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: ")
    return one


def is_closed(one: socket.socket, wait_seconds: float) -> bool:
    """Whether the other side ends the connection within that time."""
    one.settimeout(wait_seconds)
    try:
        while one.recv(1000):
            pass
        return True
    except ConnectionResetError:
        return True
    except TimeoutError:
        return False


def test_many_half_sent_requests_take_no_place_from_a_whole_one(
    journal: Path, watch: Watch
) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    begun = [begin(server.port) for _ in range(doors.MOST_CONNECTIONS + 30)]
    try:
        assert server.get("trees/yuki.html").status == 200
        # The oldest made way.
        assert is_closed(begun[0], 10)
        assert not is_closed(begun[-1], 0.2)
    finally:
        for one in begun:
            one.close()
    said = server.get("index.html")
    assert said.status == 200
    assert server.stop() == 0
    rest = server.process.stdout.read().decode()
    assert (server.told + rest).count("\n") <= 4, server.told + rest


@pytest.mark.slow
def test_a_request_has_so_long_for_its_headers_also_one_that_trickles(
    journal: Path, watch: Watch
) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    silent = socket.create_connection(("127.0.0.1", server.port))
    trickling = begin(server.port)
    # One that comes after a whole request on the same connection.
    second = socket.create_connection(("127.0.0.1", server.port), timeout=30)
    second.sendall(b"GET /nothing.ics HTTP/1.1\r\nHost: localhost\r\n\r\n")
    assert second.recv(10_000).startswith(b"HTTP/1.1 404")
    second.sendall(b"GET / HTTP/1.1\r\nHost: ")
    until = time.monotonic() + doors.HEADERS_SECONDS + 5
    is_open = True
    while is_open and time.monotonic() < until:
        try:
            trickling.sendall(b"x")
        except OSError:
            is_open = False
        time.sleep(0.5)
    assert not is_open
    assert is_closed(silent, 5) and is_closed(second, 5)


def test_a_service_worker_is_not_served(journal: Path, watch: Watch) -> None:
    """Service Workers (W3C): a browser asks for the script of one with this header."""
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    for name in ("index.html", "calendars/all.ics", "sw.js"):
        said = server.get(name, Service_Worker="script")
        assert said.status == 403
        assert "hoshi" not in said.text


def test_an_output_that_came_with_the_journal_is_not_served(
    journal: Path, watch: Watch, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    files = {"index.html": EVIL, "sw.js": b"evil()", "other.html": EVIL}
    with monkeypatch.context() as theirs:
        theirs.setenv(CONFIG_VARIABLE, str(tmp_path / "settings of a stranger"))
        publish(str(journal), files)
    server = watch()
    said = server.page_with("", "made/ does not bear your mark", status=404)
    assert "backbud make --take-over" in said.text
    for name in files:
        said = server.get(name)
        assert said.status == 404
        assert "planted" not in said.text and "evil" not in said.text
    assert (journal / "made/index.html").read_bytes() == EVIL
    server.told_of("made/ does not bear your mark")


def test_what_the_last_run_made_is_served_at_once_but_no_byte_that_changed_since(
    journal: Path, watch: Watch
) -> None:
    publish(str(journal), {"index.html": b"<body>as it was</body>", "trees.html": b"as it was"})
    (journal / "made/trees.html").write_bytes(b"planted!!")
    (journal / "backbud.toml").write_text("language =")
    server = watch()
    server.page_with("index.html", "as it was")
    said = server.get("trees.html")
    assert said.status == 404
    assert "planted" not in said.text
