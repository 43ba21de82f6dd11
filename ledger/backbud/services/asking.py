"""Asks a server for one file over HTTP: bounded in size and time, and from nobody else.

A server may send without end, a byte a minute, or something packed that is a thousand times as
large; it may send to another server, or be one whose certificate is not its own. Each of these ends
in one sentence.
"""

from __future__ import annotations

import http.client
import ssl
import threading
import urllib.error
import urllib.request
import zlib
from collections.abc import Mapping
from typing import Any
from urllib.parse import urljoin, urlsplit

from msgspec import Struct

from backbud.services.errors import ServiceError

# A forecast of ten days is some 40 kB.
MOST_BYTES = 4 * 1024 * 1024
# Between two bytes, and for all of an answer.
WAIT_SECONDS, TOTAL_SECONDS = 15.0, 60.0
MOST_REDIRECTS = 2
_CHUNK_BYTES = 1 << 16
_HERE = ("localhost", "127.0.0.1", "::1", "[::1]")


class Answer(Struct, frozen=True):
    """What a server answered: its status, its headers by small letters, and its body."""

    status: int
    headers: Mapping[str, str]
    body: bytes
    url: str


class _NoRedirects(urllib.request.HTTPRedirectHandler):
    """Where a server sends elsewhere is looked at before it is followed."""

    def redirect_request(self, *_: Any) -> None:
        return None


def get(
    url: str,
    headers: Mapping[str, str],
    *,
    most_bytes: int = MOST_BYTES,
    total_seconds: float = TOTAL_SECONDS,
    wait_seconds: float = WAIT_SECONDS,
) -> Answer:
    """The answer to a request, whole. ServiceError where there is none that can be used.

    A redirect is followed within the same origin alone.
    """
    check_address(url)
    origin = origin_of(url)
    for _ in range(MOST_REDIRECTS + 1):
        answer = _in_time(url, headers, most_bytes, total_seconds, wait_seconds)
        if answer.status not in (301, 302, 303, 307, 308):
            return answer
        url = urljoin(url, answer.headers.get("location", ""))
        if origin_of(url) != origin:
            raise ServiceError(
                f"{origin} sends to another server, {origin_of(url)}, which nobody agreed to"
            )
    raise ServiceError(f"{origin} sends from one address to the next without an end")


def check_address(url: str) -> None:
    """ServiceError unless it is https, or http on this machine."""
    parts = urlsplit(url)
    if parts.scheme == "https" or (parts.scheme == "http" and parts.hostname in _HERE):
        return
    raise ServiceError(f"{origin_of(url)} is not asked: only https tells nobody else where you are")


def origin_of(url: str) -> str:
    """Scheme, host and port, as one is told of a server."""
    parts = urlsplit(url)
    return f"{parts.scheme}://{parts.netloc}"


def _in_time(
    url: str, headers: Mapping[str, str], most: int, total_seconds: float, wait_seconds: float
) -> Answer:
    """Headers, too, may come a byte at a time, and a name may be looked up for ever: only from
    beside can all of it be given up. A thread that is left so ends with the process."""
    answers: list[Answer] = []
    errors: list[BaseException] = []

    def ask() -> None:
        try:
            answers.append(_asked(url, headers, most, wait_seconds))
        except BaseException as error:
            errors.append(error)

    thread = threading.Thread(target=ask, daemon=True)
    thread.start()
    thread.join(total_seconds)
    if answers:
        return answers[0]
    origin = origin_of(url)
    if not errors:
        raise ServiceError(f"{origin} did not end its answer within {total_seconds:g} seconds")
    raise _in_words(errors[0], origin)


def _asked(url: str, headers: Mapping[str, str], most: int, wait_seconds: float) -> Answer:
    opener = urllib.request.build_opener(
        urllib.request.HTTPSHandler(context=ssl.create_default_context()), _NoRedirects()
    )
    request = urllib.request.Request(url, headers={"Accept-Encoding": "gzip", **headers})
    try:
        found = opener.open(request, timeout=wait_seconds)
    except urllib.error.HTTPError as error:
        # A status that is no success is an answer like others.
        found = error
    with found:
        kept = {name.casefold(): value for name, value in found.headers.items()}
        return Answer(found.status, kept, _body(found, kept, most, origin_of(url)), url)


def _body(found: Any, headers: Mapping[str, str], most: int, origin: str) -> bytes:
    coding = headers.get("content-encoding", "").strip().casefold()
    if coding not in ("", "identity", "gzip"):
        raise ServiceError(f"{origin} packs its answer in a way nobody asked for ({coding})")
    unpack = zlib.decompressobj(16 + zlib.MAX_WBITS) if coding == "gzip" else None
    body, read = bytearray(), 0
    while len(body) <= most and read <= most:
        chunk = found.read(_CHUNK_BYTES)
        if not chunk:
            _check_whole(headers.get("content-length", ""), read, origin)
            return bytes(body)
        read += len(chunk)
        body += chunk if unpack is None else unpack.decompress(chunk, most + 1 - len(body))
    raise ServiceError(f"{origin} sends more than {most // 2**20} MB, and it was broken off")


def _check_whole(said: str, read: int, origin: str) -> None:
    if said.isdecimal() and read < int(said):
        raise ServiceError(f"{origin} broke off its answer")


def _in_words(error: BaseException, origin: str) -> ServiceError:
    if isinstance(error, ServiceError):
        return error
    reason = error.reason if isinstance(error, urllib.error.URLError) else error
    if isinstance(reason, ssl.SSLCertVerificationError):
        return ServiceError(f"the certificate of {origin} does not fit: {reason.verify_message}")
    if isinstance(reason, ssl.SSLError):
        return ServiceError(f"no safe connection to {origin}: {reason.reason or reason}")
    if isinstance(reason, TimeoutError):
        return ServiceError(f"{origin} does not answer in time")
    if isinstance(error, (http.client.IncompleteRead, ConnectionError, zlib.error)):
        return ServiceError(f"{origin} broke off its answer")
    if isinstance(error, http.client.HTTPException):
        return ServiceError(f"{origin} does not speak HTTP as it should")
    if isinstance(reason, OSError):
        return ServiceError(f"{origin} cannot be reached: {reason.strerror or reason}")
    return ServiceError(f"{origin} cannot be asked: {error}")
