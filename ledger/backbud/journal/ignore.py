"""Tells which names a `.gitignore` leaves out, in time that no line of it can stretch.

`pathspec` tells what a line means. What it makes of one with many stars would try each star at each
letter of a name, and that for each star before it: hours, for a line of fifty letters. A star that
another star follows in the same part of a path need not be tried twice, since what it could take
more of, the later one takes as well; nor need a `**` that another follows. So each is made to
stand by its first fit, and the time grows with the product of the two lengths and no more.
"""

from __future__ import annotations

import re
from contextlib import suppress
from typing import TYPE_CHECKING

from msgspec import Struct

from backbud_grammar.problems import Flaw

if TYPE_CHECKING:
    from pathspec import GitIgnoreSpec

Ignores = tuple[tuple[str, "GitIgnoreSpec"], ...]

# More than any hand writes; every name of the journal is held against every line.
MOST_LINES = 1000
LONGEST_LINE = 500
LARGEST_FILE = MOST_LINES * LONGEST_LINE

# A star, and one letter, of the expressions that pathspec makes.
_STAR = r"\[\^/\]\*"
_CLASS = r"\[\^?\]?(?:\\.|[^\]\\])*\]"
_LETTER = rf"(?:\\.|(?:\(\?!/\))?{_CLASS}(?!\*)|[^\\\[(/*+?)|^$])"
_ANY_CLASS = re.compile(rf"\\.|{_CLASS}")
_STAR_BEFORE_STAR = re.compile(rf"{_STAR}({_LETTER}*)(?={_STAR})")
# The same of a `**` at the beginning, and of one between two others.
_FOLDERS_FIRST = "^(?:.+/)?"
_FOLDERS = "(?:/.+)?"


class Ignore(Struct, frozen=True):
    """What a .gitignore leaves out, and what of it was not read."""

    spec: GitIgnoreSpec
    flaw: Flaw | None = None


def read_ignore(path: str) -> Ignore:
    """Read a .gitignore; a pattern that git could not read either names nothing."""
    from pathspec import GitIgnoreSpec

    try:
        with open(path, "rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except OSError:
        data = b""
    lines = data[:LARGEST_FILE].decode(errors="replace").splitlines()
    flaw = None
    if len(data) > LARGEST_FILE or len(lines) > MOST_LINES:
        del lines[MOST_LINES:]
        flaw = Flaw(
            "large-file", MOST_LINES, 1, 1,
            f"only the first {MOST_LINES} lines of this file were read",
            "What the others name may be read as if it were part of the journal.",
        )  # fmt: skip
    patterns = []
    for number, line in enumerate(lines):
        if len(line) > LONGEST_LINE:
            flaw = flaw or Flaw(
                "long-line", number, 1, 1,
                f"a pattern of {len(line)} characters",
                f"None is longer than {LONGEST_LINE}; this line was left out.",
            )  # fmt: skip
            continue
        with suppress(ValueError):
            for one in GitIgnoreSpec.from_lines([line], backend="simple").patterns:
                if one.include is not None and one.regex is not None:
                    regex = re.compile(without_second_tries(one.regex.pattern))
                    patterns.append(type(one)(regex, one.include))
    return Ignore(GitIgnoreSpec(patterns, backend="simple"), flaw)


def without_second_tries(regex: str) -> str:
    """An expression of pathspec's, which takes the same names, each star by its first fit.

    Where a star stands between two others is of no matter, so no other fit need be tried.
    """
    regex = _ANY_CLASS.sub(_inside_a_name, regex)
    first, *more = _STAR_BEFORE_STAR.sub(r"(?>[^/]*?\1)", regex).split(_FOLDERS)
    if not more:
        return first
    if first.startswith(_FOLDERS_FIRST):
        first = f"^(?>(?:.+?/)??{first.removeprefix(_FOLDERS_FIRST)}(?=/))"
    between = "".join(f"(?>(?:/.+?)??{one}(?=/))" for one in more[:-1])
    return f"{first}{between}{_FOLDERS}{more[-1]}"


def _inside_a_name(found: re.Match[str]) -> str:
    """`[!a]` takes no `/`, as for git; pathspec's would."""
    one = found[0]
    return one if one.startswith("\\") or one == "[^/]" else f"(?!/){one}"


def ignored(name: str, ignores: Ignores) -> bool:
    """Whether the deepest .gitignore that speaks of the name leaves it out."""
    for below, spec in reversed(ignores):
        inside = name[len(below) + 1 :] if below else name
        verdict = spec.check_file(inside).include
        if verdict is not None:
            return verdict
    return False
