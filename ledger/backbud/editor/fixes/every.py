"""Lists every fix, and makes of those for a problem what an editor shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.edits import EditRefused, workspace_edit
from backbud.editor.fixes.as_noted import as_noted
from backbud.editor.fixes.asked import FixOf, ToMend
from backbud.editor.fixes.indent import indent
from backbud.editor.fixes.iso_date import iso_date
from backbud.editor.fixes.missing_card import missing_card
from backbud.editor.fixes.nearest_word import nearest_word
from backbud.editor.fixes.own_word import own_word
from backbud.editor.problems import SOURCE
from backbud.editor.text import OpenText

# In the order in which they are offered.
FIXES: tuple[FixOf, ...] = (nearest_word, iso_date, indent, missing_card, own_word, as_noted)


def actions_for(
    desk: Desk, text: OpenText, diagnostics: Iterable[lsp.Diagnostic], *, shows_disabled: bool
) -> Iterator[lsp.CodeAction]:
    """Every fix of these problems. `shows_disabled`: the editor shows why one cannot be."""
    for diagnostic in diagnostics:
        if diagnostic.source != SOURCE:
            continue
        asked = ToMend.of(desk, text, diagnostic)
        for fix_of in FIXES:
            for fix in fix_of(asked):
                action = lsp.CodeAction(
                    fix.title,
                    lsp.CodeActionKind.QuickFix,
                    [diagnostic],
                    is_preferred=fix.sure or None,
                )
                try:
                    action.edit = workspace_edit(desk, fix.changes)
                except EditRefused as error:
                    if not shows_disabled:
                        continue
                    action.disabled = lsp.CodeActionDisabled(str(error))
                yield action
