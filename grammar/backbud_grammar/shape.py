"""Parsing a detail with the grammar, once for all texts that differ only in their digits.

Texts that differ only in their digits have one shape, and each shape is parsed but once: which
digit stands there means nothing to the terminals of a detail, save to the two that
`_OWN_SHAPE` looks for.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

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
_DIGITS = dict.fromkeys(range(ord("0"), ord("9") + 1), "0")


def parts_of_detail(text: str) -> tuple[Part, ...] | None:
    """Parse a detail; None where the grammar has no reading of it."""
    return SHAPES.of(text if _OWN_SHAPE.search(text) else text.translate(_DIGITS))


class Shapes:
    """What each shape was parsed as; None where the grammar has no reading of it.

    It hangs on the grammar alone, so that a process has one for all journals. `parsed`: those that
    were looked up. `recall`: gives what an earlier run knew, and is asked once, when something is
    looked up that this one does not know: to load the parser takes longer.
    """

    def __init__(self) -> None:
        self.parsed: dict[str, tuple[Part, ...] | None] = {}
        self.recall: Callable[[], Mapping[str, tuple[Part, ...] | None]] | None = None

    def of(self, shape: str) -> tuple[Part, ...] | None:
        if shape not in self.parsed:
            recall, self.recall = self.recall, None
            if recall is not None:
                self.parsed = {**recall(), **self.parsed}
            if shape not in self.parsed:
                self.parsed[shape] = _parse(shape)
        return self.parsed[shape]


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
