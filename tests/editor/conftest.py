"""A language client that is not ours speaks with a `backbud editor` that runs as a process."""

from __future__ import annotations

import asyncio
import os
import sys
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest_asyncio
from lsprotocol import types as lsp
from pytest_lsp import LanguageClient, make_test_lsp_client

TODAY = "2027-06-01"
SETTINGS = 'language = 1\nhome = "yard"\ncurrency = "EUR"\n'
CARDS = """\
person marrow
person quill
place yard
  latitude 52 N
place tunnel
  within yard
mix maple
  akadama 2
pot tray-1
pot tray-2
tree hoshi
  kind   trident maple
  place  yard
  pot    tray-1
tree yuki
  kind   trident maple
  place  yard
  pot    tray-2
tree kōyō
  kind   satsuki azalea 'Kaho'
  place  tunnel
  owner  marrow
words
  since 2027-01-01
  uekae  repotted
"""
DIARY = """\
2027-03-06   low 1 C, high 9 C, rain 4 mm

hoshi
  repotted    same pot, 2 cm off below, wedges N E S, mix maple 4.5 L, tied 2 mm x 2
  wired       2.5 mm Al on left 2, left 3
  noted       hoshi leans on yuki 🌱

hoshi, yuki
  watered     -- dry east wind

2027-05-20

all in tunnel except kōyō
  weeded

kōyō
  uekae       same pot
  treated     with soap 🌱
"""


def server_command() -> list[str]:
    return [str(Path(sys.executable).with_name("backbud")), "editor", "--on", TODAY]


class Editor:
    """A client with one journal: it opens and changes texts, and waits for what is told of them."""

    def __init__(self, client: LanguageClient, folder: Path, can: lsp.ServerCapabilities) -> None:
        """`can`: what the server says that it can be asked for."""
        self.client, self.folder, self.can = client, folder, can
        self.versions: dict[str, int] = {}
        self.texts: dict[str, str] = {}
        self.made: list[lsp.PublishDiagnosticsParams] = []

    def uri(self, name: str) -> str:
        return (self.folder / name).as_uri()

    def open(self, name: str, text: str | None = None) -> str:
        """Open a file, as it lies there or with another text."""
        path = self.folder / name
        self.texts[name] = text if text is not None else path.read_bytes().decode()
        self.versions[name] = 1
        item = lsp.TextDocumentItem(self.uri(name), "backbud", 1, self.texts[name])
        self.client.text_document_did_open(lsp.DidOpenTextDocumentParams(item))
        return self.uri(name)

    def replace(self, name: str, text: str) -> int:
        """Put another text in its place; the version of it."""
        self.versions[name] += 1
        self.texts[name] = text
        which = lsp.VersionedTextDocumentIdentifier(self.versions[name], self.uri(name))
        change = lsp.TextDocumentContentChangeWholeDocument(text)
        self.client.text_document_did_change(lsp.DidChangeTextDocumentParams(which, [change]))
        return self.versions[name]

    def type(self, name: str, line: int, character: int, text: str, over: int = 0) -> int:
        """Type at a place, over so many code units."""
        self.versions[name] += 1
        which = lsp.VersionedTextDocumentIdentifier(self.versions[name], self.uri(name))
        begin, end = lsp.Position(line, character), lsp.Position(line, character + over)
        change = lsp.TextDocumentContentChangePartial(lsp.Range(begin, end), text)
        self.client.text_document_did_change(lsp.DidChangeTextDocumentParams(which, [change]))
        return self.versions[name]

    def close_all(self) -> None:
        """Close every file, as if nobody had opened it."""
        for name in self.versions:
            which = lsp.TextDocumentIdentifier(self.uri(name))
            self.client.text_document_did_close(lsp.DidCloseTextDocumentParams(which))
            self.client.diagnostics.pop(which.uri, None)
        self.versions, self.texts = {}, {}

    async def settled(self) -> None:
        """Wait until the history of the diary was replayed, and its first tree planned."""
        where = lsp.HoverParams(**self.at("diary.txt", 2, 1))
        for _ in range(400):
            found = await self.client.text_document_hover_async(where)
            if found is not None and "due: " in found.contents.value:
                return
            await asyncio.sleep(0.05)
        raise AssertionError("it never came to rest")

    async def fixes(self, name: str, line: int) -> dict[str, lsp.CodeAction]:
        """What is offered to mend the problems of a line, by title."""
        those = [d for d in self.client.diagnostics[self.uri(name)] if d.range.start.line == line]
        where = lsp.Range(lsp.Position(line, 0), lsp.Position(line, 99))
        which = lsp.TextDocumentIdentifier(self.uri(name))
        found = await self.client.text_document_code_action_async(
            lsp.CodeActionParams(which, where, lsp.CodeActionContext(those))
        )
        return {one.title: one for one in found}

    def after(self, edit: lsp.WorkspaceEdit) -> dict[str, str]:
        """The texts as an editor would have them after an edit, by name."""
        out = {}
        for change in edit.document_changes:
            name = change.text_document.uri.rpartition("/")[2]
            version = self.versions.get(name)
            assert change.text_document.version == version
            text = self.texts.get(name) or (self.folder / name).read_bytes().decode()
            out[name] = edited(text, change.edits)
        return out

    async def problems(self, name: str, wanted: int | None = None, patience_s: float = 20.0):
        """What is told of a file, once it is so many problems and no more comes."""
        uri, waited = self.uri(name), 0.0
        while waited < patience_s:
            found = self.client.diagnostics.get(uri)
            if found is not None and (wanted is None or len(found) == wanted):
                return list(found)
            await asyncio.sleep(0.02)
            waited += 0.02
        raise AssertionError(f"{name}: {self.client.diagnostics.get(uri)}")

    def at(self, name: str, line: int, character: int) -> dict[str, Any]:
        return {
            "text_document": lsp.TextDocumentIdentifier(self.uri(name)),
            "position": lsp.Position(line, character),
        }


def edited(text: str, edits: list[lsp.TextEdit]) -> str:
    """A text after edits whose places count UTF-16 code units, as the protocol has it."""
    lines = text.split("\n")
    starts = [sum(len(line) + 1 for line in lines[:n]) for n in range(len(lines))]

    def offset(at: lsp.Position) -> int:
        line = lines[at.line].encode("utf-16-le")
        return starts[at.line] + len(line[: 2 * at.character].decode("utf-16-le"))

    for edit in sorted(edits, key=lambda one: offset(one.range.start), reverse=True):
        begin, end = offset(edit.range.start), offset(edit.range.end)
        text = text[:begin] + edit.new_text + text[end:]
    return text


@pytest_asyncio.fixture(scope="session", loop_scope="session")
async def editor(tmp_path_factory, settings_of_nobody) -> AsyncIterator[Editor]:
    """One client and server for the tests of a module, on a small journal."""
    folder = tmp_path_factory.mktemp("journal")
    write_journal(folder)
    one = await begun(folder)
    yield one
    await ended(one)


def write_journal(folder: Path, diary: str = DIARY) -> None:
    (folder / "backbud.toml").write_text(SETTINGS)
    (folder / "cards.txt").write_text(CARDS)
    (folder / "diary.txt").write_text(diary)


async def begun(folder: Path) -> Editor:
    client = make_test_lsp_client()

    @client.feature(lsp.WORKSPACE_INLAY_HINT_REFRESH)
    def refreshed(*_: object) -> None:
        return None

    await client.start_io(*server_command(), env={**os.environ})
    client.capabilities = lsp.ClientCapabilities(
        workspace=lsp.WorkspaceClientCapabilities(
            workspace_edit=lsp.WorkspaceEditClientCapabilities(document_changes=True),
            inlay_hint=lsp.InlayHintWorkspaceClientCapabilities(refresh_support=True),
        )
    )
    params = lsp.InitializeParams(
        client.capabilities, root_uri=folder.as_uri(), process_id=os.getpid()
    )
    result = await client.initialize_session(params)
    return Editor(client, folder, result.capabilities)


async def ended(editor: Editor) -> None:
    await editor.client.shutdown_session()
