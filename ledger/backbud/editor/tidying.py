"""Formats a text by `tidy`: whole lines are put in the place of those that stand otherwise."""

from __future__ import annotations

from difflib import SequenceMatcher

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.text import OpenText
from backbud_grammar.tidy import tidy_text


def tidied(desk: Desk, text: OpenText) -> list[lsp.TextEdit]:
    """The edits that line a text up. TidyError, with one sentence, where it is left alone."""
    old = list(text.lines)
    new = tidy_text("\n".join(old), desk.speech.acts).split("\n")
    if len(old) == len(new):
        return [
            lsp.TextEdit(text.whole_lines(n, n), line)
            for n, line in enumerate(new)
            if line != old[n]
        ]
    edits: list[lsp.TextEdit] = []
    for tag, a, b, c, d in SequenceMatcher(None, old, new).get_opcodes():
        if tag == "equal":
            continue
        if tag == "replace" and b - a == d - c:
            edits += [
                lsp.TextEdit(text.whole_lines(a + n, a + n), new[c + n])
                for n in range(b - a)
                if old[a + n] != new[c + n]
            ]
            continue
        edits.append(_lines(text, a, b, new[c:d]))
    return edits


def _lines(text: OpenText, first: int, behind: int, new: list[str]) -> lsp.TextEdit:
    """So many lines in the place of others, with their ends."""
    if behind < len(text.lines):
        where = lsp.Range(text.position(first, 0), text.position(behind, 0))
        return lsp.TextEdit(where, "".join(f"{line}{text.end}" for line in new))
    # The last line has no end: the end of the one before goes with it.
    last = len(text.lines) - 1
    end = text.position(last, len(text.line(last)))
    if first == 0:
        return lsp.TextEdit(lsp.Range(text.position(0, 0), end), text.end.join(new))
    begin = text.position(first - 1, len(text.line(first - 1)))
    return lsp.TextEdit(lsp.Range(begin, end), "".join(f"{text.end}{line}" for line in new))
