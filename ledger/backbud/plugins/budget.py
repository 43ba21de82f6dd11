"""Interrupting somebody else's code once it has taken longer than it may.

On the main thread the system's timer does it, which costs nothing while the code runs; elsewhere,
and on Windows, each step of the code is watched, which makes it slower. No thread is made, so none
is left behind. What neither can stop: one long step outside Python (a huge sum, a regular
expression that never ends) and what the code started beside itself; and, where steps are watched,
code that catches everything and goes on. The budget guards against mistakes; against malice there
is only not to trust.
"""

from __future__ import annotations

import signal
import sys
import threading
import time
from collections.abc import Callable
from types import CodeType, FrameType
from typing import Any, TypeVar

T = TypeVar("T")

# So long a rule may take for one tree, and a section for one page.
RULE_SECONDS = 2.0
# So long the code of one file may take; it may have to load a library.
IMPORT_SECONDS = 10.0
# Code that catches the interruption is interrupted again, so often that sooner or later it meets
# a step where nothing is caught.
_AGAIN_SECONDS = 0.0001


class OverTime(BaseException):
    """The time is up. No Exception, so that code that catches all of those does not catch it."""


def within(seconds: float, work: Callable[[], T]) -> T:
    """What the work returns; OverTime is raised in it after so many seconds."""
    is_main = threading.current_thread() is threading.main_thread()
    if is_main and hasattr(signal, "setitimer"):
        return _with_alarm(seconds, work)
    return _with_watch(seconds, work)


def _with_alarm(seconds: float, work: Callable[[], T]) -> T:
    """The system's timer interrupts the main thread, between any two steps of Python."""

    def ring(number: int, frame: FrameType | None) -> None:
        if not _is_within(frame, hush.__code__):
            raise OverTime(_sentence(seconds))

    def hush(unraisable: sys.UnraisableHookArgs) -> None:
        # Python drops what is raised where an object is done away with, and only tells of it: it
        # is raised again at a later step, so there is nothing to tell.
        if not isinstance(unraisable.exc_value, OverTime):
            told(unraisable)

    told = sys.unraisablehook
    before = signal.signal(signal.SIGALRM, ring)
    other = (0.0, 0.0)
    try:
        sys.unraisablehook = hush
        try:
            other = signal.setitimer(signal.ITIMER_REAL, seconds, _AGAIN_SECONDS)
            return work()
        finally:
            # Python looks for signals after a call, so none is taken before the timer is off; and
            # one that rang before it was off is taken here, inside the outer block.
            signal.setitimer(signal.ITIMER_REAL, 0.0)
    finally:
        sys.unraisablehook = told
        signal.signal(signal.SIGALRM, before)
        signal.setitimer(signal.ITIMER_REAL, *other)


_IMPORTS = "<frozen importlib"


def _is_within(frame: FrameType | None, code: CodeType) -> bool:
    while frame is not None and frame.f_code is not code:
        frame = frame.f_back
    return frame is not None


def _with_watch(seconds: float, work: Callable[[], T]) -> T:
    """Every step that this thread takes looks at the clock."""
    end = time.monotonic() + seconds

    def look(frame: FrameType, event: str, argument: Any) -> Any:
        if frame.f_code.co_filename.startswith(_IMPORTS):
            # Interrupted there, the lock of all imports would never be given back.
            return None
        # A loop on one line is no new line to Python.
        frame.f_trace_opcodes = True
        if time.monotonic() > end:
            raise OverTime(_sentence(seconds))
        return look

    before = sys.gettrace()
    sys.settrace(look)
    try:
        return work()
    finally:
        sys.settrace(before)


def _sentence(seconds: float) -> str:
    return f"it took longer than {seconds:g} seconds and was interrupted"
