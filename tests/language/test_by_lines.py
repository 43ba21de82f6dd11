"""A page that is read line by line says what it says when it is looked at as a whole."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from backbud.journal.diary import DiaryReader, ReadDay
from backbud.journal.page_text import page_text
from backbud.journal.read import Journal, read_journal
from backbud.journal.remember import Kept, WordsDigest
from backbud.journal.said import ActReader
from backbud_grammar.dates import read_date
from backbud_grammar.outline import sections

EXAMPLE = Path(__file__).parents[2] / "example_journal"
HEAD = "2025-03-06\n\n"


@pytest.fixture(scope="module")
def journal() -> Journal:
    return read_journal(str(EXAMPLE), date(2026, 6, 2))


def reader_of(journal: Journal) -> DiaryReader:
    acts = ActReader(journal.things, journal.details, lambda _word, _text: None, {})
    return DiaryReader(acts)


def kept(text: str) -> Kept:
    page = page_text(text)
    assert page is not None
    return Kept(b"", text.count("\n"), WordsDigest(b"", 0), page)


def both(journal: Journal, text: str) -> tuple[ReadDay | None, ReadDay]:
    """A page of an exact day read line by line, and as a whole."""
    by_lines, whole = kept(text), kept(text)
    when = read_date(by_lines.section.date)
    one, other = reader_of(journal), reader_of(journal)
    return (
        one.page_by_lines(by_lines, when, "diary.txt", 4, 0),
        other.page_as_it_is(whole, when, "diary.txt", 4, 0),
    )


def held_together(journal: Journal, text: str) -> bool:
    """Whether it was read line by line; if so, it is held against the whole."""
    quick, whole = both(journal, text)
    if quick is None:
        return False
    assert quick.flaws == whole.flaws, text
    assert quick.weather == whole.weather
    assert (quick.page.acts, quick.page.words) == (whole.page.acts, quick.page.words)
    assert len(quick.page.blocks) == len(whole.page.blocks)
    for one, other in zip(quick.page.blocks, whole.page.blocks, strict=True):
        assert (one.text, one.line, one.acts) == (other.text, other.line, other.acts)
        assert one.events == other.events, text
    held_again(journal, text, quick)
    return True


def held_again(journal: Journal, text: str, before: ReadDay) -> None:
    """That the page is the same where no more is remembered than that nothing was wrong in it."""
    page, reader = kept(text), reader_of(journal)
    when = read_date(page.section.date)
    reader.page_by_lines(page, when, "diary.txt", 4, 0)
    if page.sound is None:
        return
    again = reader_of(journal).page_by_lines(page, when, "diary.txt", 4, 0)
    assert again is not None
    assert again.page.acts == before.page.acts
    for one, other in zip(again.page.blocks, before.page.blocks, strict=True):
        assert (one.text, one.line, one.acts) == (other.text, other.line, other.acts)
        assert isinstance(one.written, str), text
        assert one.events == other.events, text


def pages(journal: Journal) -> Iterator[str]:
    for data in journal.texts.values():
        for _, piece in sections(data):
            text = piece.decode()
            page = page_text(text)
            if page is not None and len(page.date) == 10 and page.date <= "2026-06-02":
                yield text


def test_most_pages_of_the_example_are_read_line_by_line(journal: Journal) -> None:
    read = [held_together(journal, text) for text in pages(journal)]
    assert len(read) > 100
    assert sum(read) > 0.9 * len(read)


def slipped(text: str, pick: random.Random) -> str:
    """A page in which a line moved, went on, was doubled or lost, or became a remark."""
    lines = text.rstrip("\n").split("\n")
    at = pick.randrange(1, len(lines)) if len(lines) > 1 else 0
    line = lines[at]
    lines[at : at + 1] = pick.choice(
        (
            [],
            [line, line],
            [line, ""],
            ["", line],
            [f"{line}  "],
            [f" {line}"],
            [f"   {line}"],
            [line[1:]],
            [line.lstrip()],
            [line, "  # a remark"],
            [line, "      # a remark"],
            [line, "#"],
            [line, "   "],
            [f"{line},", "              2 mm Al on apex"],
            [line, "              and then some more"],
            [f"{line} -- not yet"],
            [f"{line} -- looked well"],
            [line.replace("  ", "\t", 1)],
            [line.upper()],
            [f"{line}, in 3 weeks"],
            [f"{line}, to 2999"],
            [line, "  wired", "      pruned hard"],
        )
    )
    return "\n".join(lines) + pick.choice(("", "\n", "\n\n", "\n\n\n"))


def test_no_slip_makes_a_difference(journal: Journal) -> None:
    pick, texts = random.Random(7), list(pages(journal))
    read = [held_together(journal, slipped(pick.choice(texts), pick)) for _ in range(1500)]
    # Some slips leave a page as sound as it was, others do not.
    assert 100 < sum(read) < len(read) - 100


@pytest.mark.parametrize(
    "below",
    [
        "heron\n",
        "heron\n\n  weeded\n",
        "heron\n   weeded\n",
        "  weeded\n",
        "heron \n  weeded\n",
        "heron\n  # a remark\n  weeded\n",
        "heron\n# a remark\n  weeded\n",
        "heron\n  weeded\n    \n      moss\n",
        "heron\nweeded\n      moss\n",
        "nobody\n  weeded\n",
        "weeded\n  weeded\n",
        "not heron\n  weeded\n",
    ],
)
def test_what_is_not_as_it_should_be_is_looked_at_whole(journal: Journal, below: str) -> None:
    assert held_together(journal, f"{HEAD}heron\n  weeded\n")
    assert both(journal, HEAD + below)[0] is None


@pytest.mark.parametrize(
    "line",
    [
        "weeded not",
        "weeded not -- and nothing else",
        "put off repot, to 2026",
        "the moss is green",
        "watered quite early in the rain",
        "rptd, 1/3 off btm, wire off left 2",
        "wird 2 mm Al on left 1",
        "wired 2 mm\n      not yet",
        "fed zyxxy, and zyxxy again, and once more",
    ],
)
def test_what_is_wrong_with_one_line_is_told_line_by_line(journal: Journal, line: str) -> None:
    assert held_together(journal, f"{HEAD}heron\n  weeded\n  {line}\n  pruned hard\n")


@pytest.mark.parametrize(
    "line",
    ["2025-04-01", "12 March", "crow, heron", "not the rest", "10:30 weeded", "weeded moss, 10:30"],
)
def test_what_hangs_on_the_lines_around_it_is_looked_at_whole(journal: Journal, line: str) -> None:
    assert both(journal, f"{HEAD}heron\n  {line}\n  pruned hard\n")[0] is None


def test_a_line_is_judged_by_the_day_of_each_page(journal: Journal) -> None:
    """`to 2124` is near on one page and a hundred years off on another."""
    tree = journal.things.of_kind("tree")[0].handle
    reader = reader_of(journal)
    read = []
    for day in ("2025-03-06", "2023-03-06", "2025-03-06"):
        page = kept(f"{day}\n\n{tree}\n  planned repot, to 2124\n")
        read.append(reader.page_by_lines(page, read_date(day), "diary.txt", 0, 0))
    assert [one.flaws == () for one in read if one is not None] == [True, False, True]
