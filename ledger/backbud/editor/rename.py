"""Renames a handle or an own word across all files; a handle stays alive as `formerly`, and with it
every follow-up's id and calendar entry."""

from __future__ import annotations

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.edits import EditRefused, workspace_edit
from backbud.editor.mentions import mentions_of, named_at, own_mentions, thing_of
from backbud.editor.text import OpenText
from backbud.editor.tokens import Token
from backbud.journal.things import Thing
from backbud_grammar.continued import label_in
from backbud_grammar.handles import flaw_of, fold
from backbud_grammar.own_words import folded_run, wrong_run
from backbud_grammar.syntax import Card

FORMERLY = "formerly"


def may_rename(
    desk: Desk, text: OpenText, position: lsp.Position
) -> lsp.PrepareRenamePlaceholder | None:
    """What would be renaming at a place; None where nothing can be."""
    token = named_at(desk, text, position)
    if token is None or (token.sort == "handle" and thing_of(desk, token.value) is None):
        return None
    where = text.range(token.line, token.column, len(token.text))
    return lsp.PrepareRenamePlaceholder(where, _old(desk, token))


def _old(desk: Desk, token: Token) -> str:
    thing = thing_of(desk, token.value) if token.sort == "handle" else None
    return thing.handle if thing is not None else token.value


def renaming(desk: Desk, text: OpenText, position: lsp.Position, new: str) -> lsp.WorkspaceEdit:
    """The changes that give a handle or an own word another name. EditRefused."""
    token, new = named_at(desk, text, position), new.strip()
    if token is None:
        raise EditRefused("Neither a handle nor an own word stands here.")
    changes: dict[str, list[lsp.TextEdit]] = {}
    if token.sort == "own":
        _check_run(desk, token, new)
        for one in own_mentions(desk, folded_run(token.value)):
            changes.setdefault(one.text.name, []).append(lsp.TextEdit(one.range, new))
        return workspace_edit(desk, changes)
    thing = thing_of(desk, token.value)
    if thing is None:
        raise EditRefused(f"“{token.value}” has no card; give it one first.")
    _check_handle(desk, thing, new)
    former = _formerly(desk, thing)
    for one in mentions_of(desk, {fold(thing.handle)}):
        if (one.text.name, one.line) != former[:2]:
            changes.setdefault(one.text.name, []).append(lsp.TextEdit(one.range, new))
    name, _, edit = former
    changes.setdefault(name, []).append(edit)
    return workspace_edit(desk, changes)


def _check_run(desk: Desk, token: Token, new: str) -> None:
    wrong = wrong_run(new, desk.speech.acts)
    taken = folded_run(new) in {word.run for word in desk.speech.own.words}
    if not wrong and taken and folded_run(new) != folded_run(token.value):
        wrong = f"“{new}” is an own word already"
    if not wrong and thing_of(desk, new.split()[0]) is not None:
        wrong = f"“{new.split()[0]}” is a handle"
    if wrong:
        raise EditRefused(f"{wrong}.")


def _check_handle(desk: Desk, thing: Thing, new: str) -> None:
    wrong = flaw_of(new)
    other = thing_of(desk, new) if not wrong else None
    if other is not None and other.handle != thing.handle:
        wrong = f"“{new}” is a {other.kind} already ({other.origin})"
    elif other is not None and fold(new) != fold(thing.handle):
        wrong = f"“{new}” is an older handle of it; take it out of “{FORMERLY}” first"
    elif other is not None:
        wrong = f"“{new}” is read as “{thing.handle}”, so nothing would change"
    if wrong:
        raise EditRefused(f"{wrong}.")


def _formerly(desk: Desk, thing: Thing) -> tuple[str, int, lsp.TextEdit]:
    """The file, the line (-1 where it is new) and the edit that keeps the old handle alive."""
    name, first = thing.origin.file, thing.origin.line - 1
    text = desk.text(name)
    piece = desk.pieces(text).at(first) if text is not None else None
    card = piece.section if piece is not None else None
    if text is None or piece is None or not isinstance(card, Card) or card.handle != thing.handle:
        raise EditRefused(f"The card of “{thing.handle}” was changed just now; try again.")
    for line in card.lines:
        if label_in(card.kind, line.text) == FORMERLY:
            at = piece.first + (line.seams[-1].line if line.seams else line.line)
            end = text.position(at, len(text.line(at).rstrip()))
            return name, at, lsp.TextEdit(lsp.Range(end, end), f", {thing.handle}")
    behind = text.position(piece.first, len(text.line(piece.first)))
    edit = lsp.TextEdit(lsp.Range(behind, behind), f"{text.end}{_line(card, text, piece.first)}")
    return name, -1, edit


def _line(card: Card, text: OpenText, first: int) -> str:
    """A line `formerly`, set as the card's others are."""
    if not card.lines:
        return f"  {FORMERLY}  {card.handle}"
    written = text.line(first + card.lines[0].line)
    indent = written[: len(written) - len(written.lstrip())]
    label = label_in(card.kind, card.lines[0].text)
    value = card.lines[0].text[len(label) :]
    width = len(label) + len(value) - len(value.lstrip())
    return f"{indent}{f'{FORMERLY} ':<{width}}{card.handle}"
