"""Finds all mentions of a handle or an own word in every file: quickly by its letters, then surely
by what each word is."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lsprotocol import types as lsp
from msgspec import Struct

from backbud.editor.desk import Desk
from backbud.editor.symbols import card_location
from backbud.editor.text import OpenText
from backbud.editor.tokens import Token, token_at, tokens_of, tokens_of_subjects
from backbud.journal.things import Thing
from backbud_grammar.handles import fold
from backbud_grammar.outline import begins_section
from backbud_grammar.own_words import folded_run

_HANDLE = re.compile(r"[\w-]+")


class Mention(Struct, frozen=True):
    """A place where something is mentioned. `prose`: in free words, where it means nothing."""

    text: OpenText
    line: int
    column: int
    written: str
    prose: bool = False
    new: bool = False

    @property
    def range(self) -> lsp.Range:
        return self.text.range(self.line, self.column, len(self.written))

    @property
    def location(self) -> lsp.Location:
        return lsp.Location(self.text.uri, self.range)


def named_at(desk: Desk, text: OpenText, position: lsp.Position) -> Token | None:
    """The handle or own word at a place; one in free words, where it is a handle that is known."""
    line, column = text.place(position)
    token = token_at(desk.pieces(text).at(line), text, desk.speech, line, column)
    if token is not None and token.sort == "prose":
        for found in _HANDLE.finditer(token.text):
            at = token.column + found.start()
            if at <= column <= at + len(found[0]) and thing_of(desk, found[0]) is not None:
                return Token(line, at, found[0], "handle", found[0])
    return token if token is not None and token.sort in ("handle", "own") else None


def thing_of(desk: Desk, written: str) -> Thing | None:
    """What a handle means."""
    return desk.snapshot.journal.things.find(written) if desk.snapshot is not None else None


def spellings_of(desk: Desk, thing: Thing) -> set[str]:
    """Every handle that finds a thing, folded."""
    assert desk.snapshot is not None
    found = desk.snapshot.journal.things.spellings
    return {spelled for spelled, handle in found.items() if handle == thing.handle}


def mentions_of(desk: Desk, spelled: set[str], *, prose: bool = False) -> Iterator[Mention]:
    """Every mention of handles, folded; with `prose` in free words, too."""
    for name in desk.names:
        text = desk.text(name)
        if text is None:
            continue
        lines = desk.letters(text).lines_with(spelled)
        for token in _tokens_on(desk, text, lines):
            if token.sort == "handle" and fold(token.value) in spelled:
                yield Mention(text, token.line, token.column, token.text, new=token.new)
            elif prose and token.sort == "prose":
                for found in _HANDLE.finditer(token.text):
                    if fold(found[0]) in spelled:
                        at = token.column + found.start()
                        yield Mention(text, token.line, at, found[0], True)


def own_mentions(desk: Desk, run: tuple[str, ...]) -> Iterator[Mention]:
    """Every mention of an own word, on its card too."""
    for name in desk.names:
        text = desk.text(name)
        if text is None:
            continue
        lines = desk.letters(text).lines_with({run[0]})
        for token in _tokens_on(desk, text, lines):
            if token.sort == "own" and folded_run(token.value) == run:
                yield Mention(text, token.line, token.column, token.text)


def _tokens_on(desk: Desk, text: OpenText, lines: list[int]) -> Iterator[Token]:
    """The tokens on these lines."""
    pieces, speech, last = desk.pieces(text), desk.speech, -1
    wanted = set(lines)
    for line in lines:
        written = text.line(line)
        if written[:1] not in ("", " ", "\t", "#") and not begins_section(written):
            # A subject line says the same whatever stands around it.
            yield from tokens_of_subjects(written.rstrip(), line, speech)
        elif line > last:
            piece = pieces.at(line)
            last = piece.last
            yield from (
                one
                for one in tokens_of(piece, text, speech)
                if one.line in wanted and (one.line == line or text.line(one.line)[:1].isspace())
            )


# ------------------------------------------------------------------ what an editor asks for


def definition(desk: Desk, text: OpenText, position: lsp.Position) -> lsp.Location | None:
    """The card of a handle, or the line that teaches an own word."""
    token = named_at(desk, text, position)
    if token is None or desk.snapshot is None:
        return None
    if token.sort == "own":
        run = folded_run(token.value)
        word = next((w for w in desk.speech.own.words if w.run == run), None)
        card = desk.text(word.origin.file) if word is not None else None
        if word is None or card is None:
            return None
        where = card.range(word.origin.line - 1, word.origin.column - 1, len(token.value))
        return lsp.Location(card.uri, where)
    thing = thing_of(desk, token.value)
    return card_location(desk, thing) if thing is not None else None


def references(
    desk: Desk, text: OpenText, position: lsp.Position, *, with_card: bool
) -> list[lsp.Location]:
    """All mentions of what stands at a place, in free words too."""
    token = named_at(desk, text, position)
    if token is None:
        return []
    if token.sort == "own":
        return [one.location for one in own_mentions(desk, folded_run(token.value))]
    thing = thing_of(desk, token.value)
    spelled = spellings_of(desk, thing) if thing is not None else {fold(token.value)}
    found = mentions_of(desk, spelled, prose=True)
    return [one.location for one in found if with_card or not one.new]


def highlights(desk: Desk, text: OpenText, position: lsp.Position) -> list[lsp.DocumentHighlight]:
    """The mentions in this file alone."""
    token = named_at(desk, text, position)
    if token is None or token.sort == "own":
        return []
    thing = thing_of(desk, token.value)
    spelled = spellings_of(desk, thing) if thing is not None else {fold(token.value)}
    lines = desk.letters(text).lines_with(spelled)
    return [
        lsp.DocumentHighlight(text.range(one.line, one.column, len(one.text)))
        for one in _tokens_on(desk, text, lines)
        if one.sort == "handle" and fold(one.value) in spelled
    ]
