"""A journal that is read by two processes is the same as one that is read by one."""

from __future__ import annotations

import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from backbud.journal.read import Journal, read_journal
from backbud.journal.remember import SYNTAX_FILE, Memory, read_memory
from backbud.journal.second_process import later_of
from backbud.publish.memory import MemoryOf
from backbud_grammar.details import Reading

EXAMPLE = Path(__file__).parents[2] / "example_journal"
TODAY = date(2026, 6, 2)
# Reads a journal by two, however small it is, in a process that has no thread. What stands in its
# place goes before.
BY_TWO = """
import sys
from datetime import date
from backbud.journal import by_two, outlines, second_process
from backbud.journal.read import read_journal
by_two.MANY_LINES = outlines.MANY_LINES = 1
begun = second_process.begun_beside
count = 0
def counted(work):
    global count
    found = begun(work)
    count += found is not None
    return found
by_two.begun_beside = outlines.begun_beside = counted
{before}
journal = read_journal(sys.argv[1], date(2026, 6, 2), by_two=True)
print(count, len(journal.pages), journal.problems(), flush=True)
"""


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    folder = tmp_path / "journal"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns(".backbud", "made"))
    # A page that is wrong, one that stands in both halves, and one that only the first can read.
    files = sorted((folder / "diary").rglob("*.txt"))
    for file in (files[0], files[-1]):
        text = file.read_text("utf-8")
        file.write_text(
            f"{text}\n2025-03-06\n\nheron\n  watered\n  fed  3 mm Al on zyx 7\n", "utf-8"
        )
    return folder


def told(journal: Journal) -> str:
    return f"{len(journal.pages)} {journal.problems()}"


def by_two(folder: Path, before: str = "") -> tuple[int, str]:
    """How many second processes there were, and what was told."""
    script = BY_TWO.format(before=before)
    done = subprocess.run(
        [sys.executable, "-c", script, str(folder)], capture_output=True, text=True, check=True
    )
    count, _, rest = done.stdout.partition(" ")
    return int(count), rest.strip()


def remembered(folder: Path) -> Memory:
    found = read_memory(MemoryOf(str(folder)), SYNTAX_FILE, Memory)
    assert found is not None
    return found


def all_readings(memory: Memory) -> dict[tuple[str, str], Reading]:
    """By act or card, and by text, what was read."""
    return {
        (key, text): reading
        for key in memory.readings
        for text, reading in memory.readings_of(key).items()
    }


def plain(memory: Memory) -> object:
    """What a memory holds but for readings, whatever the order in which it was learned; shapes are
    those of a process."""
    rows = {
        mark: [(one.digest, one.lines, one.said, one.section, one.sound) for one in row]
        for mark, row in memory.files.items()
    }
    said = {
        word: {text: memory.said_of(word, text) for text in texts}
        for word, texts in memory.said.items()
        if texts
    }
    return memory.mark, memory.things, rows, said, memory.subjects


def test_all_is_the_same(copy: Path) -> None:
    alone = read_journal(str(copy), TODAY)
    here = remembered(copy)
    shutil.rmtree(copy / ".backbud")
    assert by_two(copy) == (2, told(alone))
    there = remembered(copy)
    assert plain(there) == plain(here)
    # Which text is the example of others hangs on which of them is read first.
    before, found = all_readings(here), all_readings(there)
    both = before.keys() & found.keys()
    assert len(both) > 0.8 * len(before)
    assert [found[text] for text in both] == [before[text] for text in both]
    # And so it is for whoever reads what was remembered.
    again = read_journal(str(copy), TODAY)
    assert told(again) == told(alone)
    events = [block.events for page in alone.pages for block in page.blocks]
    assert [block.events for page in again.pages for block in page.blocks] == events


@pytest.mark.parametrize(
    "before",
    [
        # The second process dies, or finds no end.
        "import os\nby_two._found = lambda *_: os._exit(9)",
        "import os\noutlines._rows = lambda *_: os._exit(9)",
        "import os\nby_two._found = lambda *_: 1 / 0",
        # There is none.
        "import os\ndef no(): raise OSError\nos.fork = no",
        "import os\ndel os.fork",
        "import threading\nthreading.Thread(target=threading.Event().wait, daemon=True).start()",
        "import os\nos.sched_getaffinity = lambda _: {0}",
    ],
)
def test_what_the_second_cannot_do_the_first_does(copy: Path, before: str) -> None:
    alone = told(read_journal(str(copy), TODAY))
    shutil.rmtree(copy / ".backbud")
    count, found = by_two(copy, before)
    assert found == alone
    assert count == (0 if "fork" in before or "thread" in before or "sched" in before else 2)


def test_a_page_that_fails_is_told_by_the_first(copy: Path) -> None:
    """A fault of ours at a page of the second half is told as any other is."""
    before = (
        "from backbud.journal.diary import DiaryReader\nby_lines = DiaryReader.page_by_lines\n"
        "def fails(self, kept, *others):\n"
        "    if 'zyx 7' in kept.section.text: raise ValueError('made to fail')\n"
        "    return by_lines(self, kept, *others)\n"
        "DiaryReader.page_by_lines = fails"
    )
    alone = by_two(copy, f"{before}\nby_two.MANY_LINES = outlines.MANY_LINES = 10**9")
    shutil.rmtree(copy / ".backbud")
    assert by_two(copy, before) == (2, alone[1])
    assert alone[1].count("code='fault'") > 0


def test_the_last_files_are_the_share() -> None:
    lines = {"2023.txt": 10, "2024.txt": 30, "2025.txt": 40, "2026.txt": 20}
    assert later_of(lines, 0.6) == ["2025.txt", "2026.txt"]
    assert later_of(lines, 0.2) == ["2026.txt"]
    assert later_of({}, 0.5) == []


def things_read(folder: Path) -> tuple[list[int], str]:
    """How many cards were read each time, and what was told."""
    before = (
        "from backbud.journal import steps\nread, calls = steps.read_things, []\n"
        "outlines._SHARE, outlines._LINES_OF_CARD = 0.2, 0\n"
        "def counted_things(cards, details):\n"
        "    calls.append(len(cards))\n    return read(cards, details)\n"
        "steps.read_things = counted_things"
    )
    script = f"{BY_TWO.format(before=before)}print(calls)\n"
    done = subprocess.run(
        [sys.executable, "-c", script, str(folder)], capture_output=True, text=True, check=True
    )
    told, _, calls = done.stdout.rstrip("\n").rpartition("\n")
    return [int(one) for one in calls.strip("[]").split(",")], told.partition(" ")[2]


@pytest.mark.parametrize("more", ["", "\ntree late-one\n  kind  trident maple\n  pto  tray-7\n"])
def test_cards_are_read_once_unless_the_second_finds_another(copy: Path, more: str) -> None:
    """While the second process parts the later files, the first reads the cards of its own."""
    last = max((copy / "diary").rglob("*.txt"))
    last.write_text(last.read_text("utf-8") + more, "utf-8")
    alone = read_journal(str(copy), TODAY)
    shutil.rmtree(copy / ".backbud")
    all_there_are = len(alone.things.by_handle)
    calls, found = things_read(copy)
    assert calls == ([all_there_are - 1, all_there_are] if more else [all_there_are])
    assert found == told(alone)
    assert ("“pto” is no label of a tree" in found) == bool(more)
