"""Finds what own words would change: past lines that wait for a yes; and unread words that return.

Own words are read from a day on. What was written before it stays as it was read then, until the
card says `past yes`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from msgspec import Struct

from backbud.journal.outlined import Outlined
from backbud.journal.own_words import NO_OWN_WORDS, OwnWords
from backbud.journal.page_text import PageText
from backbud.journal.things import Things
from backbud_grammar.dates import read_date
from backbud_grammar.forms import ActForm
from backbud_grammar.outline import Known
from backbud_grammar.own_words import OwnTable, expanded, language_words
from backbud_grammar.problems import Misread, Problem, nearest

# A word that was not understood so often is hardly a slip.
RETURNS = 3
# So alike in letters a word is to an act that it is written with one wrong, of five or more.
A_SLIP = 0.8
# Problems whose mark stands under words that nobody understood.
# Lines, and words beside an act, that were kept as words.
UNREAD_LINE, WORDS_KEPT = "unread-line", "words-kept"
UNREAD_CODES = frozenset(("unknown-act", "unknown-detail", "unknown-word"))


class PastLine(Struct, frozen=True):
    """A line from before the day of an own word in it: as written, and as it would be read."""

    at: str
    written: str
    as_read: str


def past_lines(
    files: Mapping[str, Outlined], own: OwnWords, acts: Mapping[str, ActForm], southern: bool
) -> tuple[PastLine, ...]:
    """The lines that own words would read otherwise, of which the card says neither yes nor no."""
    open_words = [word for word in own.words if not word.past]
    if not open_words:
        return ()
    known = Known.of(acts)
    out: list[PastLine] = []
    for file, outlined in files.items():
        for start, kept in outlined.pages:
            day = _day(kept.section.date, southern)
            later = {word.run: word.meaning for word in open_words if day and day < word.since}
            if later:
                out += _lines(file, start, kept.section, OwnTable.of(later), known)
    return tuple(out)


def _day(written: str, southern: bool) -> date | None:
    try:
        return read_date(written, southern).first
    except Misread:
        return None


def _lines(
    file: str, start: int, page: PageText, table: OwnTable, known: Known
) -> Iterator[PastLine]:
    for block in page.read(known).blocks:
        for act in block.acts:
            found = expanded(act, table, known)
            if found is not None:
                yield PastLine(
                    f"{file}:{start + act.line + 1}",
                    f"{act.word} {act.text}".rstrip(),
                    f"{found.act.word} {found.act.text}".rstrip(),
                )


# ------------------------------------------------------------------ words that return


class Unread(NamedTuple):
    """Words of a line that nobody understood, and where the line stands."""

    words: str
    at: str


class Returning(Struct, frozen=True):
    """A word that was not understood on several lines, and the first and last of them."""

    word: str
    times: int
    first: str
    last: str


def marked_unread(problems: Iterable[Problem]) -> Iterator[Unread]:
    """What the problems of a journal mark as not understood, and words that were kept.

    Of a line that was kept whole it is the first word, which stands where an act does; of words
    beside an act those that anybody writes are none.
    """
    for one in problems:
        at, place = one.column - 1, f"{one.file}:{one.line}"
        if one.code == UNREAD_LINE:
            yield from (Unread(word, place) for word in one.source.split()[:1])
        elif one.code == WORDS_KEPT:
            # Many patterns, which most journals need for none of their lines.
            from backbud_grammar.scribbles.plain import is_harmless

            kept = one.message.partition("“")[2].partition("”")[0].split()
            yield from (Unread(word, place) for word in kept if not is_harmless(word))
        elif one.code in UNREAD_CODES:
            yield Unread(one.source[at : at + one.length], place)


def returning(
    unread: Iterable[Unread],
    acts: Mapping[str, ActForm],
    things: Things,
    own: OwnWords = NO_OWN_WORDS,
) -> tuple[Returning, ...]:
    """The words that were not understood on three lines and more, the most frequent first.

    No word that the language, a handle or the keeper's own cards have, nor one that is hardly more
    than a slip of such.
    """
    lines: dict[str, list[str]] = {}
    shown: dict[str, str] = {}
    for one in unread:
        for written in one.words.split():
            word = written.strip(",.;:!?()\"'")
            at = lines.setdefault(word.casefold(), [])
            shown.setdefault(word.casefold(), word)
            if one.at not in at:
                at.append(one.at)
    often = [folded for folded, at in lines.items() if len(at) >= RETURNS and folded.isalpha()]
    if not often:
        return ()
    taken = {*language_words(acts), *(word for one in own.words for word in one.run)}
    found = [
        Returning(shown[word], len(lines[word]), lines[word][0], lines[word][-1])
        for word in often
        if word not in taken and things.find(word) is None and not nearest(word, acts, A_SLIP)
    ]
    return tuple(sorted(found, key=lambda one: (-one.times, one.word)))
