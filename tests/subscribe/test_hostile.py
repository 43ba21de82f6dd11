"""A server that means harm: whatever it sends ends soon, in one sentence that holds no password."""

from __future__ import annotations

import gzip
import re
import socket
import threading
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from backbud.subscribe import bounds, server
from backbud.subscribe.address import checked_address
from backbud.subscribe.errors import SubscribeError
from backbud.subscribe.login import Login
from backbud.subscribe.server import Server

SECRET = "a-secret-of-una"
Say = Callable[[socket.socket], None]


@contextmanager
def speaking(say: Say) -> Iterator[str]:
    """A server that reads each request's head and then does what it likes."""
    listening = socket.create_server(("127.0.0.1", 0))
    listening.settimeout(0.1)
    over = threading.Event()

    def answer(there: socket.socket) -> None:
        with there:
            try:
                there.settimeout(10)
                heard = b""
                while b"\r\n\r\n" not in heard:
                    heard += there.recv(65536)
                head, _, body = heard.partition(b"\r\n\r\n")
                length = re.search(rb"(?i)content-length: (\d+)", head)
                while len(body) < int(length[1] if length else 0):
                    body += there.recv(65536)
                say(there)
                there.shutdown(socket.SHUT_WR)
                while there.recv(65536):
                    pass
            except OSError:
                pass

    def serve() -> None:
        while not over.is_set():
            try:
                there, _ = listening.accept()
            except TimeoutError:
                continue
            threading.Thread(target=answer, args=(there,), daemon=True).start()

    thread = threading.Thread(target=serve)
    thread.start()
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
    finally:
        over.set()
        thread.join()
        listening.close()


HEAD = b"HTTP/1.1 207 Multi-Status\r\nContent-Type: application/xml\r\nConnection: close\r\n"


def without_end(there: socket.socket) -> None:
    there.sendall(HEAD + b"Content-Length: 1073741824\r\n\r\n<D:multistatus xmlns:D='DAV:'>")
    while True:
        there.sendall(b"<D:response/>" * 10000)


def in_chunks_without_end(there: socket.socket) -> None:
    there.sendall(HEAD + b"Transfer-Encoding: chunked\r\n\r\n")
    while True:
        there.sendall(b"10000\r\n" + b" " * 0x10000 + b"\r\n")


def trickling(there: socket.socket) -> None:
    there.sendall(HEAD + b"Content-Length: 100000\r\n\r\n")
    while True:
        there.sendall(b"<")
        time.sleep(0.1)


def trickling_its_head(there: socket.socket) -> None:
    there.sendall(b"HTTP/1.1 207 Multi-Status\r\nX-Slow: ")
    while True:
        there.sendall(b"x")
        time.sleep(0.1)


def head_without_end(there: socket.socket) -> None:
    there.sendall(b"HTTP/1.1 207 Multi-Status\r\n")
    while True:
        there.sendall(b"X-More: " + b"x" * 60000 + b"\r\n")


def silent(there: socket.socket) -> None:
    time.sleep(8)


def half(there: socket.socket) -> None:
    there.sendall(HEAD + b"Content-Length: 1000\r\n\r\n<D:multistatus")


BOMB = gzip.compress(b" " * 20_000_000)


def bomb(there: socket.socket) -> None:
    there.sendall(HEAD + f"Content-Encoding: gzip\r\nContent-Length: {len(BOMB)}\r\n".encode())
    there.sendall(b"\r\n" + BOMB)


def laughing(there: socket.socket) -> None:
    entities = "".join(
        f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' if n else '<!ENTITY e0 "ha">' for n in range(12)
    )
    text = f"<?xml version='1.0'?><!DOCTYPE x [{entities}]><x>&e11;</x>".encode()
    there.sendall(HEAD + f"Content-Length: {len(text)}\r\n\r\n".encode() + text)


def deep(there: socket.socket) -> None:
    text = b"<a>" * 200_000
    there.sendall(HEAD + f"Content-Length: {len(text)}\r\n\r\n".encode() + text)


def of_another_sort(there: socket.socket) -> None:
    there.sendall(b"HTTP/1.1 200 OK\r\nContent-Type: image/png\r\nConnection: close\r\n")
    there.sendall(b"Content-Length: 8\r\n\r\n\x89PNG\r\n\x1a\n")


def no_http(there: socket.socket) -> None:
    there.sendall(b"\x00\x01\x02" * 10000)


def from_here_to_here(there: socket.socket) -> None:
    there.sendall(
        b"HTTP/1.1 301 Moved\r\nLocation: /again\r\nConnection: close\r\nContent-Length: 0\r\n\r\n"
    )


def challenge_without_end(there: socket.socket) -> None:
    there.sendall(
        b'HTTP/1.1 401 No\r\nWWW-Authenticate: Digest realm="x", nonce="y", qop="auth"\r\n'
        b"Transfer-Encoding: chunked\r\n\r\n"
    )
    while True:
        there.sendall(b"10000\r\n" + b" " * 0x10000 + b"\r\n")


NO_SERVER = "{origin} did not show its calendars: it does not answer as a calendar server does"


@pytest.mark.parametrize(
    ("say", "said"),
    [
        (without_end, "{origin} sends more than 2 MB at once"),
        (in_chunks_without_end, "{origin} sends more than 2 MB at once"),
        (challenge_without_end, "{origin} sends more than 2 MB at once"),
        (trickling, "{origin} did not end its answer within 2 seconds"),
        (trickling_its_head, "{origin} did not end its answer within 2 seconds"),
        (head_without_end, "{origin} broke off its answer"),
        (silent, "{origin} did not answer within 1 seconds"),
        (half, "{origin} broke off its answer"),
        (bomb, "{origin} sends packed what was asked for unpacked"),
        (laughing, NO_SERVER),
        (deep, NO_SERVER),
        (of_another_sort, NO_SERVER),
        (no_http, "{origin} broke off its answer"),
        (from_here_to_here, "{origin} sends from one address to the next without end"),
    ],
)
def test_it_ends_in_a_sentence(
    say: Say, said: str, monkeypatch: pytest.MonkeyPatch, capfd: Any
) -> None:
    monkeypatch.setattr(bounds, "MOST_BYTES", 2 * 2**20)
    if say in (trickling, trickling_its_head, silent):  # the others end sooner than any time
        monkeypatch.setattr(bounds, "REQUEST_SECONDS", 2.0)
        monkeypatch.setattr(server, "TIMEOUT_SECONDS", 1)
    began = time.monotonic()
    with speaking(say) as url, pytest.raises(SubscribeError) as refused:
        Server(checked_address(url), Login("una", SECRET)).collections()
    assert time.monotonic() - began < 20
    told = "".join(traceback.format_exception(refused.value)) + "".join(capfd.readouterr())
    assert SECRET not in told
    assert str(refused.value) == said.format(origin=url[:-1])


MULTISTATUS = """\
<D:multistatus xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav"><D:response>
<D:href>{here}</D:href><D:propstat><D:prop>{props}</D:prop><D:status>HTTP/1.1 200 OK</D:status>
</D:propstat></D:response></D:multistatus>
"""


@pytest.mark.parametrize("named", ["current-user-principal", "calendar-home-set"])
def test_the_password_follows_to_no_other_server(named: str) -> None:
    """Though an answer names an address there (RFC 5397, RFC 4791 §6.2.1)."""
    heard: list[str] = []

    def other(there: socket.socket) -> None:
        heard.append("asked")

    with speaking(other) as elsewhere:
        props = {
            "current-user-principal": "<D:current-user-principal><D:href>{}</D:href>"
            "</D:current-user-principal>",
            "calendar-home-set": "<C:calendar-home-set><D:href>{}</D:href></C:calendar-home-set>",
        }
        both = "".join(
            text.format(f"{elsewhere}una/" if name == named else "/una/")
            for name, text in props.items()
        )
        text = MULTISTATUS.format(here="/una/", props=both).encode()

        def sends(there: socket.socket) -> None:
            there.sendall(HEAD + f"Content-Length: {len(text)}\r\n\r\n".encode() + text)

        with speaking(sends) as url, pytest.raises(SubscribeError) as refused:
            Server(checked_address(url), Login("una", SECRET)).collections()
    assert heard == []
    assert str(refused.value) == NO_SERVER.format(origin=url[:-1])


def test_a_run_has_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    """However many requests there are, each in good time."""
    monkeypatch.setattr(bounds, "RUN_SECONDS", 0.0)
    with speaking(silent) as url, pytest.raises(SubscribeError) as refused:
        Server(checked_address(url), Login("una", SECRET))
    assert str(refused.value) == (
        f"{url[:-1]} has taken 0 minutes so far, so this run ends here; the next goes on from there"
    )
