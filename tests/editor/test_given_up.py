"""What nobody waits for any more is given up: a request, a replay of an older text."""

from __future__ import annotations

import asyncio
from datetime import date
from pathlib import Path

import pytest
import pytest_asyncio
from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcException
from tests.editor.conftest import DIARY, write_journal

from backbud.editor.desk import READ, Desk, ReadProblems
from backbud.editor.text import OpenText


@pytest_asyncio.fixture(scope="module", loop_scope="session")
async def opened(editor):
    editor.open("diary.txt")
    await editor.problems("diary.txt")
    await editor.settled()
    yield editor
    editor.close_all()


@pytest.mark.asyncio(loop_scope="session")
async def test_a_request_that_waits_for_a_newer_reading_can_be_cancelled(opened) -> None:
    protocol = opened.client.protocol
    opened.replace("diary.txt", DIARY.replace("left 3", "left 4"))
    params = lsp.HoverParams(**opened.at("diary.txt", 4, 4))
    asked = protocol.send_request(lsp.TEXT_DOCUMENT_HOVER, params, msg_id="given-up")
    protocol.notify(lsp.CANCEL_REQUEST, lsp.CancelParams(id="given-up"))
    with pytest.raises(JsonRpcException) as error:
        await asyncio.wait_for(asyncio.wrap_future(asked), 10)
    assert error.value.code == -32800  # RequestCancelled of the protocol


def desk_of(folder: Path, told: list[ReadProblems]) -> Desk:
    """A desk whose thread does not run: each step is taken by hand."""
    write_journal(folder)
    failed: list[str] = []
    desk = Desk(str(folder), lambda: date(2027, 6, 1), told.append, failed.append)
    text = OpenText.of("diary.txt", (folder / "diary.txt").as_uri(), 1, DIARY)
    desk.texts = {"diary.txt": text}
    return desk


def test_a_replay_ends_once_a_newer_text_waits(tmp_path: Path) -> None:
    told: list[ReadProblems] = []
    desk = desk_of(tmp_path, told)
    desk._read()
    desk.worker.ask("read", lambda: None, READ)
    desk._stand()
    assert desk.standing is None and [one.whole for one in told] == [False]
    desk.worker.stop()
    desk.worker._stopped = False
    desk._stand()
    assert desk.standing is not None and [one.whole for one in told] == [False, True]


def test_what_was_replayed_once_serves_until_the_next_is_done(tmp_path: Path) -> None:
    desk = desk_of(tmp_path, [])
    desk._read()
    desk._stand()
    before = desk.standing
    desk.texts = {"diary.txt": desk.texts["diary.txt"].changed(
        [lsp.TextDocumentContentChangeWholeDocument(f"{DIARY}  watered\n")], 2
    )}  # fmt: skip
    desk._read()
    assert desk.standing is before and not desk.is_current(desk.texts["diary.txt"])
    desk._stand()
    assert desk.is_current(desk.texts["diary.txt"])
