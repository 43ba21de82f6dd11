"""One thread that reads and reckons, what is most urgent first; who asks waits for a future.

A job may be put off until nothing more is typed, and one that was not begun is replaced by the next
of its name.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from concurrent.futures import Future
from typing import Any, TypeVar

from msgspec import Struct

T = TypeVar("T")


class _Job(Struct):
    """`due`: not before this moment (monotonic seconds). `rank`: the lowest is done first."""

    rank: int
    due: float
    order: int
    work: Callable[[], Any]
    promise: Future[Any]


class Worker:
    """Does jobs one after another in a thread of its own."""

    def __init__(self, name: str) -> None:
        self._jobs: dict[str, _Job] = {}
        self._wake = threading.Condition()
        self._stopped = False
        self._order = 0
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """Do nothing more; what is under way is left to itself."""
        with self._wake:
            self._stopped = True
            for job in self._jobs.values():
                job.promise.cancel()
            self._jobs.clear()
            self._wake.notify()

    def ask(
        self,
        name: str,
        work: Callable[[], T],
        rank: int,
        wait_s: float = 0.0,
        *,
        join: bool = False,
    ) -> Future[T]:
        """Have it done. One of this name that was not begun is never done then; or it is this very
        one, if they may `join`."""
        promise: Future[T] = Future()
        with self._wake:
            waiting = self._jobs.get(name)
            if waiting is not None and join and not waiting.promise.cancelled():
                waiting.rank = min(waiting.rank, rank)
                self._wake.notify()
                return waiting.promise
            if waiting is not None:
                waiting.promise.cancel()
            self._order += 1
            due = time.monotonic() + wait_s
            self._jobs[name] = _Job(rank, due, self._order, work, promise)
            self._wake.notify()
        return promise

    def waits(self, rank: int) -> bool:
        """Whether a job of this rank was not begun yet."""
        with self._wake:
            return any(job.rank == rank for job in self._jobs.values())

    def is_wanted(self, rank: int) -> bool:
        """Whether something more urgent waits and is due."""
        now = time.monotonic()
        with self._wake:
            return self._stopped or any(
                job.rank < rank and job.due <= now for job in self._jobs.values()
            )

    def _run(self) -> None:
        while (job := self._next()) is not None:
            if not job.promise.set_running_or_notify_cancel():
                continue
            try:
                job.promise.set_result(job.work())
            except BaseException as error:
                job.promise.set_exception(error)

    def _next(self) -> _Job | None:
        with self._wake:
            while not self._stopped:
                now = time.monotonic()
                due = [(job.rank, job.order, name) for name, job in self._jobs.items()
                       if job.due <= now]  # fmt: skip
                if due:
                    return self._jobs.pop(min(due)[2])
                first = min((job.due for job in self._jobs.values()), default=now + 60.0)
                self._wake.wait(max(first - now, 0.0))
            return None
