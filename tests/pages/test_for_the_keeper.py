"""A tree's page marks lines that are for the keeper alone; no name doubles a word of a title."""

from __future__ import annotations

import re
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from backbud.make import make

HOME = "place yard\n  latitude 52 N\nperson marrow\n"


@pytest.fixture
def made(tmp_path: Path):
    """Make a journal: the text of a page or feed by name, without its tags."""

    def write(text: str, name: str) -> str:
        (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\ncurrency = "EUR"\n')
        (tmp_path / "a.txt").write_text(HOME + text)
        make(str(tmp_path), date(2026, 6, 1))
        page = (tmp_path / "made" / name).read_text()
        return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())

    return write


@pytest.mark.parametrize(
    ("line", "is_marked"),
    [
        ("private   the left one is weak", True),
        ("agreed    120 EUR for repotting", True),
        ("quoted    120 EUR for repotting", True),
        ("billed    120 EUR", True),
        ("paid      120 EUR", True),
        ("valued    300 EUR", True),
        # A line that is held back says as much of money as one that was read.
        ("agreed    repot, 120 EUR -- not yet", True),
        ("agreed    repot, 120 EUR, only half", True),
        ("paid      120 EUR -- not all", True),
        ("sold      to marrow, 300 EUR -- not yet", True),
        ("wired     3 mm Al -- not yet", False),
        ("unwired   on the 300 EUR one", False),
        ("worked    2 h", False),
        ("noted     the left one is weak", False),
        ("watered", False),
    ],
)
def test_lines_for_the_keeper_are_marked(made, line, is_marked) -> None:
    tree = "tree hoshi\n  kind trident maple\n  owner marrow\n  place yard\n"
    text = made(f"{tree}2026-05-01\nhoshi\n  {line}\n", "trees/hoshi.html")
    said = " ".join(line.replace(" -- ", " ").split())
    assert said in text
    assert (f"{said} only for you" in text) is is_marked


def test_words_that_were_not_used_stand_beside_the_line(made) -> None:
    tree = "tree hoshi\n  kind trident maple\n  owner marrow\n  place yard\n"
    text = made(f"{tree}2026-05-01\nhoshi\n  agreed    gladly, 120 EUR\n", "trees/hoshi.html")
    assert "agreed 120 EUR · gladly written: agreed gladly, 120 EUR only for you" in text


def test_what_corrects_a_private_line_is_private_too(made) -> None:
    text = made(
        "tree hoshi\n  kind trident maple\n  place yard\n"
        "2026-05-01\nhoshi\n  private   it is weak\n"
        "2026-05-02\nhoshi\n  corrected private 2026-05-01, it is sick\n",
        "trees/hoshi.html",
    )
    assert "private 2026-05-01, it is sick only for you" in text


FIRST = "tree first\n  kind trident maple\n  place yard\n2026-05-01\nfirst\n  planned {what}\n"


@pytest.mark.parametrize(
    ("what", "in_feed"),
    [
        # A part of the plan is called as the tree is.
        ("wire on first, to 2026-06", "first: wire on first"),
        ("wire on apex, to 2026-06", "first: wire on apex"),
    ],
)
def test_an_entry_says_the_tree_first(made, what, in_feed) -> None:
    assert in_feed in made(FIRST.format(what=what), "calendars/all.ics")
