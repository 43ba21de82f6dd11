"""Prints lines for a person and JSON for a program, on whatever terminal there is.

Nothing else in backbud prints. What a terminal would obey is written out (`shown`), and what its
letters do not have is said in those that it has, so that printing never fails for what is printed.
"""

from __future__ import annotations

import os
import sys

from backbud_grammar.shown import json_shown, shown

# A run with nothing to do prints too, and `typing` takes longer than all else it does.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import TextIO

    from backbud_grammar.problems import Problem

_CLEAR_LINE = "\r\033[K"


class Heading(str):
    """A line that stands bold on a terminal, unless NO_COLOR is set."""

    __slots__ = ()


class CannotSay(Exception):
    """What was to be said has no place to go: the disk is full; the sentence says why."""


def say(*lines: str) -> None:
    """Print lines. A line end within one is written out: a name could else forge a line."""
    _print(sys.stdout, lines)


def warn(*lines: str) -> None:
    """Print lines for the person and not for whoever reads the output.

    Where that cannot be done there is no place left to say so.
    """
    _print(sys.stderr, lines)


def say_json(text: str) -> None:
    """Print the text of JSON, which stays the same JSON."""
    _write(sys.stdout, f"{json_shown(text, _encoding(sys.stdout))}\n")


def say_problem(problem: Problem) -> None:
    """Print a problem, its mark under the right place in the letters of this terminal."""
    _print_problem(sys.stdout, problem)


def warn_problem(problem: Problem) -> None:
    """The same, for the person and not for whoever reads the output."""
    _print_problem(sys.stderr, problem)


def ask(question: str) -> str:
    """What the person answers, in small letters; "" where nobody answers."""
    return ask_line(question).casefold()


def ask_line(question: str) -> str:
    """What the person answers, as it was typed; "" where nobody answers."""
    try:
        return input(shown(question, _encoding(sys.stdout))).strip()
    except (EOFError, UnicodeDecodeError):
        say("")
        return ""


def can_ask() -> bool:
    """Whether there is a person at a terminal."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def tell_progress(step: str) -> bool:
    """Show a person at a terminal what is going on, in place of what went on before; "" when it is
    over. Whether there is one."""
    if sys.stderr is None or not sys.stderr.isatty():
        return False
    _write(sys.stderr, f"{_CLEAR_LINE}{shown(step, _encoding(sys.stderr))}")
    return True


def _print(stream: TextIO | None, lines: tuple[str, ...]) -> None:
    encoding = _encoding(stream)
    _write(stream, "".join(f"{_styled(line, stream, encoding)}\n" for line in lines))


def _print_problem(stream: TextIO | None, problem: Problem) -> None:
    from backbud_grammar.problems import show

    _print(stream, tuple(show(problem, _encoding(stream)).split("\n")))


def _styled(line: str, stream: TextIO | None, encoding: str) -> str:
    text = shown(line, encoding)
    if isinstance(line, Heading) and stream is not None and stream.isatty():
        return text if os.environ.get("NO_COLOR") else f"\033[1m{text}\033[0m"
    return text


def _encoding(stream: TextIO | None) -> str:
    return getattr(stream, "encoding", None) or "utf-8"


def _write(stream: TextIO | None, text: str) -> None:
    """Write it at once. BrokenPipeError where whoever reads along has gone."""
    if stream is None:  # closed by whoever started this
        return
    try:
        stream.write(text)
        stream.flush()
    except (OSError, ValueError) as error:
        if stream is sys.stderr:
            return
        if isinstance(error, BrokenPipeError):
            raise
        why = getattr(error, "strerror", None) or str(error)
        raise CannotSay(f"what there is to say cannot be written: {why}") from error
