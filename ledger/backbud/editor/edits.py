"""Makes of changes to files of a journal what an editor carries out: versioned, inside the journal,
and refused where the disk holds something else than was read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lsprotocol import types as lsp

from backbud.editor.desk import Desk


class EditRefused(Exception):
    """A change that is not made; the sentence says why."""


def workspace_edit(desk: Desk, changes: Mapping[str, Sequence[lsp.TextEdit]]) -> lsp.WorkspaceEdit:
    """The changes by the name of their file. EditRefused where one of them cannot be sure."""
    documents: list[lsp.TextDocumentEdit | lsp.CreateFile | lsp.RenameFile | lsp.DeleteFile] = []
    for name, edits in sorted(changes.items()):
        text = desk.text(name)
        if text is None:
            raise EditRefused(f"{name} is no file of this journal.")
        if text.version is None and desk.files.differs(name):
            raise EditRefused(
                f"{name} was changed on the disk since it was read; nothing was changed. Try again."
            )
        document = lsp.OptionalVersionedTextDocumentIdentifier(text.uri, text.version)
        documents.append(lsp.TextDocumentEdit(document, list(edits)))
    return lsp.WorkspaceEdit(document_changes=documents)
