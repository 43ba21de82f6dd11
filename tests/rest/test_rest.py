"""`backbud rest` moves whole days, and nothing that is read, planned or fed changes."""

from __future__ import annotations

import os
import random
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from backbud.cli import main
from backbud.front import NotMade, made_of
from backbud.session import open_session

TODAY = date(2026, 11, 20)
CARDS = """\
place yard
  latitude  52.9 N
  low  1 1 2 4 7 10 12 12 10 7 4 2 C
  high 7 7 10 13 16 19 21 21 18 14 10 7 C

place tunnel
  within  yard
  cover   tunnel

tree hoshi
  kind  trident maple
  since 2012
  place yard

tree yuki
  kind  Scots pine
  since 2012
  place yard
"""
# The order of a day's lines decides: who comes last of the three files wins.
MINE = """\
# My diary.

2014

hoshi
  noted  bought somewhere

2014-05-01   low 4 C, high 15 C

hoshi
  moved  tunnel
  wired  3 mm Al on left 2

yuki
  watered

# The year of the wire.
2015-03-02

all in tunnel
  repotted  same pot, 1/3 off

2015-03-02

hoshi
  moved  yard

# 2024 begins.

2024-05-01

hoshi
  pruned
  wired  2 mm Al on apex

2025-04-01

yuki
  repotted  same pot
"""
HERS = """\
2014-05-01

hoshi
  moved  yard

yuki
  watered

2015-03-02

hoshi
  moved  tunnel
"""
HIS = "2014-05-01\n\nyuki\n  watered\n\n2015-03-02\n\nhoshi\n  moved  yard\n  fed\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    journal = tmp_path / "trees"
    (journal / "diary").mkdir(parents=True)
    (journal / "backbud.toml").write_text('language = 1\nhome = "yard"\njournal_id = "a1"\n')
    (journal / "cards.txt").write_text(CARDS)
    (journal / "diary" / "mine.txt").write_bytes(MINE.encode())
    (journal / "diary" / "hers.txt").write_bytes(HERS.replace("\n", "\r\n").encode())
    (journal / "a.txt").write_bytes(b"\xef\xbb\xbf" + HIS.encode())
    return journal


def said(folder: Path) -> list[tuple[object, ...]]:
    """Every line of the diary in its order, but for where it stands."""
    journal = open_session(str(folder), TODAY, keeps=False).journal
    lines = [
        (page.when.text, block.text, event.written, event.remark)
        for page in journal.pages
        for block in page.blocks
        for event in block.events
    ]
    return [*lines, *((one.day, one.name, one.value) for one in journal.weather)]


def made(folder: Path) -> dict[str, bytes]:
    """All that would be published, but for where a line stands, and which years are folded: there
    the daily keep is told together, each time with its day."""
    found = made_of(folder, day=TODAY)
    assert not isinstance(found, NotMade)
    return {name: _plain(data) for name, data in found.files.items()}


def _plain(data: bytes) -> bytes:
    data = data.replace(b"resting/", b"").replace(b"<details open>", b"<details>")
    data = re.sub(rb"(\.txt):\d+(?:, \d+)*", rb"\1", data)
    # A line of daily keep that is told together has no file of its own to name.
    data = re.sub(rb'<dd title="[^"]*">(<b>\w+</b></dd>)', rb"<dd>\1", data)
    return _KEPT_TOGETHER.sub(_one_by_one, data)


_KEPT_TOGETHER = re.compile(rb"<dt>in the year</dt>\n<dd>(<b>\w+</b>) ([^<]+)</dd>")


def _one_by_one(found: re.Match[bytes]) -> bytes:
    """What was told together, as it stands in a year that is not folded."""
    act, days = found[1], found[2].split(b", ")
    assert len(set(days)) == 1
    return b"<dt>" + days[0] + b"</dt>" + (b"\n<dd>" + act + b"</dd>") * len(days)


def texts(folder: Path) -> str:
    """All words of all files, in no order."""
    files = (path for path in folder.rglob("*.txt") if ".backbud" not in path.parts)
    return " ".join(sorted(" ".join(path.read_text("utf-8-sig") for path in files).split()))


def rest(folder: Path, *words: str) -> int:
    return main(["rest", *words, str(folder)])


def test_nothing_is_written_unless_it_is_said(folder: Path, capsys) -> None:
    before = texts(folder)
    assert rest(folder, "2015") == 0
    assert capsys.readouterr().out.splitlines() == [
        "  a.txt → resting/a.txt  (2 pages, the whole file)",
        "  diary/hers.txt → resting/diary/hers.txt  (2 pages, the whole file)",
        "  diary/mine.txt → resting/diary/mine.txt  (4 pages, of 6 pages)",
        "Nothing was written. To move them: backbud rest 2015 --write",
    ]
    assert texts(folder) == before
    assert not (folder / "resting").exists()


def test_what_is_read_made_and_fed_stays_the_same(folder: Path, capsys) -> None:
    lines, output, words = said(folder), made(folder), texts(folder)
    assert main(["tree", "hoshi", str(folder), "--json"]) == 0
    tree = capsys.readouterr().out
    assert rest(folder, "2014", "--write") == 0
    assert (folder / "resting/diary/mine.txt").read_text() == (
        "2014\n\nhoshi\n  noted  bought somewhere\n\n2014-05-01   low 4 C, high 15 C\n\n"
        "hoshi\n  moved  tunnel\n  wired  3 mm Al on left 2\n\nyuki\n  watered\n\n"
    )
    # What stands above a page at the left edge is that page's.
    assert (
        (folder / "diary/mine.txt")
        .read_text()
        .startswith("# My diary.\n\n# The year of the wire.\n2015-03-02\n")
    )
    assert (folder / "resting/diary/hers.txt").read_bytes().count(b"\r\n") == 8
    assert (folder / "a.txt").read_bytes().startswith(b"\xef\xbb\xbf2015-03-02\n")
    assert (said(folder), made(folder), texts(folder)) == (lines, output, words)
    # A second year is put to rest behind the first, and its pages of one day keep their order.
    assert rest(folder, "2015", "--write") == 0
    assert not (folder / "a.txt").exists()
    assert (said(folder), made(folder), texts(folder)) == (lines, output, words)
    capsys.readouterr()
    assert main(["tree", "hoshi", str(folder), "--json"]) == 0
    after = capsys.readouterr().out
    assert without_lines(after) == without_lines(tree)
    assert main(["check", str(folder)]) == 0


def without_lines(told: str) -> str:
    """JSON with no numbers of lines: pages that moved stand on other lines."""
    return re.sub(r'"line": \d+', '"line": 0', _plain(told.encode()).decode())


def test_a_year_that_rests_is_folded_on_the_page(folder: Path) -> None:
    (folder / "diary/mine.txt").write_text(MINE[: MINE.index("# 2024")])
    assert _open_years(folder) == 2
    assert rest(folder, "2014", "--write") == 0
    assert _open_years(folder) == 1
    assert rest(folder, "2015", "--write") == 0
    assert _open_years(folder) == 0


def _open_years(folder: Path) -> int:
    found = made_of(folder, day=TODAY)
    assert not isinstance(found, NotMade)
    return found.files["trees/hoshi.html"].count(b"<details open>")


@pytest.mark.parametrize(
    ("file", "text", "told"),
    [
        ("diary/mine.txt", "hoshi\n  fed\n\n" + MINE, "diary/mine.txt:1: lines stand above every"),
        (
            "diary/mine.txt",
            "2014-05-02\n\nhoshi\n  fed\n\ntree sumi\n  kind  trident maple\n\n2014-05-03\n\nsumi\n"
            "  fed\n",
            "diary/mine.txt:6: the card “tree sumi” stands between the pages",
        ),
        (
            "diary/mine.txt",
            MINE + "\n2014-13-01\n\nyuki\n  fed\n",
            "diary/mine.txt:41: “2014-13-01” is no day that counts",
        ),
        ("diary/mine (copy).txt", MINE, "diary/mine (copy).txt:1: everything in this file stands"),
        (
            "diary/mine-old.txt",
            MINE.replace("  fed\n", "").replace("1/3 off", "1/4 off") + "\nhoshi\n  fed\n",
            "diary/mine-old.txt:1: this file and diary/mine.txt are copies of one another: of 6 ",
        ),
        (".gitignore", "resting/\n", "leaves out resting/a.txt, so it would not be read there"),
    ],
)
def test_what_is_not_tidy_is_told_and_nothing_moves(
    folder: Path, file: str, text: str, told: str, capsys
) -> None:
    (folder / file).write_text(text)
    before = texts(folder)
    assert rest(folder, "2015", "--write") in (2, 3)
    assert told in capsys.readouterr().err
    assert texts(folder) == before
    assert not list(folder.glob("resting/**/*.txt"))


@pytest.mark.parametrize(("year", "said"), [("2999", "not over yet"), ("long ago", "no year")])
def test_a_year_that_cannot_rest(folder: Path, year: str, said: str, capsys) -> None:
    assert rest(folder, year, "--write") == 2
    assert said in capsys.readouterr().err


class _Killed(BaseException):
    pass


def steps_of(monkeypatch: pytest.MonkeyPatch, most: int) -> list[str]:
    """Let a run die before its step of that number; the steps that it took."""
    import backbud.publish.disk as disk

    taken: list[str] = []

    def counted(step: object, *paths: str) -> None:
        if len(taken) == most:
            raise _Killed
        taken.append(os.path.basename(paths[-1]))
        step(*paths)  # type: ignore[operator]

    for module in ("backbud.jot.in_place", "backbud.rest.move"):
        monkeypatch.setattr(f"{module}.retried", counted)
    assert disk.retried is not counted
    return taken


def moments(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[int]:
    """Every moment at which a run can be killed, each from the same journal."""
    kept = folder.with_name("kept")
    shutil.copytree(folder, kept)
    for n in range(20):
        shutil.rmtree(folder)
        shutil.copytree(kept, folder)
        with monkeypatch.context() as patch:
            taken = steps_of(patch, n)
            try:
                assert rest(folder, "2015", "--write") == 0
                assert len(taken) == n == 3
                return
            except _Killed:
                pass
        yield n
    raise AssertionError("it never ended")


def test_killed_between_any_two_steps_it_reads_as_before(folder: Path, monkeypatch) -> None:
    lines, output, words = said(folder), made(folder), texts(folder)
    died = 0
    for _ in moments(folder, monkeypatch):
        died += 1
        assert said(folder) == lines
        assert {n: d for n, d in made(folder).items() if n.startswith("calendars/")} == {
            n: d for n, d in output.items() if n.startswith("calendars/")
        }
        # The memory may go, too.
        shutil.rmtree(folder / ".backbud", ignore_errors=True)
        assert rest(folder, "2015", "--write") == 0
        assert (said(folder), made(folder), texts(folder)) == (lines, output, words)
    assert died == 3


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is POSIX")
def test_killed_at_any_moment_it_reads_as_before(folder: Path) -> None:
    """Real kills of a run on a disk on which each step takes a while."""
    lines, words = said(folder), texts(folder)
    kept, chance = folder.with_name("kept"), random.Random(20140501)
    shutil.copytree(folder, kept)
    slow = (
        "import os, sys, time\n"
        "def slowly(step):\n"
        "    def taken(*a, **k):\n"
        "        out = step(*a, **k); time.sleep(0.02); return out\n"
        "    return taken\n"
        "for name in ('replace', 'rename', 'fsync'): setattr(os, name, slowly(getattr(os, name)))\n"
        "from backbud.cli import main\n"
        "print('begun', flush=True)\n"
        "sys.exit(main(['rest', '2015', '--write', sys.argv[1]]))\n"
    )
    halfway = 0
    for n in range(25):
        shutil.rmtree(folder)
        shutil.copytree(kept, folder)
        run = subprocess.Popen(
            [sys.executable, "-c", slow, str(folder)], stdout=subprocess.PIPE, text=True
        )
        assert run.stdout is not None
        run.stdout.readline()
        until = time.monotonic() + 60
        while not (folder / "resting").exists() and time.monotonic() < until:
            time.sleep(0.002)
        time.sleep(chance.uniform(0.0, 0.5))
        run.send_signal(signal.SIGKILL)
        run.wait()
        run.stdout.close()
        assert said(folder) == lines, n
        halfway += (folder / "diary/mine.txt").read_text() == MINE
        assert rest(folder, "2015", "--write") == 0
        assert (said(folder), texts(folder)) == (lines, words), n
    assert halfway >= 5


def test_a_page_left_behind_is_told_and_counts_once(folder: Path, capsys) -> None:
    lines = said(folder)
    assert rest(folder, "2015", "--write") == 0
    (folder / "a.txt").write_text("2014-05-01\n\nyuki\n  watered\n")
    capsys.readouterr()
    assert main(["check", str(folder)]) == 1
    told = capsys.readouterr().out
    assert "this page still stands in a.txt too" in told
    assert said(folder) == lines
    assert rest(folder, "2015", "--write") == 0
    assert "1 stand there already" in capsys.readouterr().out
    assert not (folder / "a.txt").exists()
    assert main(["check", str(folder)]) == 0


@pytest.mark.parametrize(
    "behind",
    [
        "# came later\n\n2014-06-01\n\nyuki\n  fed  2 g\n",
        "\n# came later\n\n2026-06-01\n\nyuki\n  fed  2 g\n",
        "\n\n# came later",
    ],
)
def test_a_remark_that_came_behind_a_page_left_behind_is_kept(folder: Path, behind: str) -> None:
    (folder / "a.txt").write_text(
        "2014-05-01\n\nyuki\n  watered\n\n2014-06-01\n\nyuki\n  fed  2 g\n"
    )
    assert rest(folder, "2015", "--write") == 0
    (folder / "a.txt").write_text(f"2014-05-01\n\nyuki\n  watered\n{behind}")
    assert rest(folder, "2015", "--write") == 0
    left = (folder / "a.txt").read_text()
    assert "# came later" in left
    assert "2014" not in left


def test_two_files_that_are_alike_for_the_rested_years_stay_two(folder: Path) -> None:
    """Both helpers watered on that day, and wrote it in the same words."""
    for name in ("one.txt", "two.txt"):
        (folder / name).write_text(
            f"2014-06-01\n\nyuki\n  watered\n\n2025-06-0{len(name) - 6}\n\nyuki\n  noted  {name}\n"
        )
    lines = said(folder)
    assert lines.count(("2014-06-01", "yuki", "watered", "")) == 2
    assert rest(folder, "2014", "--write") == 0
    assert said(folder) == lines


def test_jot_writes_new_pages_where_the_old_ones_came_from(folder: Path) -> None:
    for path in (folder / "diary").iterdir():
        path.unlink()
    (folder / "a.txt").unlink()
    (folder / "diary/2024.txt").write_text("2024-05-01\n\nyuki\n  watered\n")
    assert rest(folder, "2024", "--write") == 0
    assert main(["jot", "yuki fed", "--journal", str(folder), "--on", "2025-02-01"]) == 0
    assert (folder / "diary/2025.txt").read_text() == "2025-02-01\n\nyuki\n  fed\n"
