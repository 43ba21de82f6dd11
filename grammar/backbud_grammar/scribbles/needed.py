"""Tells by the words of a text which patterns of a table could fit it at all: most need never be
tried.

Of each pattern it is worked out which letters no text that it fits can be without.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache, lru_cache
from re import _parser
from typing import Any

from backbud_grammar.scribbles.kept_needs import KeptNeeds, Needs
from backbud_grammar.scribbles.plain import plain_words

# So many ways to write one stretch of a pattern are told apart; of more, only parts.
_MOST_WAYS = 24
# These stand in any text, so a pattern is better told by another of its words.
_COMMON = plain_words("a an the in on of to at it is was and all some i 0")
_RUN = re.compile(r"[a-z0]+")
_FIGURES = str.maketrans("123456789", "0" * 9)
_ZERO_WIDTH = (_parser.AT, _parser.ASSERT_NOT)
# Each sign of ASCII as a folded text has it; one that is no letter and no figure ends a word.
_LETTERS = [
    sign if _RUN.fullmatch(sign := chr(n).lower().translate(_FIGURES)) else " " for n in range(128)
]
# Letters that are rare enough to tell a pattern by.
_TELLING = 4
# So many sets of them are kept of each pattern.
_MOST_SETS = 3
# No diary has so many words; what has is no diary.
_MOST_WORDS = 50_000
# Runs of letters, one of which must stand in a text; a blank beside one is the end of a word.
_Stretches = frozenset[str]
# What a word has of what patterns need: of their first set, the second and the third.
_OfWord = tuple[int, int, int]


class NeededWords:
    """Of many patterns those that could fit a text, by its words; each word is looked at once."""

    def __init__(self, patterns: Sequence[str], needs: Iterable[Needs] | None = None) -> None:
        """`patterns`: held against the beginning of a text, in any case of its letters. `needs`: of
        each what it needs, where that is known."""
        # For each bit the place of the pattern that it is a way to begin of.
        self.of: list[int] = []
        # By a stretch the ways (a bit each) that it is first of all needed by, and besides.
        self._needed = tuple(_Stretched() for _ in range(_MOST_SETS))
        # The ways that need no more.
        whatever = [0] * _MOST_SETS
        for at, ways in enumerate(map(_needs, patterns) if needs is None else needs):
            for sets in ways:
                bit = 1 << len(self.of)
                self.of.append(at)
                for n, by in enumerate(self._needed):
                    for stretch in sets[n] if n < len(sets) else ():
                        by.add(stretch, bit)
                    whatever[n] |= 0 if n < len(sets) else bit
        self.whatever = whatever[0], whatever[1], whatever[2]
        self._words: dict[str, _OfWord] = {}

    def of_word(self, word: str) -> _OfWord:
        """The ways (a bit each) of which a word has what they need, first of all and besides.

        `word`: a run of letters or of figures, folded, each figure as 0.
        """
        known = self._words.get(word)
        if known is None:
            if len(self._words) > _MOST_WORDS:
                self._words.clear()
            first, second, third = (by.of(word) for by in self._needed)
            known = self._words[word] = first, second, third
        return known

    def may_fit(self, text: str) -> Iterable[int]:
        """The places of the patterns that could fit a text, in order."""
        if not text.isascii():
            return dict.fromkeys(self.of)
        first, second, third = self.of_words(text)
        return dict.fromkeys([self.of[bit] for bit in _bits(first & second & third)])

    def of_words(self, text: str) -> _OfWord:
        """The ways of which a text of ASCII has what they need, first of all and besides."""
        first, second, third = self.whatever
        words = self._words
        for word in _RUN.findall(text.lower().translate(_FIGURES)):
            of_word = words.get(word) or self.of_word(word)
            first |= of_word[0]
            second |= of_word[1]
            third |= of_word[2]
        return first, second, third


@lru_cache(64)
def needed_words(patterns: tuple[str, ...], own: frozenset[str] = frozenset()) -> NeededWords:
    """The same for the same patterns: those of the tables are of every journal, but for `own`."""
    return NeededWords(patterns, _KEPT.of(patterns, own))


class _Stretched:
    """The ways that stretches of letters are needed by, found by the words that hold them."""

    def __init__(self) -> None:
        # A whole word, or how one begins or ends, with the blank that says so.
        self._bounded: dict[str, int] = {}
        # What may stand in the midst of one.
        self._within: dict[str, int] = {}

    def add(self, stretch: str, way: int) -> None:
        by = self._bounded if " " in stretch else self._within
        by[stretch] = by.get(stretch, 0) | way

    def of(self, word: str) -> int:
        """All ways of the stretches that stand in a word."""
        found, bounded = 0, self._bounded
        for at in range(1, len(word) + 1):
            found |= bounded.get(f" {word[:at]}", 0) | bounded.get(f"{word[-at:]} ", 0)
        for stretch, ways in self._within.items():
            if stretch in word:
                found |= ways
        return found | bounded.get(f" {word} ", 0)


def _bits(ways: int) -> Iterator[int]:
    """The number of each bit that is set, the first first."""
    while ways:
        lowest = ways & -ways
        yield lowest.bit_length() - 1
        ways ^= lowest


def _worth(wanted: _Stretches) -> tuple[int, int]:
    """How well stretches tell a pattern: the more the rarer they are in any text."""
    lengths = [_value(one) for one in wanted]
    # What nothing has tells best of all.
    return min(lengths, default=_TELLING), -len(lengths)


@cache
def _needs(pattern: str) -> Needs:
    """For each way to write a pattern, where it is nothing but a choice of some, up to three sets
    of stretches of letters: of each set one stands in every text that it fits."""
    items, after = list(_parser.parse(pattern, re.IGNORECASE)), ""
    while items and items[-1][0] in _ZERO_WIDTH and not _is_never(*items[-1]):
        after = " " if _ends_word(*items.pop()) else after
    while items and items[0][0] in _ZERO_WIDTH and not _is_never(*items[0]):
        del items[0]
    while len(items) == 1 and items[0][0] is _parser.SUBPATTERN:
        items = list(items[0][1][3])
    is_choice = len(items) == 1 and items[0][0] is _parser.BRANCH
    # It is held against the beginning of a text, or of a word.
    each = [_of_all(one, " ", after) for one in (items[0][1][1] if is_choice else [items])]
    return tuple(tuple(sorted(one, key=_worth, reverse=True)[:_MOST_SETS]) for one in each)


_KEPT = KeptNeeds(_needs)


@cache
def written_out(pattern: str) -> frozenset[str]:
    """All texts that a pattern fits from end to end, folded, each figure as 0 and any other sign as
    a blank; none where they are too many to tell."""
    ways = _ways_of_all(_parser.parse(pattern, re.IGNORECASE))
    return frozenset(" ".join(way.split()) for way in ways or ())


def _of_all(items: Any, before: str, after: str) -> list[_Stretches]:
    """The same of pieces of a pattern. `before`, `after`: a blank where a word surely ends."""
    walk = _Walk([before])
    walk.all_of(items, after)
    walk.ways = [way + after for way in walk.ways]
    walk.end()
    return walk.found


class _Walk:
    """Goes through a parsed pattern, and keeps the ways to write what stands without a gap."""

    def __init__(self, ways: list[str]) -> None:
        self.found: list[_Stretches] = []
        self.ways = ways
        # Whether so much is needed already that no more would tell it better.
        self.is_told = False

    def all_of(self, items: Any, after: str) -> None:
        for at, (op, of) in enumerate(items):
            if self.is_told:
                return
            if op is _parser.LITERAL:
                letter = _letter(of)
                self.ways = [way + letter for way in self.ways]
                continue
            if _is_never(op, of):
                self._keep(set())
                continue
            if _ends_word(op, of):
                self.ways = [f"{way} " for way in self.ways]
                continue
            ways = _ways(op, of)
            if ways is not None and len(ways) * len(self.ways) <= _MOST_WAYS:
                self.ways = [one + other for one in self.ways for other in ways]
            elif op not in _ZERO_WIDTH:
                self._piece(op, of, _begins(items, at + 1, after))

    def _piece(self, op: Any, of: Any, after: str) -> None:
        """One piece that cannot be written out: what it needs itself, and a gap."""
        before = " " if all(way.endswith(" ") for way in self.ways) else ""
        self.end()
        if op is _parser.SUBPATTERN:
            self.ways = [before]
            self.all_of(of[3], after)
            self.ways = [way + after for way in self.ways]
        elif op is _parser.ASSERT:
            if of[0] > 0:
                self.ways = [before]
                self.all_of(of[1], "")
        elif op in (_parser.MAX_REPEAT, _parser.MIN_REPEAT):
            least, _, inside = of
            if least:
                self.all_of(inside, "")
        elif op is _parser.BRANCH:
            either = [_of_all(one, before, after) for one in of[1]]
            if all(either):
                self._keep({stretch for one in either for stretch in max(one, key=_worth)})
        self.end()

    def end(self) -> None:
        """Keep the best stretch of each way to write what stands here; then comes a gap."""
        if any(self.ways):
            ways = [_stretches(way) for way in self.ways]
            if all(ways):
                self._keep({max(way, key=_value) for way in ways})
                most = max(map(len, ways))
                for n in range(most) if most > 1 else ():
                    # Word by word: `leaf cut` by both, and `leafcut` by its only one.
                    self._keep({way[min(n, len(way) - 1)] for way in ways})
            self.ways = [""]

    def _keep(self, stretches: set[str]) -> None:
        if stretches in self.found:
            return
        self.found.append(frozenset(stretches))
        told = sum(_worth(one)[0] >= _TELLING for one in self.found)
        self.is_told = told >= _MOST_SETS


def _is_never(op: Any, of: Any) -> bool:
    """Whether nothing at all fits a piece, as the places of a journal that has none."""
    return op is _parser.FAILURE or (op is _parser.ASSERT_NOT and not of[1])


def _ends_word(op: Any, of: Any) -> bool:
    """Whether a word surely ends or begins at a place: `\\b`, or no letter may follow."""
    if op is _parser.AT:
        return of in (_parser.AT_BOUNDARY, _parser.AT_END)
    if (
        op is not _parser.ASSERT_NOT
        or of[0] < 0
        or len(of[1]) != 1
        or of[1][0][0] is not _parser.IN
    ):
        return False
    category = (_parser.CATEGORY, _parser.CATEGORY_WORD)
    return category in of[1][0][1] or (_parser.CATEGORY, _parser.CATEGORY_NOT_SPACE) in of[1][0][1]


def _begins(items: Any, at: int, after: str) -> str:
    """A blank where what stands at a place surely begins with no letter; `after`: where nothing
    more stands there."""
    if at == len(items):
        return after
    op, of = items[at]
    is_blank = op is _parser.LITERAL and _letter(of) == " "
    return " " if is_blank or _ends_word(op, of) else ""


def _stretches(way: str) -> list[str]:
    """The runs of letters of a way to write something, with a blank where each surely begins or
    ends a word."""
    runs = way.split(" ")
    last = len(runs) - 1
    return [
        f"{' ' if at else ''}{run}{' ' if at < last else ''}" for at, run in enumerate(runs) if run
    ]


def _value(stretch: str) -> int:
    """How rare a run of letters is."""
    run = stretch.strip(" ")
    return 0 if run in _COMMON else len(run)


def _ways(op: Any, of: Any) -> list[str] | None:
    """All ways to write one piece of a pattern; None where they are too many to tell."""
    if op is _parser.IN:
        return _ways_of_set(of)
    if op is _parser.MAX_REPEAT and of[:2] == (0, 1):
        inside = _ways_of_all(of[2])
        return None if inside is None else ["", *inside]
    if op is _parser.SUBPATTERN:
        return _ways_of_all(of[3])
    if op is _parser.BRANCH:
        ways: list[str] = []
        for one in of[1]:
            inside = _ways_of_all(one)
            if inside is None or len(ways) + len(inside) > _MOST_WAYS:
                return None
            ways += inside
        return ways
    return None


def _ways_of_all(items: Any) -> list[str] | None:
    ways = [""]
    for op, of in items:
        if op is _parser.LITERAL:
            letter = _letter(of)
            ways = [way + letter for way in ways]
            continue
        more = _ways(op, of)
        if more is None or len(ways) * len(more) > _MOST_WAYS:
            return None
        ways = [one + other for one in ways for other in more]
    return ways


def _ways_of_set(items: Any) -> list[str] | None:
    out: list[str] = []
    for op, of in items:
        if op is _parser.LITERAL:
            out.append(_letter(of))
        elif op is _parser.CATEGORY and of is _parser.CATEGORY_DIGIT:
            out.append("0")
        else:
            return None
    return out


def _letter(code: int) -> str:
    """A letter or a figure as a folded text of ASCII has it; a blank for any other sign."""
    return _LETTERS[code] if code < len(_LETTERS) else " "
