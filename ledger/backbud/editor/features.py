"""Names what the language server can be asked for, and who answers."""

from __future__ import annotations

from lsprotocol import types as lsp

from backbud.editor.server import EditorServer


def add_features(server: EditorServer) -> None:
    """Let an editor ask for all of it."""
    _add_texts(server)


def _add_texts(server: EditorServer) -> None:
    @server.feature(lsp.INITIALIZED)
    async def begun(params: lsp.InitializedParams) -> None:
        server.begin()

    @server.feature(lsp.TEXT_DOCUMENT_DID_OPEN)
    async def opened(params: lsp.DidOpenTextDocumentParams) -> None:
        document = params.text_document
        server.put(document.uri, document.version, document.text)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CHANGE)
    async def changed(params: lsp.DidChangeTextDocumentParams) -> None:
        server.change(params)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CLOSE)
    async def closed(params: lsp.DidCloseTextDocumentParams) -> None:
        server.close(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_SAVE)
    async def saved(params: lsp.DidSaveTextDocumentParams) -> None:
        server.look_again(params.text_document.uri)

    @server.feature(lsp.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    async def changed_on_disk(params: lsp.DidChangeWatchedFilesParams) -> None:
        for change in params.changes:
            server.look_again(change.uri)

    @server.feature(lsp.SHUTDOWN)
    def ended(*_: object) -> None:
        server.stop()
