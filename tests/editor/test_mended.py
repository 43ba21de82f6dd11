"""Slips go in; the fixes that are offered come out, as versioned edits, and mend them."""

from __future__ import annotations

import pytest
import pytest_asyncio
from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcException
from tests.editor.conftest import CARDS, DIARY

pytestmark = pytest.mark.asyncio(loop_scope="session")


@pytest_asyncio.fixture(scope="module", loop_scope="session", autouse=True)
async def opened(editor):
    editor.open("diary.txt")
    await editor.problems("diary.txt")
    await editor.settled()
    yield
    editor.close_all()


async def slipped(editor, old: str, new: str, count: int = 1) -> str:
    text = DIARY.replace(old, new)
    assert text != DIARY
    editor.replace("diary.txt", DIARY)
    await editor.problems("diary.txt", 0)
    editor.replace("diary.txt", text)
    await editor.problems("diary.txt", count)
    return text


async def test_the_nearest_word(editor):
    await slipped(editor, "same pot, 2 cm", "sam pot, 2 cm")
    found = (await editor.fixes("diary.txt", 3))["Write “same pot”"]
    assert found.is_preferred
    assert editor.after(found.edit) == {"diary.txt": DIARY}


async def test_the_nearest_handle_behind_an_accent(editor):
    text = await slipped(editor, "except kōyō", "except kōyu")
    found = (await editor.fixes("diary.txt", 12))["Write “kōyō”"]
    assert editor.after(found.edit) == {"diary.txt": text.replace("kōyu", "kōyō")}


async def test_a_missing_card_goes_to_the_file_of_its_kind(editor):
    await slipped(editor, "hoshi, yuki\n", "hoshi, suzume\n")
    found = (await editor.fixes("diary.txt", 7))["Give it a card: tree suzume (in cards.txt)"]
    assert editor.after(found.edit) == {"cards.txt": f"{CARDS}\ntree suzume\n"}


async def test_it_is_refused_where_the_disk_holds_something_else_than_was_read(editor):
    await slipped(editor, "hoshi, yuki\n", "hoshi, suzume\n")
    cards = editor.folder / "cards.txt"
    cards.write_text(f"{CARDS}\n# somebody else wrote this\n")
    found = await editor.fixes("diary.txt", 7)
    cards.write_text(CARDS)
    assert [title for title in found if "card" in title] == []


async def test_an_own_word_is_taught_from_the_day_of_the_page_on(editor):
    await slipped(editor, "  weeded", "  weedet")
    found = await editor.fixes("diary.txt", 13)
    title = "Teach “weedet” as your own word for “weeded” (in cards.txt)"
    assert editor.after(found[title].edit) == {"cards.txt": f"{CARDS}  weedet  weeded\n"}


async def test_a_line_is_held_as_noted(editor):
    text = await slipped(editor, "  weeded", "  weedet")
    found = (await editor.fixes("diary.txt", 13))["Keep the line as noted"]
    assert editor.after(found.edit) == {"diary.txt": text.replace("weedet", "noted  weedet")}


async def test_a_heading_becomes_an_iso_date_one_fix_for_each_day_it_may_mean(editor):
    text = await slipped(editor, "2027-05-20", "20 May 2027")
    found = await editor.fixes("diary.txt", 10)
    assert found["Write 2027-05-20"].is_preferred
    assert editor.after(found["Write 2027-05-20"].edit) == {
        "diary.txt": text.replace("20 May 2027", "2027-05-20")
    }
    await slipped(editor, "2027-05-20", "5/6/2027")
    found = await editor.fixes("diary.txt", 10)
    assert [t for t in found if t.startswith("Write")] == ["Write 2027-06-05", "Write 2027-05-06"]
    assert not any(one.is_preferred for one in found.values())


async def test_an_act_at_the_edge_goes_in(editor):
    text = await slipped(editor, "  weeded", "weeded", 2)
    found = (await editor.fixes("diary.txt", 13))["Put two spaces in front of it"]
    assert editor.after(found.edit) == {"diary.txt": text.replace("weeded", "  weeded")}


async def renamed(editor, line: int, character: int, new: str) -> dict[str, str]:
    params = lsp.RenameParams(new_name=new, **editor.at("diary.txt", line, character))
    return editor.after(await editor.client.text_document_rename_async(params))


async def test_a_handle_is_renamed_in_all_files_and_stays_alive(editor):
    editor.replace("diary.txt", DIARY)
    await editor.problems("diary.txt", 0)
    assert await renamed(editor, 12, 21, "kouyou") == {
        "diary.txt": DIARY.replace("kōyō", "kouyou"),
        "cards.txt": CARDS.replace("tree kōyō\n", "tree kouyou\n  formerly kōyō\n"),
    }
    # What free words say of it stays as it was written.
    assert await renamed(editor, 7, 8, "snow") == {
        "diary.txt": DIARY.replace("hoshi, yuki", "hoshi, snow"),
        "cards.txt": CARDS.replace("tree yuki\n", "tree snow\n  formerly yuki\n"),
    }


async def test_an_own_word_is_renamed(editor):
    assert await renamed(editor, 16, 3, "ue-kae") == {
        "diary.txt": DIARY.replace("uekae", "ue-kae"),
        "cards.txt": CARDS.replace("uekae", "ue-kae"),
    }


@pytest.mark.parametrize(
    ("new", "why"),
    [
        ("hoshi", "“hoshi” is a tree already (cards.txt:11)."),
        ("tree", "“tree” is a word of the language and cannot be a handle."),
        ("Yuki", "“Yuki” has a capital letter."),
    ],
)
async def test_a_handle_that_cannot_be_is_refused(editor, new: str, why: str):
    with pytest.raises(JsonRpcException) as error:
        await renamed(editor, 7, 8, new)
    assert error.value.message == why


async def test_a_rename_is_refused_where_the_disk_differs(editor):
    cards = editor.folder / "cards.txt"
    cards.write_text(f"{CARDS}\n# somebody else wrote this\n")
    with pytest.raises(JsonRpcException) as error:
        await renamed(editor, 7, 8, "snow")
    cards.write_text(CARDS)
    assert error.value.message.startswith("cards.txt was changed on the disk")
