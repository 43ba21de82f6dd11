"""A journal of a stranger, and files as other systems write them, are opened in an editor."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
import pytest_asyncio
from lsprotocol import types as lsp
from tests.editor.conftest import DIARY, begun, ended, write_journal

pytestmark = pytest.mark.asyncio(loop_scope="session")

PLUGIN = """\
from pathlib import Path
Path(__file__).parent.joinpath("it_ran").write_text("here")
"""
# What git would run if it were asked for anything here.
GIT_CONFIG = "[core]\n\trepositoryformatversion = 0\n\tfsmonitor = touch git_ran\n"


def everything_in(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest_asyncio.fixture(scope="module", loop_scope="session")
async def stranger(tmp_path_factory, settings_of_nobody):
    folder = tmp_path_factory.mktemp("stranger")
    write_journal(folder, DIARY.replace("  weeded", "  weedet"))
    for name, text in {"plugins/acts.py": PLUGIN, ".git/config": GIT_CONFIG,
                       ".git/HEAD": "ref: refs/heads/main\n"}.items():  # fmt: skip
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text)
    (folder / "windows.txt").write_bytes(
        "\ufeff2027-05-21\r\n\r\nhoshi\r\n  noted\t🌱 café\r\n  wartered  2 L\r\n".encode()
    )
    one = await begun(folder)
    yield one
    await ended(one)


async def test_nothing_is_run_and_nothing_is_written(stranger):
    before = everything_in(stranger.folder)
    stranger.open("diary.txt")
    stranger.open("windows.txt")
    await stranger.problems("diary.txt", 1)
    fixes = await stranger.fixes("diary.txt", 13)
    which = lsp.TextDocumentIdentifier(stranger.uri("diary.txt"))
    client = stranger.client
    await client.text_document_hover_async(lsp.HoverParams(**stranger.at("diary.txt", 2, 1)))
    await client.text_document_rename_async(
        lsp.RenameParams(new_name="snow", **stranger.at("diary.txt", 7, 8))
    )
    await client.text_document_formatting_async(
        lsp.DocumentFormattingParams(which, lsp.FormattingOptions(2, True))
    )
    stranger.client.text_document_did_save(lsp.DidSaveTextDocumentParams(which))
    await asyncio.sleep(0.6)
    assert "Keep the line as noted" in fixes
    assert everything_in(stranger.folder) == before
    assert [one.message for one in client.messages] == [
        "Left out: 1 plugin file in plugins/, which you have not trusted. "
        f"Look at it: backbud trust {stranger.folder}"
    ]


async def test_crlf_a_mark_of_byte_order_tabs_and_emoji(stranger):
    """`wartered` stands behind two blanks on its line; the fix leaves every line end as it is."""
    found = await stranger.problems("windows.txt", 1)
    where = found[0].range
    assert (found[0].code, where.start.line, where.start.character, where.end.character) == (
        "unknown-act", 4, 2, 10,
    )  # fmt: skip
    text = stranger.texts["windows.txt"]
    fix = (await stranger.fixes("windows.txt", 4))["Write “watered”"]
    assert stranger.after(fix.edit) == {"windows.txt": text.replace("wartered", "watered")}
    noted = (await stranger.fixes("windows.txt", 4))["Keep the line as noted"]
    assert stranger.after(noted.edit) == {
        "windows.txt": text.replace("wartered", "noted  wartered")
    }


async def test_a_place_behind_an_emoji_and_an_accent(stranger):
    """🌱 takes two units of UTF-16, é one: hoshi stands from unit 19 on."""
    text = "2027-05-21\n\nyuki\n  noted  🌱 é like hoshi\n"
    stranger.open("new.txt", text)
    await stranger.problems("new.txt", 0)
    for character in (19, 24):
        params = lsp.DefinitionParams(**stranger.at("new.txt", 3, character))
        found = await stranger.client.text_document_definition_async(params)
        assert found.range.start == lsp.Position(10, 5)
    params = lsp.DefinitionParams(**stranger.at("new.txt", 3, 15))
    assert await stranger.client.text_document_definition_async(params) is None


async def test_what_is_typed_within_a_line_is_counted_in_utf_16(stranger):
    """Behind `noted  🌱 ` (two blanks, 5 letters, two blanks, two units, a blank: 12)."""
    stranger.open("typed.txt", "2027-05-21\n\nyuki\n  noted  🌱 é\n  fedd\n")
    await stranger.problems("typed.txt", 1)
    stranger.type("typed.txt", 4, 5, "", over=1)
    assert await stranger.problems("typed.txt", 0) == []
    stranger.type("typed.txt", 3, 12, "\n  wattered", over=1)
    found = await stranger.problems("typed.txt", 1)
    assert found[0].range.start == lsp.Position(4, 2)


async def test_a_file_outside_any_journal_is_left_alone(stranger, tmp_path_factory):
    other = tmp_path_factory.mktemp("other") / "notes.txt"
    item = lsp.TextDocumentItem(other.as_uri(), "text", 1, "2027-05-21\n\nnobody\n  watred\n")
    stranger.client.text_document_did_open(lsp.DidOpenTextDocumentParams(item))
    await asyncio.sleep(0.3)
    assert other.as_uri() not in stranger.client.diagnostics
