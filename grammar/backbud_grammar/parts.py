"""The part of the tree that a detail is about: what stands after `on`."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from backbud_grammar.elsewhen import short_day
from backbud_grammar.lexicon import Lexicon
from backbud_grammar.measures import BY_WRITING
from backbud_grammar.problems import Misread


class DetailWithPart(Struct, frozen=True, gc=False):
    """A detail with a part of the tree: what stands before `on`, the part, what follows it.

    `at`, `tail_at`: where `on` and what follows the part begin.
    """

    head: str
    part: str
    tail: str
    at: int
    tail_at: int


def without_part(text: str, lexicon: Lexicon) -> DetailWithPart | None:
    """Take the part of the tree off a detail; None where there is no `on`.

    The part ends where a label of this act opens another detail.

    >>> without_part("3 mm Al on left 2", Lexicon(()))
    DetailWithPart(head='3 mm Al', part='left 2', tail='', at=8, tail_at=17)
    """
    at = 0 if text.startswith("on ") else text.find(" on ") + 1
    if '"' in text or (at == 0 and not text.startswith("on ")):
        at = _outside_quotes(f" {text} ", " on ")
        if at < 0:
            return None
    words = text[at + 2 :].split()
    end = len(words)
    if end > 1:
        folded = [word.casefold() for word in words]
        if not lexicon.label_heads.isdisjoint(folded):
            end = next(
                (i for i in range(1, end) if label_at(folded, i, lexicon)),
                end,
            )
    if end == len(words):
        return DetailWithPart(text[:at].strip(), " ".join(words), "", at, len(text))
    tail_at = [found.start() for found in _WORD.finditer(text, at + 2)][end]
    return DetailWithPart(text[:at].strip(), " ".join(words[:end]), text[tail_at:], at, tail_at)


def label_at(words: list[str], i: int, lexicon: Lexicon) -> bool:
    """Whether a label of an act, in small letters, stands at a place among words."""
    return words[i] in lexicon.label_heads and any(
        tuple(words[i : i + size]) in lexicon.label_words
        for size in range(1, lexicon.longest_label + 1)
    )


_WORD = re.compile(r"\S+")
_SIDE = re.compile(r"(?:(l)|r)[ -]?(\d{1,2})", re.IGNORECASE)
# They say how often, and of no part which it is: `on left 2 again` is `left 2`.
_IDLE = frozenset(["again", "too", "also", "today", "now"])


def spelled_out(part: str) -> str:
    """The part of a tree in full: `L1` is `left 1`, on whatever line it stands.

    >>> spelled_out("R2 again")
    'right 2'
    """
    head, _, last = part.rpartition(" ")
    if head and last.casefold() in _IDLE:
        return spelled_out(head)
    side = _SIDE.fullmatch(part)
    return f"{'left' if side[1] else 'right'} {side[2]}" if side is not None else part


def _outside_quotes(text: str, wanted: str) -> int:
    """Where `wanted` first stands outside double quotes, or -1."""
    at = text.find(wanted)
    while at >= 0 and text.count('"', 0, at) % 2:
        at = text.find(wanted, at + 1)
    return at


_MEASURE_IN_PART = re.compile(
    rf"\d[ \t]*(?:{'|'.join(sorted(map(re.escape, BY_WRITING), key=len, reverse=True))})(?![\w/])"
)


# Words for a day that is not the page's.
_OTHER_DAY = re.compile(
    r"\b(?:tomorrow|yesterday|(?:next|last) (?:week|month|year|spring|summer|autumn|winter))\b",
    re.IGNORECASE,
)


@cache
def flaw_of_part(part: str) -> Misread | None:
    """What is wrong with a part of a tree: a measure in it, or two parts in one."""
    found = _MEASURE_IN_PART.search(part)
    if found is not None:
        return Misread(
            "measure-in-part",
            "a measure stands after the part",
            "Write it first: 3 mm Al on left 2.",
            found.start(),
            len(found[0]),
        )
    day = short_day(part)
    if day is not None and day[1]:
        return Misread(
            "date-in-part",
            "a day stands after the part",
            "What was done on another day stands below that day's own heading.",
            day[1],
            len(day[0]),
        )
    word = _OTHER_DAY.search(part)
    if word is not None:
        return Misread(
            "date-in-part",
            "a day stands after the part",
            "What is to be done is planned: planned wire, to 2028-03.",
            word.start(),
            len(word[0]),
        )
    if " on " in part:
        return Misread(
            "two-parts",
            "two parts stand in one detail",
            "Part them with a comma, each with its measure: 2 mm Al on left 1, 2 mm Al on left 2.",
            part.index(" on ") + 1,
            2,
        )
    return None
