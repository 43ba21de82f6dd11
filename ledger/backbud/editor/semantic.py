"""Tells an editor what each word is, so that it colours a journal by meaning, not by pattern."""

from __future__ import annotations

from collections.abc import Iterable

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.text import OpenText, units
from backbud.editor.tokens import Token, TokenSort, tokens_of

# By the standard names, which every theme has a colour for.
AS_STANDARD: dict[TokenSort, str] = {
    "date": "number",
    "weather": "property",
    "handle": "variable",
    "name": "type",
    "keyword": "keyword",
    "act": "function",
    "label": "property",
    "word": "enumMember",
    "part": "parameter",
    "measure": "number",
    "quoted": "string",
    "own": "macro",
    "prose": "string",
    "comment": "comment",
    "kind": "keyword",
}
TYPES = sorted(set(AS_STANDARD.values()))
MODIFIERS = ["declaration"]
LEGEND = lsp.SemanticTokensLegend(TYPES, MODIFIERS)


def semantic_tokens(desk: Desk, text: OpenText, first: int, last: int) -> lsp.SemanticTokens:
    """The tokens on these lines, each relative to the one before."""
    speech = desk.speech
    found = [
        token
        for piece in desk.pieces(text).within(first, last)
        for token in tokens_of(piece, text, speech)
        if first <= token.line <= last
    ]
    return lsp.SemanticTokens(_encoded(found, text))


def _encoded(tokens: Iterable[Token], text: OpenText) -> list[int]:
    data: list[int] = []
    line = start = end = 0
    for token in tokens:
        at = text.position(token.line, token.column)
        if at.line == line and at.character < end and data:
            continue  # It lies within the one before.
        length = units(token.text, text.encoding)
        apart = at.character - start if at.line == line else at.character
        sort = TYPES.index(AS_STANDARD[token.sort])
        data += [at.line - line, apart, length, sort, int(token.new)]
        line, start, end = at.line, at.character, at.character + length
    return data
