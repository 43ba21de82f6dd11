"""Parsing a detail with the grammar, once for all texts that differ only in digits and long words.

Texts that differ only in their digits have one shape, and each shape is parsed but once: which
digit stands there means nothing to the terminals of a detail, save to the two that
`_OWN_SHAPE` looks for. Nor does it matter which long word stands there, if it is no unit: so few
shapes are parsed, and the next run of any journal finds them in the person's cache folder.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from msgspec import MsgspecError, msgpack

from backbud_grammar.cache_folder import keep_in_cache, recalled_from_cache
from backbud_grammar.digest import digest

if TYPE_CHECKING:
    from lark import Lark, Token, Tree


class Piece(NamedTuple):
    """A terminal of the grammar and where it stands in the text."""

    terminal: str
    start: int
    end: int


class Part(NamedTuple):
    """One thing in a detail: the rule of the grammar that it is, and the terminals of it.

    `rule`: "WORD", "QUOTED", "date" or a rule of a measure.
    """

    rule: str
    pieces: tuple[Piece, ...]


# A date without hyphens, where the month is looked at, and `m2`.
_OWN_SHAPE = re.compile(r"\d{8}|m[23]")
# A word by itself that can be nothing else, or a text in quotation marks, and what stands for it.
# With any other such mark in a text no word is surely one.
_LONG_WORD = re.compile(
    r"(?<![^ ])(?:(?!(?:inch(?:es)?|foot|feet|lit(?:re|er)s?|minutes?|hours?|seconds?|days|weeks?"
    r"|months?|years?|percent|degrees?)(?![^ ]))[^\W\d_]{4,}(?:-[^\W_]+)*|(\")[^\"]*\")(?![^ ])"
)
_ANY_WORD = r"\1word\1"
_MARK = re.compile("['\t]")
# A longer text is no detail, and so many shapes are more than a language has.
_LONGEST_KEPT = 60
_MOST_KEPT = 2000
_DIGITS = dict.fromkeys(range(ord("0"), ord("9") + 1), "0")


def parts_of_detail(text: str) -> tuple[Part, ...] | None:
    """Parse a detail; None where the grammar has no reading of it."""
    return SHAPES.of(text if _OWN_SHAPE.search(text) else text.translate(_DIGITS))


_Parts = tuple[Part, ...]


class Shapes:
    """What each shape was parsed as; None where the grammar has no reading of it.

    It hangs on the grammar alone, so that a process has one for all journals. `parsed`: those that
    were looked up; `has_new`: some of them were parsed. `recall`: gives what an earlier run of the
    journal knew, and is asked once, when something is looked up that this one does not know: to
    load the parser takes longer.
    """

    def __init__(self) -> None:
        self.parsed: dict[str, _Parts | None] = {}
        self.has_new = False
        self.recall: Callable[[], Mapping[str, _Parts | None]] | None = None
        self._kept: dict[str, _Parts | None] | None = None

    def of(self, shape: str) -> _Parts | None:
        if shape not in self.parsed:
            recall, self.recall = self.recall, None
            if recall is not None:
                self.parsed = {**recall(), **self.parsed}
            if shape not in self.parsed:
                self.parsed[shape] = self._found(shape)
        return self.parsed[shape]

    def _found(self, shape: str) -> _Parts | None:
        plain = of_any_words(shape)
        if plain != shape:
            return _in_place(self.of(plain), shape)
        if self._kept is None:
            self._kept = _recalled_shapes()
        if shape in self._kept:
            return self._kept[shape]
        self.has_new = True
        return _parse(shape)

    def keep(self) -> None:
        """Keep the shapes that hold no words of a journal for the next run of any, if some are
        new."""
        if not self.has_new:
            return
        self.has_new = False
        kept = self._kept = _recalled_shapes() if self._kept is None else self._kept
        new = {
            shape: parts
            for shape, parts in self.parsed.items()
            if shape not in kept and len(shape) <= _LONGEST_KEPT and _is_of_no_journal(shape)
        }
        if new:
            kept.update(new)
            # The oldest make way, or what one journal left would keep out what the next one needs.
            for oldest in list(kept)[:-_MOST_KEPT]:
                del kept[oldest]
            data = msgpack.encode(kept)
            keep_in_cache(_kept_name(), lambda file: file.write(data))


def of_any_words(shape: str) -> str:
    """The shape with the same word for each that is long and no unit."""
    if _MARK.search(shape):
        return shape
    plain = _LONG_WORD.sub(_ANY_WORD, shape)
    return plain if plain.count('"') == 2 * plain.count('"word"') else shape


def _is_of_no_journal(shape: str) -> bool:
    """Whether a shape holds neither long words nor other texts in quotation marks."""
    plain = of_any_words(shape) == shape and not _MARK.search(shape)
    return plain and shape.count('"') == 2 * shape.count('"word"')


def _in_place(parts: _Parts | None, shape: str) -> _Parts | None:
    """The parts of a shape of any words, with their places in one of its own words."""
    if parts is None:
        return None
    # Where each word ends in the shape of any words, and how much further on what follows stands.
    ends: list[tuple[int, int]] = []
    further = 0
    for found in _LONG_WORD.finditer(shape):
        end = found.start() - further + len(found.expand(_ANY_WORD))
        further = found.end() - end
        ends.append((end, further))

    def place(at: int) -> int:
        return at + next((more for end, more in reversed(ends) if end <= at), 0)

    return tuple(
        [
            Part(
                rule, tuple([Piece(name, place(start), place(end)) for name, start, end in pieces])
            )
            for rule, pieces in parts
        ]
    )


def _recalled_shapes() -> dict[str, _Parts | None]:
    data = recalled_from_cache(_kept_name(), lambda file: file.read())
    try:
        return msgpack.decode(data or b"", type=dict[str, _Parts | None])
    except MsgspecError:
        return {}


@cache
def _kept_name() -> str:
    """The file of one version of the grammar, and of this module."""
    # What Python has for this loads much that nothing else needs.
    folder, texts = os.path.dirname(__file__), list[bytes]()
    for name in ("journal.lark", "shape.py"):
        with open(os.path.join(folder, name), "rb") as file:
            texts.append(file.read())
    return f"shapes-{digest(*texts).hex()}"


SHAPES = Shapes()


def _parse(shape: str) -> tuple[Part, ...] | None:
    from lark import UnexpectedInput

    try:
        tree = parser().parse(shape, start="detail")
    except UnexpectedInput:
        return None
    return tuple(part_of(node) for node in tree.children)


def part_of(node: Tree[Token] | Token) -> Part:
    """Return one node of the tree of a detail as a part.

    A parser that was just built names its rules by tokens, one from the cache folder by plain
    strings: what is remembered holds strings alone.
    """
    from lark import Token

    if isinstance(node, Token):
        return Part(str(node.type), (_piece(node),))
    return Part(str(node.data), tuple([_piece(child) for child in node.children]))


def _piece(token: Any) -> Piece:
    return Piece(str(token.type), token.start_pos, token.end_pos)


@cache
def parser() -> Lark:
    """The parser of journal.lark; lark is imported only where there is something to parse."""
    from backbud_grammar.tables import load_parser

    return load_parser()
