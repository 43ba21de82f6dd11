"""How much a server may send and how long it may take, so that none can hold a run up.

A server may send without end, or a byte a minute, or something packed that is a thousand times as
large: each of these ends in a sentence. The time between two bytes is bounded by the session's own
timeout; here it is the whole of an answer, and of a run.
"""

from __future__ import annotations

import io
import threading
import time
from typing import Any

from backbud.subscribe.address import checked_address
from backbud.subscribe.errors import SubscribeError, Unreachable

# Some thirty thousand entries.
MOST_BYTES = 64 * 1024 * 1024
REQUEST_SECONDS = 120.0
RUN_SECONDS = 1800.0
_CHUNK_BYTES = 1 << 16


class Bounded:
    """Speaks through a session of niquests or requests, for one server and one run."""

    def __init__(self, session: Any, origin: str) -> None:
        self._session, self._origin = session, origin
        self._ends = time.monotonic() + RUN_SECONDS
        self._given_up = threading.Event()
        # What is asked not to be packed and is cannot be a bomb, for it is not unpacked.
        session.headers["Accept-Encoding"] = "identity"
        for scheme in ("http://", "https://"):
            adapter = session.get_adapter(scheme)
            session.mount(scheme, _whole(type(adapter), self._read)())

    def request(self, method: str, url: str, **more: Any) -> Any:
        """The answer, whole. Unreachable where it takes too long; what the session raises.

        SubscribeError where the address is of another server: whatever an answer names, the
        password does not follow it there.
        """
        stay_at(self._origin, url)
        answers: list[Any] = []
        errors: list[BaseException] = []

        def ask() -> None:
            try:
                answers.append(self._session.request(method, url, **more))
            except BaseException as error:
                errors.append(error)

        # Headers, too, may come a byte at a time, and a name may be looked up for ever: only from
        # beside can all of it be given up. A thread that is left so ends with the process.
        thread = threading.Thread(target=ask, daemon=True)
        left = self._ends - time.monotonic()
        if left > 0:
            thread.start()
            thread.join(min(left, REQUEST_SECONDS))
        if not answers and not errors:
            self._given_up.set()
            raise Unreachable(self._late(left))
        if errors:
            raise errors[0]
        return answers[0]

    def close(self) -> None:
        """Close the session, unless an answer is still coming in that was given up."""
        if not self._given_up.is_set():
            self._session.close()

    def _late(self, left: float) -> str:
        if left <= REQUEST_SECONDS:
            return (
                f"{self._origin} has taken {RUN_SECONDS / 60:.0f} minutes so far, so this run ends "
                "here; the next goes on from there"
            )
        return f"{self._origin} did not end its answer within {REQUEST_SECONDS:.0f} seconds"

    def _read(self, answer: Any) -> None:
        """Read an answer's body into memory, so that nobody after this reads more."""
        coding = str(answer.headers.get("Content-Encoding", "")).strip().lower()
        if coding not in ("", "identity"):
            answer.close()
            raise SubscribeError(f"{self._origin} sends packed what was asked for unpacked")
        body = io.BytesIO()
        try:
            for chunk in answer.raw.stream(_CHUNK_BYTES, decode_content=False):
                body.write(chunk)
                if body.tell() > MOST_BYTES or self._given_up.is_set():
                    break
        except Exception as error:
            # urllib3 has errors of its own for each way to break off.
            raise Unreachable(self._broken_off(error)) from None
        finally:
            answer.raw.close()
        if body.tell() > MOST_BYTES:
            raise SubscribeError(f"{self._origin} sends more than {MOST_BYTES // 2**20} MB at once")
        body.seek(0)
        answer.raw = body

    def _broken_off(self, error: Exception) -> str:
        if "Timeout" in type(error).__name__:
            return f"{self._origin} stopped in the midst of an answer"
        return f"{self._origin} broke off its answer"


def stay_at(origin: str, url: str) -> None:
    """Raise SubscribeError where a URL is not of this origin."""
    there = checked_address(url).origin
    if there != origin:
        raise SubscribeError(
            f"{origin} sends to another server, {there}. If that is right, name that one"
        )


def _whole(adapter: type[Any], read: Any) -> type[Any]:
    """An adapter that reads each answer with `read` before it gives it on."""

    class Whole(adapter):  # type: ignore[misc]
        def send(self, request: Any, **more: Any) -> Any:
            answer = super().send(request, **{**more, "stream": True})
            read(answer)
            return answer

    return Whole
