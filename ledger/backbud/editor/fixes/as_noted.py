"""Keeps a line that is no act as free words."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol import types as lsp

from backbud.editor.fixes.asked import Fix, ToMend, here


def as_noted(asked: ToMend) -> Iterator[Fix]:
    """All of it, with the lines that go on with it."""
    act = asked.act
    if act is None:
        return
    form = asked.desk.speech.form(act.word)
    if form is not None and form.prose:
        return
    at = asked.text.position(asked.piece.first + act.line, act.column - 1)
    yield here(asked, "Keep the line as noted", lsp.TextEdit(lsp.Range(at, at), "noted  "))
