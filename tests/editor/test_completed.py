"""What was typed so far goes in; what is offered comes out, what fits best first."""

from __future__ import annotations

import asyncio

import pytest
import pytest_asyncio
from lsprotocol import types as lsp
from tests.editor.conftest import CARDS, DIARY

pytestmark = pytest.mark.asyncio(loop_scope="session")
LINES = DIARY.count("\n")


@pytest_asyncio.fixture(scope="module", loop_scope="session", autouse=True)
async def opened(editor):
    editor.open("diary.txt")
    editor.open("cards.txt")
    await editor.problems("diary.txt")
    await editor.settled()
    yield
    editor.close_all()


async def offered(editor, more: str, name: str = "diary.txt") -> list[str]:
    """What is offered at the end of these lines below the text."""
    text = (DIARY if name == "diary.txt" else CARDS) + more
    editor.replace(name, text)
    last = text.split("\n")[-1]
    params = lsp.CompletionParams(**editor.at(name, text.count("\n"), len(last)))
    found = await editor.client.text_document_completion_async(params)
    return [one.label for one in found.items]


DEPARTED = "\n2027-05-21\n\nhoshi\n  died\n\n2027-05-22\n\n"


async def test_who_was_here_on_that_day_comes_first(editor):
    editor.replace("diary.txt", DIARY + DEPARTED)
    await asyncio.sleep(1.0)
    first = await offered(editor, DEPARTED)
    assert first[:1] == ["2027-06-01"]
    trees = [one for one in first if one in ("hoshi", "yuki", "kōyō")]
    assert trees == ["kōyō", "yuki", "hoshi"]
    # On the day before, it was here.
    early = await offered(editor, "\n2027-05-20\n\n")
    assert [one for one in early if one in ("hoshi", "yuki", "kōyō")] == ["hoshi", "kōyō", "yuki"]


async def test_a_handle_is_found_without_its_marks(editor):
    assert (await offered(editor, "\n2027-05-22\n\nhoshi, ko"))[:1] == ["kōyō"]


async def test_places_people_and_kinds_behind_all(editor):
    page = "\n2027-05-22\n\n"
    assert await offered(editor, f"{page}all in t") == ["tunnel"]
    assert await offered(editor, f"{page}all of ") == ["marrow", "quill"]
    assert await offered(editor, f"{page}all sat") == ["satsuki azalea"]


async def test_acts_that_make_sense_for_the_tree(editor):
    editor.replace("diary.txt", DIARY)
    await asyncio.sleep(0.6)
    tree = await offered(editor, "\n2027-05-22\n\nhoshi\n  un")
    # There is wire on it, and nothing else that could come off.
    assert tree[0] == "unwired"
    # Yuki was never wired: what it is not wanted for comes behind all that may be.
    sensible = await offered(editor, "\n2027-05-22\n\nyuki\n  w")
    assert "watered" in sensible
    assert "unwired" in (await offered(editor, "\n2027-05-22\n\nyuki\n  un"))
    pot = await offered(editor, "\n2027-05-22\n\ntray-1\n  ")
    assert "repotted" not in pot and pot


async def test_details_units_handles_and_parts(editor):
    page = "\n2027-05-22\n\nhoshi\n  "
    assert "mix" in await offered(editor, f"{page}repotted  ")
    assert await offered(editor, f"{page}repotted  mix m") == ["maple"]
    assert (await offered(editor, f"{page}moved  t"))[:1] == ["tunnel"]
    assert (await offered(editor, f"{page}repotted  into "))[:2] == ["tray-1", "tray-2"]
    assert (await offered(editor, f"{page}wired  2.5 m"))[:2] == ["m", "mm"]
    assert (await offered(editor, f"{page}unwired  on "))[:2] == ["left 2", "left 3"]
    assert "repot" in await offered(editor, f"{page}planned  ")
    assert await offered(editor, f"{page}repotted  same pot, by q") == ["quill"]
    # What was said is not said again.
    assert "same pot" not in await offered(editor, f"{page}repotted  same pot, ")


async def test_nothing_is_offered_in_free_words(editor):
    page = "\n2027-05-22\n\nhoshi\n  "
    assert await offered(editor, f"{page}noted  ho") == []
    assert await offered(editor, f"{page}watered  -- ho") == []


async def test_labels_of_a_card_and_their_values(editor):
    card = "\ntree suzume\n  "
    labels = await offered(editor, f"{card}kind  ginkgo\n  ", "cards.txt")
    assert "trunk" in labels and "kind" not in labels
    assert await offered(editor, f"{card}place  t", "cards.txt") == ["tunnel"]
    assert "trident maple" in await offered(editor, f"{card}kind  tri", "cards.txt")
    assert await offered(editor, f"{card}strength  w", "cards.txt") == ["weak"]
