"""What a problem is, how it is shown to a person, and which word may have been meant.

A problem never stops the reading: every other line still compiles.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache

from msgspec import Struct

from backbud_grammar.shown import cells, shown

# The severity of what is no problem: words that were kept and not used.
KEPT = "kept"


class Flaw(Struct, frozen=True, array_like=True, gc=False):
    """A problem before it knows its file: the line counts from the section's first line (0).

    `column` counts characters from 1, `length` how many of them are meant. `lines`: how many lines,
    from its own on, were left out because of it; 1 where it is at most its own.
    """

    code: str
    line: int
    column: int
    length: int
    message: str
    hint: str = ""
    severity: str = "error"
    lines: int = 1


class Problem(Struct, frozen=True, gc=False):
    """A problem in its place: line and column count from 1, `source` is the line itself.

    `lines`: as a `Flaw` has it.
    """

    code: str
    severity: str
    file: str
    line: int
    column: int
    length: int
    message: str
    hint: str
    source: str
    lines: int = 1


class Misread(Exception):
    """Raised inside the reading of one detail; its caller turns it into a `Flaw`.

    `offset` and `length` are within the text that was being read. A hint that takes time to find
    may be given as a function: many readings are tried, and few are told to anybody.
    """

    def __init__(
        self,
        code: str,
        message: str,
        hint: str | Callable[[], str] = "",
        offset: int = 0,
        length: int = 0,
    ) -> None:
        super().__init__(message)
        self.code, self.message = code, message
        self.offset, self.length = offset, length
        self._hint = hint

    @property
    def hint(self) -> str:
        """What to do about it: the nearest known word, or what was expected."""
        return self._hint if isinstance(self._hint, str) else self._hint()


# A screen line of a bench laptop; a longer source line is cut around the mark.
SHOWN_WIDTH = 100


def show(problem: Problem, encoding: str = "utf-8") -> str:
    """Return the problem as a person reads it: place, message, the line, a mark, a hint.

    Each stands in one line, in signs that show as themselves and that the encoding has.
    """
    head = f"{problem.file}:{problem.line}:{problem.column}: {problem.message} [{problem.code}]"
    out = [shown(head, encoding)]
    if problem.source.strip():
        line, column, length = _cut(problem.source, problem.column, max(problem.length, 1))
        margin = "    "
        at, end = column - 1, column - 1 + length
        before, marked, after = (
            shown(piece, encoding) for piece in (line[:at], line[at:end], line[end:])
        )
        # Tabs stay tabs under tabs, and wide letters take two cells, so that the mark lines up.
        lead = "".join(sign if sign == "\t" else " " * cells(sign) for sign in before)
        out.append(f"{margin}{before}{marked}{after}")
        out.append(f"{margin}{lead}{'^' * max(sum(map(cells, marked)), 1)}")
    if problem.hint:
        out.append(f"    {shown(problem.hint, encoding)}")
    return "\n".join(out)


def _cut(line: str, column: int, length: int) -> tuple[str, int, int]:
    """The line, the mark's column and length in it, cut around the mark where it is long."""
    start, end, lead, tail = 0, len(line), "", ""
    if len(line) > SHOWN_WIDTH:
        start = max(0, min(column - 1 - SHOWN_WIDTH // 2, len(line) - SHOWN_WIDTH))
        end = start + SHOWN_WIDTH
        lead, tail = "…" if start else "", "…" if end < len(line) else ""
    length = min(length, max(end - column + 1, 1))
    return lead + line[start:end] + tail, column - start + len(lead), length


# The longest word that is compared: to compare two takes as long as the product of their lengths.
LONGEST_COMPARED = 60


def nearest(word: str, known: Iterable[str], cutoff: float = 0.6) -> str:
    """Return the known word most like `word`, or "" when none is near."""
    if len(word) > LONGEST_COMPARED:
        return ""
    known = tuple(known)
    return (_nearest if len(known) <= _FEW_KNOWN else _nearest.__wrapped__)(word, known, cutoff)


# Free words come again and again; what is held of each answer is bounded.
_FEW_KNOWN = 300


@lru_cache(maxsize=1024)
def _nearest(word: str, known: tuple[str, ...], cutoff: float) -> str:
    written = word.casefold()
    folded = {
        name.casefold(): name
        for name in known
        if len(name) <= LONGEST_COMPARED and may_be_near(written, name.casefold(), cutoff)
    }
    if not folded:
        return ""
    # difflib is needed only where something is wrong.
    from difflib import get_close_matches

    found = get_close_matches(written, folded, n=1, cutoff=cutoff)
    return folded[found[0]] if found else ""


def may_be_near(text: str, other: str, cutoff: float) -> bool:
    """Whether two texts have as many letters in common as near ones have, in whatever order.

    It is quick to tell, and false of most; difflib compares letter by letter.
    """
    least = cutoff * (len(text) + len(other)) / 2
    common = len(other)
    if common < least or len(text) < least:
        return False
    for letter in set(other):
        less = other.count(letter) - text.count(letter)
        if less > 0:
            common -= less
            if common < least:
                return False
    return True


# In a detail stand many words that are no slip of anything, so that a near one must be very near.
NEAR_IN_DETAIL = 0.78


# Where free words stand, of so few letters too many are alike: `away` is no slip of `Al`.
_TOO_SHORT = 3


def did_you_mean(
    word: str,
    known: Iterable[str],
    otherwise: str = "",
    cutoff: float = 0.6,
    *,
    among_free_words: bool = False,
) -> str:
    """Return a hint that names the nearest known word, or `otherwise`; among free words none that
    is so short that many a word is like it."""
    near = nearest(word, known, cutoff)
    is_short = among_free_words and min(len(near), len(word)) <= _TOO_SHORT
    if is_short or near.casefold() == word.casefold():
        # Or it is written as it should be, and something else is wrong there.
        near = ""
    return f"Did you mean “{near}”?" if near else otherwise


def meant_in(hint: str) -> str:
    """The word that a hint of `did_you_mean` names, or ""."""
    lead, _, rest = hint.partition("Did you mean “")
    return rest.partition("”?")[0] if rest and not lead else ""
