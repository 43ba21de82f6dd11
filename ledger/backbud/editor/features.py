"""Names what the language server can be asked for, and who answers."""

from __future__ import annotations

from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcException

from backbud.editor import led_to
from backbud.editor.completion import completed
from backbud.editor.edits import EditRefused
from backbud.editor.fixes.every import actions_for
from backbud.editor.hover import hover
from backbud.editor.mentions import definition, highlights, references
from backbud.editor.rename import may_rename, renaming
from backbud.editor.semantic import LEGEND, semantic_tokens
from backbud.editor.server import EditorServer
from backbud.editor.symbols import cards_named, folds_of, outline_of
from backbud.editor.tidying import tidied
from backbud_grammar.tidy import TidyError

# A request that is refused for a reason that is said (LSP 3.17).
REQUEST_FAILED = -32803


def add_features(server: EditorServer) -> None:
    """Let an editor ask for all of it."""
    _add_texts(server)
    _add_writing(server)
    _add_finding(server)
    _add_showing(server)
    _add_led_to(server)


def _refused(why: Exception) -> JsonRpcException:
    return JsonRpcException(str(why), REQUEST_FAILED)


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


def _add_writing(server: EditorServer) -> None:
    @server.feature(
        lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=[" ", ","])
    )
    def complete(params: lsp.CompletionParams) -> lsp.CompletionList | None:
        seen = server.seen(params.text_document.uri)
        return completed(*seen, params.position) if seen is not None else None

    @server.feature(
        lsp.TEXT_DOCUMENT_CODE_ACTION, lsp.CodeActionOptions([lsp.CodeActionKind.QuickFix])
    )
    def mend(params: lsp.CodeActionParams) -> list[lsp.CodeAction]:
        seen = server.seen(params.text_document.uri)
        if seen is None:
            return []
        found = actions_for(*seen, params.context.diagnostics, shows_disabled=server.shows_disabled)
        return list(found)

    @server.feature(lsp.TEXT_DOCUMENT_FORMATTING)
    def line_up(params: lsp.DocumentFormattingParams) -> list[lsp.TextEdit]:
        seen = server.seen(params.text_document.uri)
        try:
            return tidied(*seen) if seen is not None else []
        except TidyError as error:
            raise _refused(error) from None

    @server.feature(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def may_be_renamed(
        params: lsp.PrepareRenameParams,
    ) -> lsp.PrepareRenamePlaceholder | None:
        seen = server.seen(params.text_document.uri)
        return may_rename(*seen, params.position) if seen is not None else None

    @server.feature(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def rename(params: lsp.RenameParams) -> lsp.WorkspaceEdit | None:
        seen = server.seen(params.text_document.uri)
        try:
            return renaming(*seen, params.position, params.new_name) if seen is not None else None
        except EditRefused as error:
            raise _refused(error) from None


def _add_finding(server: EditorServer) -> None:
    @server.feature(lsp.TEXT_DOCUMENT_DEFINITION)
    def find_card(params: lsp.DefinitionParams) -> lsp.Location | None:
        seen = server.seen(params.text_document.uri)
        return definition(*seen, params.position) if seen is not None else None

    @server.feature(lsp.TEXT_DOCUMENT_REFERENCES)
    def find_mentions(params: lsp.ReferenceParams) -> list[lsp.Location]:
        seen = server.seen(params.text_document.uri)
        with_card = params.context.include_declaration
        return references(*seen, params.position, with_card=with_card) if seen is not None else []

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_HIGHLIGHT)
    def mark_mentions(params: lsp.DocumentHighlightParams) -> list[lsp.DocumentHighlight]:
        seen = server.seen(params.text_document.uri)
        return highlights(*seen, params.position) if seen is not None else []

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def outline(params: lsp.DocumentSymbolParams) -> list[lsp.DocumentSymbol]:
        seen = server.seen(params.text_document.uri)
        return outline_of(*seen) if seen is not None else []

    @server.feature(lsp.WORKSPACE_SYMBOL)
    def find_things(params: lsp.WorkspaceSymbolParams) -> list[lsp.WorkspaceSymbol]:
        return [one for desk in server.desks.values() for one in cards_named(desk, params.query)]


def _add_showing(server: EditorServer) -> None:
    @server.feature(lsp.TEXT_DOCUMENT_HOVER)
    async def say(params: lsp.HoverParams) -> lsp.Hover | None:
        seen = server.seen(params.text_document.uri)
        return await hover(*seen, params.position) if seen is not None else None

    @server.feature(lsp.TEXT_DOCUMENT_FOLDING_RANGE)
    def fold(params: lsp.FoldingRangeParams) -> list[lsp.FoldingRange]:
        seen = server.seen(params.text_document.uri)
        return folds_of(*seen) if seen is not None else []

    @server.feature(lsp.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL, LEGEND)
    def colour(params: lsp.SemanticTokensParams) -> lsp.SemanticTokens | None:
        seen = server.seen(params.text_document.uri)
        return semantic_tokens(*seen, 0, len(seen[1].lines)) if seen is not None else None

    @server.feature(lsp.TEXT_DOCUMENT_SEMANTIC_TOKENS_RANGE, LEGEND)
    def colour_some(params: lsp.SemanticTokensRangeParams) -> lsp.SemanticTokens | None:
        seen = server.seen(params.text_document.uri)
        first, last = params.range.start.line, params.range.end.line
        return semantic_tokens(*seen, first, last) if seen is not None else None


def _add_led_to(server: EditorServer) -> None:
    @server.feature(lsp.TEXT_DOCUMENT_INLAY_HINT)
    def show_beside(params: lsp.InlayHintParams) -> list[lsp.InlayHint]:
        seen = server.seen(params.text_document.uri)
        if seen is None:
            return []
        found = led_to.inlays(*seen, params.range.start.line, params.range.end.line)
        server.refresh_once_reckoned(seen[0])
        return found

    @server.feature(lsp.TEXT_DOCUMENT_CODE_LENS)
    def show_above(params: lsp.CodeLensParams) -> list[lsp.CodeLens]:
        seen = server.seen(params.text_document.uri)
        return led_to.lenses(*seen) if seen is not None else []

    @server.command(led_to.WHY)
    async def tell_why(uri: str, line: int) -> str:
        seen = server.seen(uri)
        said = await led_to.why(*seen, line) if seen is not None else ""
        server.window_show_message(lsp.ShowMessageParams(lsp.MessageType.Info, said))
        return said

    server.when_read.append(server.refresh)
