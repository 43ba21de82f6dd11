"""Says in a sentence that backbud itself failed, and writes the report that helps to mend it.

The report lies beside the journal's memory. It holds what is needed to mend the fault: versions,
the command, the way the error went. Of the journal it holds no more than the line at fault.
"""

from __future__ import annotations

import os
import platform
import sys
import traceback
from collections.abc import Iterator
from contextlib import suppress

from backbud import __version__
from backbud.publish import MEMORY
from backbud.publish.disk import memory_folder, write_whole
from backbud.publish.refused import PublishError
from backbud_grammar.digest import digest
from backbud_grammar.shown import shown

LIBRARIES = ("lark", "msgspec", "jinja2", "icalendar", "pathspec", "watchdog", "starlette")
# The words of these say nothing of what was read, but what was done with it.
TELLING = (ArithmeticError, RecursionError, MemoryError, AttributeError, TypeError, NameError)
DEEPEST = 60


def what_happened(error: BaseException) -> str:
    """The sort of an error and where in the program it came up: `KeyError in plan/run.py:93`."""
    frames = traceback.extract_tb(error.__traceback__)
    if not frames:
        return type(error).__name__
    ours = [frame for frame in frames if _is_ours(frame.filename)]
    last = (ours or frames)[-1]
    return f"{type(error).__name__} in {_short(last.filename)}:{last.lineno}"


UNCHANGED = "Nothing of the journal was changed"


def last_word(folder: str, error: BaseException, did: str = UNCHANGED) -> str:
    """The end of a sentence on a fault that ended a run.

    `folder`: the journal's, or "" where there is none; `did`: what became of it.
    """
    report = write_report(folder, error) if folder else ""
    lies = f" The report is {os.path.join(folder, report)}" if report else ""
    return f"a fault of backbud itself, {what_happened(error)}. {did}.{lies}"


def write_report(folder: str, error: BaseException, line: str = "", where: str = "") -> str:
    """Write the report into the journal's memory; its path in the journal, "" where it cannot be.

    `line`: the line of the journal at fault, `where`: the place of it.
    """
    text = "\n".join(_report(error, line, where))
    # The same fault again is the same report.
    name = f"fault-{digest(text.encode(errors='replace')).hex()[:8]}.txt"
    with suppress(OSError, PublishError):
        write_whole(memory_folder(folder), name, text.encode(errors="replace"))
        return f"{MEMORY}/{name}"
    return ""


def _report(error: BaseException, line: str, where: str) -> Iterator[str]:
    yield "A fault of backbud. What follows says how it came about; send it to whoever mends it."
    yield ""
    yield f"backbud    {__version__}"
    yield f"Python     {platform.python_version()} on {sys.platform}"
    yield f"with       {', '.join(_versions())}"
    yield f"command    {shown(' '.join(sys.argv[1:]))}"
    if line:
        yield f"at         {shown(where)}"
        yield f"line       {shown(line)}"
    yield ""
    seen: set[int] = set()
    cause: BaseException | None = error
    while cause is not None and id(cause) not in seen:
        seen.add(id(cause))
        yield f"{type(cause).__name__}{_words(cause, line)}"
        frames = traceback.extract_tb(cause.__traceback__)
        for frame in frames[-DEEPEST:]:
            yield f"  {_short(frame.filename)}:{frame.lineno} in {frame.name}"
            if frame.line:
                yield f"    {frame.line}"
        cause = cause.__cause__ or cause.__context__
    yield ""


def _words(error: BaseException, line: str) -> str:
    """What the error says, unless it may be a text of the journal."""
    with suppress(Exception):
        words = shown(str(error))[:300]
        if words and (isinstance(error, TELLING) or str(error) in line):
            return f": {words}"
        if isinstance(error, OSError) and error.strerror:
            return f": {error.strerror}"
    return ""


def _versions() -> Iterator[str]:
    from importlib.metadata import PackageNotFoundError, version

    for name in LIBRARIES:
        with suppress(PackageNotFoundError):
            yield f"{name} {version(name)}"


def _is_ours(filename: str) -> bool:
    return any(f"{os.sep}{name}{os.sep}" in filename for name in ("backbud", "backbud_grammar"))


def _short(filename: str) -> str:
    """The path of a file from its package on: what lies above it is nobody's business."""
    parts = filename.replace(os.sep, "/").split("/")
    for name in ("backbud", "backbud_grammar", "backbud_species", "site-packages"):
        if name in parts[:-1]:
            return "/".join(parts[len(parts) - 1 - parts[::-1].index(name) :])
    return "/".join(parts[-2:])
