"""A text goes in as it is typed; its problems come out, at their places in UTF-16."""

from __future__ import annotations

import pytest
import pytest_asyncio
from lsprotocol import types as lsp
from tests.editor.conftest import DIARY

pytestmark = pytest.mark.asyncio(loop_scope="session")


@pytest_asyncio.fixture(scope="module", loop_scope="session", autouse=True)
async def closed(editor):
    yield
    editor.close_all()


def shown(found: list[lsp.Diagnostic]) -> list[tuple[object, int, int, int]]:
    return [
        (one.code, one.range.start.line, one.range.start.character, one.range.end.character)
        for one in found
    ]


async def test_a_sound_journal_has_no_problems(editor) -> None:
    editor.open("diary.txt")
    assert await editor.problems("diary.txt") == []


async def test_a_slip_is_told_as_it_is_typed_at_its_place_in_utf_16(editor) -> None:
    """The emoji takes two units; what stands behind it is counted by them."""
    text = DIARY.replace("hoshi, yuki\n", "hoshi, yuko\n").replace("soap 🌱", "soap 🌱, dosis 1 x")
    editor.replace("diary.txt", text)
    found = await editor.problems("diary.txt", 2)
    assert shown(found) == [
        ("unknown-handle", 7, 7, 11),
        ("unknown-detail", 17, 28, 37),
    ]
    assert found[0].source == "backbud" and found[0].severity == lsp.DiagnosticSeverity.Error
    assert "nothing is called “yuko”" in found[0].message
    editor.replace("diary.txt", DIARY)
    assert await editor.problems("diary.txt", 0) == []


async def test_what_only_the_history_tells_comes_after(editor) -> None:
    editor.replace(
        "diary.txt", f"{DIARY}\n2027-05-21\n\nhoshi\n  died\n\n2027-05-22\n\nhoshi\n  fed\n"
    )
    found = await editor.problems("diary.txt", 1)
    assert shown(found) == [("not-here", 27, 2, 5)]
    editor.replace("diary.txt", DIARY)
    assert await editor.problems("diary.txt", 0) == []
