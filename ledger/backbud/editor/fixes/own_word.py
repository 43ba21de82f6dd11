"""Teaches a word as the keeper's own, on a card `words`, from the day of its page on."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol import types as lsp

from backbud.editor.fixes.asked import Fix, ToMend
from backbud.editor.fixes.at_the_end import card_at_end, file_of_cards
from backbud.editor.text import OpenText
from backbud.journal.own_words import KIND
from backbud_grammar.own_words import wrong_meaning, wrong_run

CODES = ("unknown-act", "unread-line", "unknown-detail", "unknown-word")


def own_word(asked: ToMend) -> Iterator[Fix]:
    """One fix for each meaning that the hint names; nothing is guessed."""
    word = asked.written.strip(" ,")
    day = asked.day
    if asked.code not in CODES or day is None or not word:
        return
    if wrong_run(word, asked.desk.speech.acts):
        return
    for meaning in asked.meanings:
        if wrong_meaning(meaning):
            continue
        found = _taught(asked, word, meaning, day.isoformat())
        if found is not None:
            name, edit = found
            title = f"Teach “{word}” as your own word for “{meaning}” (in {name})"
            yield Fix(title, {name: (edit,)})


def _taught(asked: ToMend, word: str, meaning: str, day: str) -> tuple[str, lsp.TextEdit] | None:
    """The file and the edit: below the last day on a card `words` that is not later, else on a
    new one."""
    desk = asked.desk
    line = f"{word}  {meaning}"
    for name in desk.names:
        text = desk.text(name)
        if text is None or not any(one.strip().casefold() == KIND for one in text.lines):
            continue
        for piece in desk.pieces(text).all():
            card = piece.card
            if card is None or card.kind != KIND or not card.lines:
                continue
            last = card.lines[-1]
            since = [one.text.split()[-1] for one in card.lines if one.text.startswith("since")]
            indent = " " * (last.column - 1)
            lead = "" if since and since[-1] <= day else f"{text.end}{indent}since {day}"
            return name, _behind(text, piece.first + last.line, f"{lead}{text.end}{indent}{line}")
    name = file_of_cards(desk, "person", asked.text.name)
    text = desk.text(name)
    if text is None:
        return None
    return name, card_at_end(text, (KIND, f"  since {day}", f"  {line}"))


def _behind(text: OpenText, line: int, new: str) -> lsp.TextEdit:
    at = text.position(line, len(text.line(line)))
    return lsp.TextEdit(lsp.Range(at, at), new)
