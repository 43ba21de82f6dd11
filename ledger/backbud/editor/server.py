"""Speaks the language server protocol with an editor over standard input and output."""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable
from datetime import date
from typing import Any

from lsprotocol import types as lsp
from pygls.lsp.server import LanguageServer

from backbud import __version__
from backbud.editor.desk import Desk, ReadProblems
from backbud.editor.files import name_in, path_of, uri_of
from backbud.editor.problems import by_file, carried, diagnostic_of
from backbud.editor.text import OpenText
from backbud.journal.find import find_journal
from backbud.journal.problems import as_problems
from backbud_grammar.problems import Problem

NAME = "backbud"


class EditorServer(LanguageServer):
    """Every journal that an editor has files of, and what was told of their problems."""

    def __init__(self, ask_today: Callable[[], date]) -> None:
        super().__init__(NAME, __version__, lsp.TextDocumentSyncKind.Incremental)
        self._ask_today = ask_today
        self.desks: dict[str, Desk] = {}
        # By address what was last published; by desk and file what the whole history said last.
        self._published: dict[str, list[lsp.Diagnostic]] = {}
        self._rest: dict[str, dict[str, list[Problem]]] = {}
        self._rest_texts: dict[str, dict[str, OpenText]] = {}
        self._loop: asyncio.AbstractEventLoop | None = None
        # The loop alone would let go of them.
        self._under_way: set[asyncio.Future[None]] = set()
        self._refreshing: set[str] = set()
        # Whoever shows more than problems of a journal, once it was read whole.
        self.when_read: list[Callable[[Desk], None]] = []

    # -------------------------------------------------------------- journals

    def open_folder(self, folder: str) -> Desk:
        """The desk of a journal; it is read at once where it is new."""
        desk = self.desks.get(folder)
        if desk is None:
            self._loop = asyncio.get_running_loop()
            desk = Desk(
                folder,
                self._ask_today,
                lambda found: self._soon(self._told, folder, found),
                lambda why: self._soon(self._failed, why),
                self.encoding,
            )
            self.desks[folder] = desk
            begun = asyncio.ensure_future(self._begin(desk))
            self._under_way.add(begun)
            begun.add_done_callback(self._under_way.discard)
        return desk

    @property
    def encoding(self) -> str:
        """How the client counts characters."""
        chosen = self.workspace.position_encoding
        return str(getattr(chosen, "value", chosen) or "utf-16")

    async def _begin(self, desk: Desk) -> None:
        """Read a journal for the first time, and say so where that takes long."""
        reading = asyncio.wrap_future(desk.start())
        window = self.client_capabilities.window
        if window is None or not window.work_done_progress:
            return
        done, _ = await asyncio.wait((reading,), timeout=1.0)
        if done:
            return
        token = f"reading {desk.folder}"
        await self.work_done_progress.create_async(token)
        about = f"reading {os.path.basename(desk.folder)}"
        self.work_done_progress.begin(token, lsp.WorkDoneProgressBegin(about))
        await asyncio.wait((reading,))
        self.work_done_progress.end(token, lsp.WorkDoneProgressEnd())

    def find(self, uri: str) -> tuple[Desk, str] | None:
        """The journal that a file belongs to and its name there; None where it is in none."""
        path = path_of(uri)
        folder = find_journal(os.path.dirname(path)) if path else None
        if folder is None:
            return None
        folder = os.path.realpath(folder)
        name = name_in(folder, path)
        return (self.open_folder(folder), name) if name else None

    def seen(self, uri: str) -> tuple[Desk, OpenText] | None:
        """The journal and the text of a file as it stands now."""
        found = self.find(uri)
        if found is None:
            return None
        desk, name = found
        text = desk.text(name)
        return (desk, text) if text is not None else None

    def put(self, uri: str, version: int | None, text: str) -> None:
        """An editor opened a file."""
        found = self.find(uri)
        if found is not None:
            desk, name = found
            # Whoever opens it is told of it, though nothing changed.
            self._published.pop(uri, None)
            desk.put(OpenText.of(name, uri, version, text, self.encoding))

    def change(self, params: lsp.DidChangeTextDocumentParams) -> None:
        """Something was typed."""
        found = self.find(params.text_document.uri)
        if found is None:
            return
        desk, name = found
        text = desk.texts.get(name)
        if text is not None:
            desk.put(text.changed(params.content_changes, params.text_document.version))

    def close(self, uri: str) -> None:
        """An editor closed a file."""
        found = self.find(uri)
        if found is not None:
            found[0].close(found[1])

    def look_again(self, uri: str) -> None:
        """Something changed on the disk."""
        found = self.find(uri)
        if found is not None:
            found[0].look_again()

    def begin(self) -> None:
        """Read the journal of the editor's folder, before a file of it is opened; and ask to be
        told of what changes on the disk."""
        roots = [self.workspace.root_uri, *self.workspace.folders]
        for folder in filter(None, (find_journal(path_of(uri)) for uri in roots if uri)):
            self.open_folder(os.path.realpath(folder))
        files = self.client_capabilities.workspace
        watched = files.did_change_watched_files if files is not None else None
        if watched is not None and watched.dynamic_registration:
            watchers = [
                lsp.FileSystemWatcher(pattern) for pattern in ("**/*.txt", "**/backbud.toml")
            ]
            options = lsp.DidChangeWatchedFilesRegistrationOptions(watchers)
            method = lsp.WORKSPACE_DID_CHANGE_WATCHED_FILES
            self.client_register_capability(
                lsp.RegistrationParams([lsp.Registration("files", method, options)])
            )

    def stop(self) -> None:
        """Read nothing more."""
        for desk in self.desks.values():
            desk.worker.stop()

    # -------------------------------------------------------------- what the client can do

    @property
    def shows_disabled(self) -> bool:
        """Whether the editor shows an action that cannot be, with the reason."""
        of_texts = self.client_capabilities.text_document
        actions = of_texts.code_action if of_texts is not None else None
        return bool(actions is not None and actions.disabled_support)

    def refresh(self, desk: Desk) -> None:
        """What a line led to may be another thing by now."""
        of_workspace = self.client_capabilities.workspace
        if of_workspace is None:
            return
        if of_workspace.inlay_hint is not None and of_workspace.inlay_hint.refresh_support:
            self.workspace_inlay_hint_refresh(None)
        if of_workspace.code_lens is not None and of_workspace.code_lens.refresh_support:
            self.workspace_code_lens_refresh(None)

    def refresh_once_reckoned(self, desk: Desk) -> None:
        """Have the editor ask again once all that is reckoned now is done."""
        reckoned = desk.reckoned()
        if reckoned is not None and desk.folder not in self._refreshing:
            self._refreshing.add(desk.folder)

            def again(_: object) -> None:
                self._refreshing.discard(desk.folder)
                self._soon(self.refresh, desk)

            reckoned.add_done_callback(again)

    # -------------------------------------------------------------- problems

    def _soon(self, call: Callable[..., None], *given: Any) -> None:
        """Have the loop do it; asked in a reading thread."""
        if self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(call, *given)

    def _failed(self, why: str) -> None:
        self.window_show_message(lsp.ShowMessageParams(lsp.MessageType.Warning, why))

    def _told(self, folder: str, found: ReadProblems) -> None:
        """Publish what was found, where it is not what was published before."""
        desk = self.desks[folder]
        snapshot = found.snapshot
        problems = by_file(found.found)
        if found.whole:
            of_pages = set(as_problems(snapshot.journal.flaws, snapshot.journal.texts))
            self._rest[folder] = by_file(one for one in found.found if one not in of_pages)
            self._rest_texts[folder] = dict(snapshot.texts)
        else:
            for name, rest in self._rest.get(folder, {}).items():
                text = snapshot.texts.get(name) or desk.text(name)
                if text is not None:
                    old = self._rest_texts.get(folder, {}).get(name)
                    problems.setdefault(name, []).extend(carried(rest, old, text))
        before = {
            name
            for uri in self._published
            if (name := name_in(folder, path_of(uri))) and uri.startswith(uri_of(folder, ""))
        }
        for name in sorted({*problems, *before, *snapshot.texts}):
            if self.texts_moved_on(desk, name, snapshot.texts.get(name)):
                continue  # A newer reading comes.
            self._publish(desk, name, snapshot.texts.get(name), problems.get(name, []))
        if found.whole:
            for tell in self.when_read:
                tell(desk)

    def texts_moved_on(self, desk: Desk, name: str, text: OpenText | None) -> bool:
        """Whether a file is another one by now than when it was read."""
        return desk.texts.get(name) is not text

    def _publish(
        self, desk: Desk, name: str, text: OpenText | None, problems: list[Problem]
    ) -> None:
        shown = text or desk.text(name)
        uri = shown.uri if shown is not None else uri_of(desk.folder, name)
        text = shown or OpenText(name, uri, None, (), encoding=self.encoding)
        ordered = sorted(problems, key=lambda one: (one.line, one.column))
        diagnostics = [diagnostic_of(one, text, desk.text) for one in ordered]
        # Of a file that is open it is told that nothing is wrong, too.
        nothing = None if text.version is not None else list[lsp.Diagnostic]()
        if self._published.get(uri, nothing) == diagnostics:
            return
        self._published[uri] = diagnostics
        self.text_document_publish_diagnostics(
            lsp.PublishDiagnosticsParams(uri, diagnostics, text.version)
        )
