"""A language client that is not ours asks `backbud editor` about a large journal, by the clock.

Not part of the suite: `pytest tests/benchmarks/bench_editor.py -s` (ACTS=20000 for a smaller one).
Each figure is the middle one of several, in milliseconds as whoever types waits for it, and beside
it what the server's process worked for it: on a busy machine the second is the one to look at.
"""

from __future__ import annotations

import asyncio
import os
import statistics
import sys
import time
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import pytest
from generate import generate
from lsprotocol import types as lsp
from pytest_lsp import LanguageClient, make_test_lsp_client

ACTS = int(os.environ.get("ACTS", "100000"))
ROUNDS = int(os.environ.get("ROUNDS", "7"))
BACKBUD = str(Path(sys.executable).with_name("backbud"))
REQUEST_LIMIT_MS, KEY_LIMIT_MS, FOLLOWS_LIMIT_MS = 50.0, 300.0, 1000.0
TICKS = os.sysconf("SC_CLK_TCK")
PATIENCE_S = 600.0


class Timed:
    """A client with a large journal; asks, and takes down how long it took."""

    def __init__(self, client: LanguageClient, folder: Path) -> None:
        self.client, self.folder = client, folder
        self.worked: dict[str, float] = {}
        self.page = max(folder.glob("diary/**/*.txt"))
        self.text = self.page.read_text("utf-8")
        self.version = 1
        self.which = lsp.TextDocumentIdentifier(self.page.as_uri())

    def worked_ms(self) -> float:
        """What the server's process has worked so far."""
        process = self.client._server
        fields = Path(f"/proc/{process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) * 1000 / TICKS

    def open(self) -> None:
        item = lsp.TextDocumentItem(self.which.uri, "backbud", 1, self.text)
        self.client.text_document_did_open(lsp.DidOpenTextDocumentParams(item))

    def type(self, line: int, character: int, text: str, over: int = 0) -> None:
        self.version += 1
        begin, end = lsp.Position(line, character), lsp.Position(line, character + over)
        change = lsp.TextDocumentContentChangePartial(lsp.Range(begin, end), text)
        which = lsp.VersionedTextDocumentIdentifier(self.version, self.which.uri)
        self.client.text_document_did_change(lsp.DidChangeTextDocumentParams(which, [change]))

    async def until(self, holds: Callable[[], bool]) -> float:
        """Milliseconds until something holds."""
        began = time.perf_counter()
        while not holds():
            if time.perf_counter() - began > PATIENCE_S:
                raise AssertionError("it never came")
            await asyncio.sleep(0.002)
        return (time.perf_counter() - began) * 1000

    async def middle(self, what: str, ask: Callable[[int], Awaitable[Any]], limit: float) -> None:
        took, before = [], self.worked_ms()
        for n in range(ROUNDS):
            began = time.perf_counter()
            await ask(n)
            took.append((time.perf_counter() - began) * 1000)
            await asyncio.sleep(0.05)
        worked = (self.worked_ms() - before) / ROUNDS
        middle = statistics.median(took)
        self.worked[what] = min(worked, middle)
        over = "" if middle < limit else "  OVER"
        print(f"  {what:<44} {middle:7.0f}  (worst {max(took):6.0f}; worked {worked:6.0f}){over}")

    async def quiet(self) -> None:
        """Until the server rests."""
        before = -1.0
        while (now := self.worked_ms()) - before > 10:
            before = now
            await asyncio.sleep(0.4)


@pytest.mark.asyncio
async def test_a_large_journal(tmp_path: Path) -> None:
    folder = tmp_path / "journal"
    generate(folder, ACTS)
    client = make_test_lsp_client()

    @client.feature(lsp.WORKSPACE_INLAY_HINT_REFRESH)
    def refreshed(*_: object) -> None:
        return None

    config = str(tmp_path / "settings")
    await client.start_io(BACKBUD, "editor", "--on", "2026-11-20",
                          env={**os.environ, "BACKBUD_CONFIG": config})  # fmt: skip
    params = lsp.InitializeParams(lsp.ClientCapabilities(), root_uri=folder.as_uri())
    await client.initialize_session(params)
    timed = Timed(client, folder)
    began = time.perf_counter()
    timed.open()
    first = await timed.until(lambda: timed.which.uri in client.diagnostics)
    await timed.quiet()
    whole = (time.perf_counter() - began) * 1000
    print(f"\n{ACTS} acts; opened, first problems {first:.0f} ms, at rest {whole:.0f} ms "
          f"(worked {timed.worked_ms():.0f} ms)")  # fmt: skip
    await ask_all(timed)
    await client.shutdown_session()
    slow = {what: ms for what, ms in timed.worked.items() if ms > limit_of(what)}
    assert not slow


def limit_of(what: str) -> float:
    if what.startswith("follows"):
        return FOLLOWS_LIMIT_MS
    return KEY_LIMIT_MS if what.startswith("key") else REQUEST_LIMIT_MS


async def ask_all(timed: Timed) -> None:
    client, which = timed.client, timed.which
    lines = timed.text.split("\n")
    subject = next(n for n, line in enumerate(lines) if n and line[:1].isalpha()
                   and "," not in line and "all" not in line)  # fmt: skip
    handle = lines[subject]
    acts = [n for n, line in enumerate(lines) if line.startswith("  ") and line[2] != " "]
    wired = next((n for n in acts if lines[n].split()[0] in ("wired", "repotted", "fed")), acts[0])
    measured = next(n for n in acts if " cm" in lines[n] or " L" in lines[n] or " mm" in lines[n])

    def at(line: int, character: int) -> dict[str, Any]:
        return {"text_document": which, "position": lsp.Position(line, character)}

    # What is typed stands at the end, on a page of its own.
    end, page = len(lines) - 1, f"\n2026-11-19\n\n{handle}\n  "

    async def completed(text: str) -> None:
        last = text.split("\n")[-1]
        where = lsp.CompletionParams(**at(end + text.count("\n"), len(last)))
        await client.text_document_completion_async(where)

    for what, text in (
        ("complete a handle", "\n2026-11-19\n\n"),
        ("complete an act", page),
        ("complete a detail", f"{page}repotted  mix m"),
    ):
        timed.type(end, 0, text)
        await timed.quiet()
        await timed.middle(what, lambda n, text=text: completed(text), REQUEST_LIMIT_MS)
        last = text.split("\n")[-1]
        timed.version += 1
        begin, stop = lsp.Position(end, 0), lsp.Position(end + text.count("\n"), len(last))
        change = lsp.TextDocumentContentChangePartial(lsp.Range(begin, stop), "")
        again = lsp.VersionedTextDocumentIdentifier(timed.version, which.uri)
        client.text_document_did_change(lsp.DidChangeTextDocumentParams(again, [change]))
        await timed.quiet()

    async def asked(ask: Callable[[Any], Awaitable[Any]], params: Any) -> None:
        await ask(params)

    hover = client.text_document_hover_async
    await hover(lsp.HoverParams(**at(subject, 1)))
    requests: list[tuple[str, Callable[[Any], Awaitable[Any]], Any]] = [
        ("hover on a tree", hover, lsp.HoverParams(**at(subject, 1))),
        ("hover on a measure", hover, lsp.HoverParams(**at(measured, lines[measured].find(" cm")
                                                          if " cm" in lines[measured] else 20))),
        ("go to a card", client.text_document_definition_async,
         lsp.DefinitionParams(**at(subject, 1))),
        ("all mentions", client.text_document_references_async,
         lsp.ReferenceParams(context=lsp.ReferenceContext(True), **at(subject, 1))),
        ("mentions in this file", client.text_document_document_highlight_async,
         lsp.DocumentHighlightParams(**at(subject, 1))),
        ("outline", client.text_document_document_symbol_async,
         lsp.DocumentSymbolParams(which)),
        ("find a card", client.workspace_symbol_async, lsp.WorkspaceSymbolParams(handle[:4])),
        ("fold", client.text_document_folding_range_async, lsp.FoldingRangeParams(which)),
        ("colours of the file", client.text_document_semantic_tokens_full_async,
         lsp.SemanticTokensParams(which)),
        ("format", client.text_document_formatting_async,
         lsp.DocumentFormattingParams(which, lsp.FormattingOptions(2, True))),
        ("inlays of a screen", client.text_document_inlay_hint_async,
         lsp.InlayHintParams(which, lsp.Range(lsp.Position(0, 0), lsp.Position(50, 0)))),
        ("lenses", client.text_document_code_lens_async, lsp.CodeLensParams(which)),
        ("rename a handle", client.text_document_rename_async,
         lsp.RenameParams(new_name="quite-new", **at(subject, 1))),
    ]  # fmt: skip
    for what, ask, params in requests:
        await ask(params)
        await timed.quiet()
        await timed.middle(what, lambda n, ask=ask, p=params: asked(ask, p), REQUEST_LIMIT_MS)
    await keys(timed, end)
    await follows(timed, acts, wired)


async def keys(timed: Timed, end: int) -> None:
    """A unit that no watering takes is typed on the last line, and mended again."""
    client = timed.client

    def wrong() -> bool:
        found = client.diagnostics[timed.which.uri]
        return any(one.range.start.line == end + 4 for one in found)

    timed.type(end, 0, "\n2026-11-19\n\nall in yard\n  watered 7 cL")
    await timed.quiet()

    async def press(n: int) -> None:
        if n % 2:
            timed.type(end + 4, 13, "L", 1)
        else:
            timed.type(end + 4, 13, "m", 1)
        await timed.until(lambda: wrong() is not bool(n % 2))

    assert ROUNDS % 2
    await timed.middle("key to problems", press, KEY_LIMIT_MS)
    await timed.quiet()


async def follows(timed: Timed, acts: list[int], wired: int) -> None:
    """What follows from lines that nobody has asked about yet."""
    client = timed.client

    async def ask(n: int) -> None:
        line = acts[(acts.index(wired) + 3 * n) % len(acts)]
        where = {"text_document": timed.which, "position": lsp.Position(line, 4)}
        await client.text_document_hover_async(lsp.HoverParams(**where))

    await timed.middle("follows from a line not asked before", ask, FOLLOWS_LIMIT_MS)
