"""A check that replays a diary while a second process still reads it finds what any check finds."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from tests.benchmarks.generate import generate

from backbud.journal.remember import SYNTAX_FILE, Memory, read_memory
from backbud.publish.memory import MemoryOf

HOSTILE = Path(__file__).parents[1] / "fuzz"
# Checks journals by one process and by two, however small they are and in whatever order; prints
# for each whether the replay that went ahead counted, how many processes there were, and what each
# check tells and remembers.
CHECKS = """
import json, shutil, sys
from datetime import date
from msgspec.msgpack import encode
from backbud.collection import ahead, moments
from backbud.journal import by_two, in_turn, outlines, second_process
from backbud.journal.remember import read_memory
from backbud.publish.memory import MemoryOf
from backbud.session import open_session
by_two.MANY_LINES = outlines.MANY_LINES = by_two._LINES_OF_GROUP = 1
moments.FEW_PAGES, moments.PAGES_BEFORE_END, moments.FURTHER_APART = 4, 2, 2
begun, is_of, count = second_process.begun_beside, moments.FromBeginning.is_of, [0, 0]
def counted(work):
    found = begun(work)
    count[0] += found is not None
    return found
def asked(self, journal):
    found = is_of(self, journal)
    count[1] += found
    return found
by_two.begun_beside = outlines.begun_beside = counted
moments.FromBeginning.is_of = asked
{before}
def told(folder, two):
    count[:] = 0, 0
    shutil.rmtree(f"{{folder}}/.backbud", ignore_errors=True)
    session = open_session(folder, date(2026, 6, 2), only_check=True, by_two=two)
    problems = [repr(one) for one in (*session.problems(), *session.words_kept())]
    known = read_memory(MemoryOf(folder), moments.MOMENTS_FILE, moments._Moments)
    order = [(page.file, page.line, repr(page.when)) for page in session.journal.pages]
    weather = repr(session.journal.weather)
    return [session.summary(), problems, encode(known), order, weather], tuple(count)
for folder in sys.argv[1:]:
    alone, _ = told(folder, False)
    both, (processes, ahead) = told(folder, True)
    same = [one == other for one, other in zip(alone, both)]
    print(json.dumps([bool(ahead), processes, same, alone[0], len(alone[1])]), flush=True)
"""
ANY_ORDER = "in_turn._MOST_WAIT = 2"
CARDS = """place bench
place tunnel
person marrow
tree heron
  kind  trident maple
  place  bench
tree crow
  kind  satsuki azalea
tree knot
  kind  Chinese juniper
tree wren
  kind  trident maple
"""
YEARS = {
    "2020": "2020-03-01\n\nheron, crow\n  watered\n\n2020-04-01\n\nheron\n  wired  2 mm on apex\n",
    "2021": "2021-03-01\n\nheron\n  repotted  2 cm off below\n  moved  tunnel\n",
    "2022": "2022-05-01\n\nknot\n  received  from marrow\n\n2022-05-02\n\nall in tunnel\n  fed\n",
    "2023": "2023-02-01\n\nheron\n  corrected  repotted 2021-03-01, 1 cm off below\n",
    "2024": "2024-02-01\n\ncrow\n  died\n\n2024-03-01\n\nwren\n  bought  from marrow\n",
    "2025": "2025-02-01\n\ncrow\n  watered\n\n2025-03-01\n\nheron\n  unwired  on right 7\n",
}


def checked(*folders: Path, before: str = "") -> list[tuple[bool, int, list[bool], str, int]]:
    script = f"import sys; sys.path.insert(0, {str(HOSTILE)!r})\n{CHECKS.format(before=before)}"
    done = subprocess.run(
        [sys.executable, "-c", script, *map(str, folders)],
        capture_output=True,
        text=True,
        check=True,
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


def journal(folder: Path, years: dict[str, str], more: str = "", settings: str = "") -> Path:
    folder.mkdir()
    (folder / "backbud.toml").write_text(f'language = 1\nhome = "bench"\n{settings}')
    (folder / "cards.txt").write_text(CARDS + more)
    for year, text in years.items():
        (folder / f"diary-{year}.txt").write_text(text)
    return folder


ALL_THE_SAME = [True] * 5


def test_a_diary_in_the_order_of_time(tmp_path: Path) -> None:
    """Who comes, goes and is corrected in files that are read last is known before the first."""
    ((ahead, processes, same, summary, problems),) = checked(journal(tmp_path / "one", YEARS))
    assert (ahead, processes, same) == (True, 2, ALL_THE_SAME)
    # Crow is dead; it was watered afterwards, nothing is on a part that never had wire, and nobody
    # says where home is.
    assert summary == "3 trees here, 11 acts on 10 pages."
    assert problems == 3


@pytest.mark.parametrize(
    ("year", "text"),
    [
        # What no word at the beginning of a line tells: in other words, or in the keeper's.
        ("2026", "2026-01-01\n\nknot\n  home again with marrow, collected\n"),
        ("2026", "2026-01-01\n\nknot\n  gohome\n"),
        ("2026", "2026-01-01\n\nheron\n  struck  12 cuttings as wren\n"),
        # Hours put lines of a day elsewhere, and so does a day that stands in two files.
        (
            "2026",
            "2026-01-01 10:30\n\nheron\n  moved  bench\n\n2026-01-01 09:00\n\nheron\n  died\n",
        ),
        ("2019", "2024-02-01\n\nheron\n  moved  bench\n\n2019\n\nwren\n  noted  small\n"),
        (
            "2026",
            "2020-03-01\n\nwren\n  bought\n\n2014-21\n\nheron\n  pruned\n\n2026-13-01\n\nwren\n",
        ),
        # What is wrong, and what is kept as words, in lines that all must know of.
        ("2026", "2026-01-01\n\nwren\n  sold  to nobody here at the gate of spring\n  zzz\n"),
    ],
)
@pytest.mark.parametrize("before", ["", ANY_ORDER])
def test_what_cannot_be_known_ahead(tmp_path: Path, year: str, text: str, before: str) -> None:
    words = "words\n  gohome  collected\n"
    folder = journal(tmp_path / "one", {**YEARS, year: YEARS.get(year, "") + text}, words)
    ((_, processes, same, *_),) = checked(folder, before=before)
    assert (processes, same) == (2, ALL_THE_SAME)


def test_hostile_and_generated_journals(tmp_path: Path) -> None:
    sys.path.insert(0, str(HOSTILE))
    try:
        from hostile import hostile
    finally:
        sys.path.remove(str(HOSTILE))
    folders = []
    for seed in range(60):
        folders.append(tmp_path / f"hostile-{seed}")
        for name, data in hostile(seed).items():
            file = folders[-1] / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(data)
    for seed in (1, 2):
        folders.append(tmp_path / f"generated-{seed}")
        generate(folders[-1], 1500, seed)
    found = checked(*folders, before=ANY_ORDER)
    assert [same for _, _, same, *_ in found] == [ALL_THE_SAME] * len(folders)
    went_ahead = [ahead for ahead, *_ in found]
    assert all(went_ahead[-2:])
    assert sum(went_ahead) > len(folders) / 3


@pytest.mark.parametrize(
    "before",
    [
        # The second process dies at once, after its first piece, and half of the way.
        "import os\nby_two._found = lambda *_: os._exit(9)",
        "import os\nreal = by_two._found\ndef first(*by):\n    yield next(real(*by))\n"
        "    os._exit(9)\nby_two._found = first",
        "import itertools\nreal = by_two._found\n"
        "by_two._found = lambda *by: itertools.islice(real(*by), 3)",
        # A page of those that come first fails by a fault of ours.
        "from backbud.journal.diary import DiaryReader\nby_lines = DiaryReader.page_by_lines\n"
        "def fails(self, kept, *others):\n"
        "    if 'bought' in kept.section.text: raise ValueError('made to fail')\n"
        "    return by_lines(self, kept, *others)\n"
        "DiaryReader.page_by_lines = fails",
    ],
)
def test_what_the_second_did_not_send_is_read_here(tmp_path: Path, before: str) -> None:
    ((_, processes, same, *_),) = checked(journal(tmp_path / "one", YEARS), before=before)
    # Where a page failed, there are fewer than it seemed, and it is remembered elsewhere how all
    # stood.
    same[2] = same[2] or "fails" in before
    assert (processes, same) == (2, ALL_THE_SAME)


# Checks a journal as the command does, by two; what is remembered is written by a thread.
COMMAND = """
import os, sys, threading, time
from backbud.collection import ahead
from backbud.journal import by_two, outlines, steps
by_two.MANY_LINES = outlines.MANY_LINES = steps.MANY_SECTIONS = 1
write, threads = ahead.ReplayAhead.write, []
def slowly(self, writes):
    def later():
        threads.append(threading.current_thread() is not threading.main_thread())
        time.sleep(0.2)
        writes()
    write(self, later)
ahead.ReplayAhead.write = slowly
{before}
from backbud.cli import main
status = main(["check", sys.argv[1], "--on", "2026-06-02"])
print(threads, status, flush=True)
os._exit(status)
"""


def by_command(folder: Path, before: str = "") -> list[str]:
    """What a check prints; last who wrote what is remembered, and its status."""
    script = COMMAND.format(before=before)
    done = subprocess.run(
        [sys.executable, "-c", script, str(folder)], capture_output=True, text=True, check=False
    )
    return [*done.stdout.splitlines(), *done.stderr.splitlines()]


@pytest.mark.parametrize(
    ("before", "by_thread"),
    [
        ("", "[True] 1"),
        ("def none(self): raise RuntimeError\nthreading.Thread.start = none", "[False] 1"),
    ],
)
def test_what_a_check_read_is_remembered_once_it_ends(
    tmp_path: Path, before: str, by_thread: str
) -> None:
    folder = journal(tmp_path / "one", YEARS)
    first = by_command(folder, before)
    assert first[-1] == by_thread
    known = read_memory(MemoryOf(str(folder)), SYNTAX_FILE, Memory)
    assert known is not None
    pages = [kept for row in known.files.values() for kept in row if kept.sound is not None]
    assert (len(known.files), len(pages)) == (7, 10)
    # The next check reads nothing anew, and tells the same.
    again = by_command(folder)
    assert (again[:-1], again[-1]) == (first[:-1], "[] 1")


def test_a_check_that_fails_has_written_what_it_read(tmp_path: Path) -> None:
    folder = journal(tmp_path / "one", YEARS)
    told = by_command(
        folder,
        "from backbud.session import Session\n"
        "def fails(self): raise OSError(5, 'no more')\nSession.problems = fails",
    )
    assert told[0] == "[True] 3"
    assert read_memory(MemoryOf(str(folder)), SYNTAX_FILE, Memory) is not None
