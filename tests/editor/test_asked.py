"""Places of a journal go in as an editor sends them; what the server says of them comes out."""

from __future__ import annotations

import asyncio

import pytest
import pytest_asyncio
from lsprotocol import types as lsp
from tests.editor.conftest import DIARY

pytestmark = pytest.mark.asyncio(loop_scope="session")


@pytest_asyncio.fixture(scope="module", loop_scope="session", autouse=True)
async def opened(editor):
    editor.open("diary.txt")
    editor.open("cards.txt")
    await editor.problems("diary.txt")
    await editor.settled()
    yield
    editor.close_all()


async def hovered(editor, line: int, character: int) -> str:
    params = lsp.HoverParams(**editor.at("diary.txt", line, character))
    found = await editor.client.text_document_hover_async(params)
    return found.contents.value if found is not None else ""


async def test_hover_on_a_tree_says_where_it_is_what_is_on_it_and_what_is_due_on_that_day(editor):
    said = await hovered(editor, 2, 1)
    assert "**hoshi** – trident maple" in said
    assert "6 March 2027: here, in yard, in pot tray-1" in said
    assert "- on it: wire 2.5 mm Al on left 2, since 6 March 2027" in said
    assert "due: check wire on left 2" in said


async def test_hover_on_an_act_says_what_it_means_and_what_follows_with_dates(editor):
    said = await hovered(editor, 4, 4)
    assert said.startswith("**wired** (wire) – Branch and leaf work, done to a tree")
    assert "From this line:" in said
    assert "- hoshi: check wire on left 2, " in said


async def test_hover_on_a_measure_says_it_in_other_units(editor):
    """2 cm = 20 mm = 0.02 m = 0.787 inch (25.4 mm) = 0.0656 foot (304.8 mm)."""
    said = await hovered(editor, 3, 27)
    assert "20 mm = 0.02 m = 0.787 inch = 0.0656 foot" in said and "NIST SP 811" in said


async def test_hover_on_an_own_word_says_what_it_stands_for(editor):
    said = await hovered(editor, 16, 3)
    assert said.startswith("**uekae** stands for `repotted`")


async def test_hover_on_a_rough_day(editor):
    assert await hovered(editor, 0, 3) == "Saturday, 6 March 2027"


async def test_go_to_a_card_and_to_an_own_word(editor):
    async def card(line: int, character: int) -> tuple[str, int, int, int]:
        params = lsp.DefinitionParams(**editor.at("diary.txt", line, character))
        found = await editor.client.text_document_definition_async(params)
        where = found.range
        return (found.uri.rpartition("/")[2], where.start.line, where.start.character,
                where.end.character)  # fmt: skip

    assert await card(2, 0) == ("cards.txt", 10, 5, 10)
    assert await card(12, 8) == ("cards.txt", 4, 6, 12)
    # In free words, too.
    assert await card(5, 29) == ("cards.txt", 14, 5, 9)
    assert await card(16, 4) == ("cards.txt", 24, 2, 7)


async def test_all_mentions_in_every_file_those_in_free_words_too(editor):
    context = lsp.ReferenceContext(include_declaration=True)
    params = lsp.ReferenceParams(context=context, **editor.at("diary.txt", 7, 8))
    found = await editor.client.text_document_references_async(params)
    assert sorted((one.uri.rpartition("/")[2], one.range.start.line) for one in found) == [
        ("cards.txt", 14), ("diary.txt", 5), ("diary.txt", 7),
    ]  # fmt: skip


async def test_the_outline_is_by_day_and_tree(editor):
    which = lsp.TextDocumentIdentifier(editor.uri("diary.txt"))
    found = await editor.client.text_document_document_symbol_async(lsp.DocumentSymbolParams(which))
    assert [(day.name, [one.name for one in day.children]) for day in found] == [
        ("2027-03-06", ["hoshi", "hoshi, yuki"]),
        ("2027-05-20", ["all in tunnel except kōyō", "kōyō"]),
    ]
    assert (found[0].range.start.line, found[0].range.end.line) == (0, 8)


async def test_cards_are_found_by_a_piece_of_their_name_without_marks(editor):
    found = await editor.client.workspace_symbol_async(lsp.WorkspaceSymbolParams("koy"))
    assert [(one.name, one.container_name) for one in found] == [("kōyō", "tree")]


async def test_pages_blocks_and_cards_fold(editor):
    which = lsp.TextDocumentIdentifier(editor.uri("diary.txt"))
    found = await editor.client.text_document_folding_range_async(lsp.FoldingRangeParams(which))
    assert [(one.start_line, one.end_line) for one in found] == [
        (0, 8), (2, 5), (7, 8), (10, 17), (12, 13), (15, 17),
    ]  # fmt: skip


async def test_each_word_has_its_colour_counted_in_utf_16(editor):
    which = lsp.TextDocumentIdentifier(editor.uri("diary.txt"))
    where = lsp.Range(lsp.Position(15, 0), lsp.Position(17, 99))
    params = lsp.SemanticTokensRangeParams(which, where)
    found = await editor.client.text_document_semantic_tokens_range_async(params)
    legend = editor.can.semantic_tokens_provider.legend.token_types
    line = start = 0
    seen = []
    for n in range(0, len(found.data), 5):
        down, right, length, sort, _ = found.data[n : n + 5]
        start = right if down else start + right
        line += down
        seen.append((line, start, length, legend[sort]))
    assert seen == [
        (15, 0, 4, "variable"),
        (16, 2, 5, "macro"),
        (17, 2, 7, "function"), (17, 14, 4, "property"), (17, 19, 4, "enumMember"),
        (17, 24, 2, "enumMember"),
    ]  # fmt: skip


async def test_formatting_lines_up_and_touches_no_other_line(editor):
    text = DIARY.replace("  noted       hoshi", "  noted hoshi")
    editor.replace("diary.txt", text)
    which = lsp.TextDocumentIdentifier(editor.uri("diary.txt"))
    params = lsp.DocumentFormattingParams(which, lsp.FormattingOptions(2, True))
    found = await editor.client.text_document_formatting_async(params)
    editor.replace("diary.txt", DIARY)
    assert [(one.range.start.line, one.new_text) for one in found] == [
        (5, "  noted       hoshi leans on yuki 🌱")
    ]


async def test_beside_each_line_stands_what_it_led_to_and_above_it_why(editor):
    await editor.problems("diary.txt", 0)
    which = lsp.TextDocumentIdentifier(editor.uri("diary.txt"))
    where = lsp.Range(lsp.Position(0, 0), lsp.Position(20, 0))
    found: list[lsp.InlayHint] = []
    for _ in range(200):
        found = await editor.client.text_document_inlay_hint_async(
            lsp.InlayHintParams(which, where)
        )
        if len(found) >= 4:
            break
        await asyncio.sleep(0.05)
    by_line = {one.position.line: one.label for one in found}
    assert by_line[4].startswith("→ check wire on left")
    assert sorted(by_line) == [3, 4, 16, 17]
    lenses = await editor.client.text_document_code_lens_async(lsp.CodeLensParams(which))
    assert 4 in [one.range.start.line for one in lenses]
    command = next(one.command for one in lenses if one.range.start.line == 4)
    assert command.title.startswith("why: ")
    said = await editor.client.workspace_execute_command_async(
        lsp.ExecuteCommandParams(command.command, command.arguments)
    )
    assert "because 6 March 2027: wired 2.5 mm Al on left 2, on left 3. (diary.txt:5)" in said
