"""A run with nothing to do is known as such, and any change at all is seen."""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from backbud import start
from backbud.publish import unchanged
from backbud.publish.commit import finish, publish
from backbud.publish.unchanged import fingerprint, forget, nothing_to_do, remember

DAY = "2027-03-06"
SUMMARY = "3 works fall due this week.\nThe calendar is in made/calendars."


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """A journal whose last `make` is remembered."""
    folder = tmp_path / "journal"
    for name, text in {
        "backbud.toml": "language = 1\n",
        "cards/trees.txt": "tree hoshi\n",
        "diary/2027.txt": "2027-03-06\n",
        "diary/.gitignore": "drafts\n",
        "weather/home.csv": "date,low,high,rain\n",
        "plugins/elm.py": "NAME = 'elm'\n",
        "plugins/more/oak.py": "NAME = 'oak'\n",
        "photos/hoshi.jpg": "a picture",
        "tools/count.py": "print()\n",
        "large.txt": "x" * 70_000 + "\n",
    }.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)
    publish(str(folder), {"index.html": b"index", "trees/hoshi.html": b"hoshi"})
    known = fingerprint(str(folder), DAY, "make")
    remember(str(folder), known, SUMMARY, 1, also=("photos/hoshi.jpg", "photos/yuki.jpg"))
    return folder


def last(journal: Path, today: str = DAY, arguments: str = "make") -> tuple[int, str] | None:
    return nothing_to_do(str(journal), today, arguments)


def rewrite(path: Path, text: str) -> None:
    """Change the bytes and neither size nor time."""
    before = path.stat()
    assert len(text.encode()) == before.st_size
    path.write_text(text)
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def put_a_link_in_its_place(journal: Path) -> None:
    (journal / "diary/2027.txt").rename(journal / "diary/2027.old")
    (journal / "diary/2027.txt").symlink_to(journal / "diary/2027.old")


def touch(path: Path) -> None:
    os.utime(path, ns=(0, 1))


def test_nothing_changed_gives_the_status_and_the_words_of_the_last_run(journal: Path) -> None:
    assert last(journal) == (1, SUMMARY)
    assert last(journal) == (1, SUMMARY)


CHANGES: dict[str, Callable[[Path], object]] = {
    "a diary's byte, neither size nor time": lambda journal: rewrite(
        journal / "diary/2027.txt", "2027-03-07\n"
    ),
    "a byte behind the first chunk": lambda journal: rewrite(
        journal / "large.txt", "x" * 69_999 + "y\n"
    ),
    "a line more": lambda journal: (journal / "diary/2027.txt").write_text("2027-03-06\n\n"),
    "a line less": lambda journal: (journal / "diary/2027.txt").write_text(""),
    "an empty file more": lambda journal: (journal / "diary/2028.txt").write_text(""),
    "a file less": lambda journal: (journal / "cards/trees.txt").unlink(),
    "another name": lambda journal: (journal / "cards/trees.txt").rename(journal / "cards/t.txt"),
    "a line moved to the next file": lambda journal: [
        (journal / "cards/trees.txt").write_text(""),
        (journal / "diary/2027.txt").write_text("tree hoshi\n2027-03-06\n"),
    ],
    "the settings": lambda journal: rewrite(journal / "backbud.toml", "language = 2\n"),
    "the weather": lambda journal: (journal / "weather/home.csv").write_text("date\n"),
    "what is ignored": lambda journal: (journal / "diary/.gitignore").write_text(""),
    "what is ignored at the top": lambda journal: (journal / ".gitignore").write_text("*.txt"),
    "a species": lambda journal: rewrite(journal / "plugins/elm.py", "NAME = 'Elm'\n"),
    "a species below": lambda journal: rewrite(journal / "plugins/more/oak.py", "NAME = 'Oak'\n"),
    "a link to a folder": lambda journal: (journal / "more").symlink_to(journal / "diary"),
    "a link to nothing": lambda journal: (journal / "more.txt").symlink_to(journal / "nothing"),
    "a link in place of the very same file": put_a_link_in_its_place,
    "a photograph": lambda journal: touch(journal / "photos/hoshi.jpg"),
    "a photograph gone": lambda journal: (journal / "photos/hoshi.jpg").unlink(),
    "a photograph that was missed": lambda journal: (journal / "photos/yuki.jpg").write_text("x"),
    "a stranger among the pages": lambda journal: (journal / "made/mine.txt").write_text("mine"),
    "a page gone": lambda journal: (journal / "made/index.html").unlink(),
    "the manifest gone": lambda journal: (journal / "made/.manifest").unlink(),
    "the output gone": lambda journal: shutil.rmtree(journal / "made"),
    "the memory gone": lambda journal: shutil.rmtree(journal / ".backbud"),
    "forgotten": lambda journal: forget(str(journal)),
    "a commitment left over": lambda journal: (journal / ".backbud/commitment").touch(),
    "staged files left over": lambda journal: (journal / ".backbud/staged").mkdir(),
    "half a memory": lambda journal: os.truncate(journal / ".backbud/remembered", 200),
    "an empty memory": lambda journal: os.truncate(journal / ".backbud/remembered", 0),
    "a memory of noughts": lambda journal: (journal / ".backbud/remembered").write_bytes(
        bytes(500)
    ),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_each_change_is_seen(journal: Path, change: Callable[[Path], object]) -> None:
    change(journal)
    assert last(journal) is None


@pytest.mark.parametrize(
    "change",
    [
        lambda journal: touch(journal / "diary/2027.txt"),
        lambda journal: touch(journal / "made/.manifest"),
        lambda journal: (journal / "tools/count.py").write_text("print(1)\n"),
        lambda journal: (journal / "photos/elm.jpg").write_text("not asked for"),
        lambda journal: [
            (journal / ".editor").mkdir(),
            (journal / ".editor/notes.txt").write_text("not read"),
        ],
        lambda journal: finish(str(journal)),
    ],
)
def test_what_the_output_does_not_depend_on_is_no_change(
    journal: Path, change: Callable[[Path], object]
) -> None:
    change(journal)
    assert last(journal) == (1, SUMMARY)


def test_another_day_or_other_arguments_are_a_change(journal: Path) -> None:
    assert last(journal, today="2027-03-07") is None
    assert last(journal, arguments="make json") is None
    assert last(journal, today="2027-03-0", arguments="6make") is None


@pytest.mark.parametrize("change", [*CHANGES.values()][:17], ids=[*CHANGES][:17])
def test_each_change_of_an_input_is_seen_by_a_process_that_has_seen_them(
    journal: Path, change: Callable[[Path], object], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(unchanged, "_TOO_NEW_NS", 0)
    # The clock of a file system goes in steps of some milliseconds.
    time.sleep(0.02)
    seen: dict[str, unchanged.SeenInput] = {}
    before = fingerprint(str(journal), DAY, "make", "", seen)
    assert before == fingerprint(str(journal), DAY, "make") and len(seen) == 8
    change(journal)
    after = fingerprint(str(journal), DAY, "make", "", seen)
    assert before != after == fingerprint(str(journal), DAY, "make")


def test_an_input_that_nobody_touched_is_not_read_again(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nor is it believed to stand as it was where it was written just before it was read."""
    seen: dict[str, unchanged.SeenInput] = {}
    known = fingerprint(str(journal), DAY, "make", "", seen)
    assert not seen
    for path in journal.rglob("*.txt"):
        os.utime(path, ns=(0, 1))
    monkeypatch.setattr(unchanged, "_TOO_NEW_NS", 0)
    time.sleep(0.02)
    assert fingerprint(str(journal), DAY, "make", "", seen) == known
    read: list[str] = []
    monkeypatch.setattr(unchanged, "FileIO", read.append)
    assert fingerprint(str(journal), DAY, "make", "", seen) == known and not read


def test_a_file_saved_while_the_run_was_at_work_is_not_remembered(journal: Path) -> None:
    forget(str(journal))
    known = fingerprint(str(journal), DAY, "make")
    (journal / "diary/2027.txt").write_text("saved meanwhile")
    remember(str(journal), known, SUMMARY)
    assert last(journal) is None


def test_what_cannot_be_read_has_no_fingerprint_and_is_not_remembered(journal: Path) -> None:
    forget(str(journal))
    assert fingerprint(str(journal / "nowhere"), DAY, "make") == ""
    remember(str(journal), "", SUMMARY)
    assert last(journal) is None


def test_a_linked_file_is_read_and_a_linked_folder_is_not(journal: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere/notes.txt").write_text("1")
    (tmp_path / "elsewhere.csv").write_text("1")
    (journal / "folder").symlink_to(tmp_path / "elsewhere")
    (journal / "weather.csv").symlink_to(tmp_path / "elsewhere.csv")
    remember(str(journal), fingerprint(str(journal), DAY, "make"), SUMMARY)
    (tmp_path / "elsewhere/notes.txt").write_text("2")
    assert last(journal) == (0, SUMMARY)
    (tmp_path / "elsewhere.csv").write_text("2")
    assert last(journal) is None


def test_a_journal_that_was_moved_is_made_again(journal: Path, tmp_path: Path) -> None:
    journal.rename(tmp_path / "moved")
    assert last(tmp_path / "moved") is None


def test_a_disk_that_takes_no_memory_is_no_failure(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(source: str, target: str) -> None:
        raise OSError(errno.ENOSPC, "No space left on device", target)

    known = fingerprint(str(journal), "2027-03-07", "make")
    monkeypatch.setattr(os, "replace", full)
    remember(str(journal), known, "new")
    assert last(journal, today="2027-03-07") is None
    assert last(journal) == (1, SUMMARY)
    assert sorted(os.listdir(journal / ".backbud")) == [".gitignore", "lock", "remembered"]


def test_a_name_that_is_no_text_does_no_harm(journal: Path) -> None:
    try:
        (journal / "diary" / os.fsdecode(b"\xff.txt")).write_text("")
    except OSError:
        pytest.skip("this system has no such names")
    remember(str(journal), fingerprint(str(journal), DAY, "make"), SUMMARY)
    assert last(journal) == (0, SUMMARY)


def test_the_fingerprint_tells_where_one_text_ends_and_the_next_begins(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("")
    assert fingerprint(str(tmp_path), "1", "23") != fingerprint(str(tmp_path), "12", "3")


# --- the installed program -----------------------------------------------------------------------


@pytest.fixture
def installed(journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of installed packages, remembered as the program that made the output."""
    site = tmp_path / "site"
    for name in ("invented_tree/__init__.py", "invented_tree/pages/page.css"):
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text("")
    (site / "invented_tree-1.0.dist-info").mkdir()
    monkeypatch.syspath_prepend(site)
    monkeypatch.setattr(unchanged, "PACKAGES", ("backbud", "invented_tree"))
    remember(str(journal), fingerprint(str(journal), DAY, "make"), SUMMARY)
    assert last(journal) == (0, SUMMARY)
    return site


PROGRAM_CHANGES: dict[str, Callable[[Path], object]] = {
    "a module's time": lambda site: touch(site / "invented_tree/__init__.py"),
    "a stylesheet's size": lambda site: (site / "invented_tree/pages/page.css").write_text("a{}"),
    "a module more": lambda site: (site / "invented_tree/more.py").write_text(""),
    "a module moved": lambda site: (site / "invented_tree/pages/page.css").rename(
        site / "invented_tree/page.css"
    ),
    "a package more": lambda site: (site / "backbud_elm-1.0.dist-info").mkdir(),
    "another version": lambda site: (site / "invented_tree-1.0.dist-info").rename(
        site / "invented_tree-1.1.dist-info"
    ),
    "installed again": lambda site: touch(site / "invented_tree-1.0.dist-info"),
}


@pytest.mark.parametrize("change", PROGRAM_CHANGES.values(), ids=PROGRAM_CHANGES.keys())
def test_each_change_of_the_program_is_seen(
    journal: Path, installed: Path, change: Callable[[Path], object]
) -> None:
    change(installed)
    assert last(journal) is None


def test_compiled_modules_are_no_change_of_the_program(journal: Path, installed: Path) -> None:
    (installed / "invented_tree/__pycache__").mkdir()
    (installed / "invented_tree/__pycache__/more.pyc").write_text("")
    assert last(journal) == (0, SUMMARY)
    assert "invented_tree" not in sys.modules


# --- the command line ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("argv", "folder", "day", "arguments"),
    [
        (["make", "J"], "J", "2027-03-06", "make"),
        (["make", "J", "--json"], "J", "2027-03-06", "make json"),
        (["make", "--on", "2026-01-31", "J"], "J", "2026-01-31", "make on"),
        (["make", "--json", "--on=2026-01-31", "J"], "J", "2026-01-31", "make on json"),
        (["make"], "", "2027-03-06", "make"),
    ],
)
def test_a_plain_make_is_understood(
    journal: Path, argv: list[str], folder: str, day: str, arguments: str
) -> None:
    words = [str(journal) if word == "J" else word for word in argv]
    here = str(journal / "diary")
    assert start.make_request(words, here, DAY) == (str(journal), day, arguments)


@pytest.mark.parametrize(
    "argv",
    [
        [],
        ["due"],
        ["--json", "make"],
        ["make", "--help"],
        ["make", "J", "J"],
        ["make", "--on", "2026-01-31", "--on", "2026-02-01"],
        ["make", "J/diary"],
    ],
)
def test_all_else_is_left_to_the_full_command_line(journal: Path, argv: list[str]) -> None:
    words = [word.replace("J", str(journal), 1) if word[0] == "J" else word for word in argv]
    assert start.make_request(words, str(journal), DAY) is None


def test_a_look_back_leaves_what_is_remembered_of_today(journal: Path) -> None:
    look_back(journal, "make on", "then")
    assert last(journal, arguments="make on") == (1, "then")
    assert last(journal) == (1, SUMMARY)
    forget(str(journal))
    assert last(journal, arguments="make on") is None


@pytest.mark.parametrize("name", [".backbud/remembered", "made/.manifest"])
@pytest.mark.parametrize("put", [os.mkfifo, os.mkdir, lambda path: os.symlink("/dev/zero", path)])
def test_what_is_no_file_is_no_memory_and_nobody_waits_for_it(
    journal: Path, name: str, put: Callable[[Path], object]
) -> None:
    (journal / name).unlink()
    put(journal / name)
    assert last(journal) is None


def test_without_a_journal_here_or_above_it_is_left_to_the_full_command_line(
    tmp_path: Path,
) -> None:
    assert start.make_request(["make"], str(tmp_path), DAY) is None


def python(code: str, *words: object, status: int = 0) -> str:
    """What a new process prints that runs the code with these arguments."""
    ended = subprocess.run(
        [sys.executable, "-c", code, *map(str, words)],
        env=dict(os.environ, PYTHONPATH=os.pathsep.join(filter(None, sys.path))),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ended.returncode, ended.stderr) == (status, "")
    return ended.stdout


REMEMBER = """
import sys
from backbud.publish.unchanged import fingerprint, remember
journal, day, arguments, said = sys.argv[1:]
remember(journal, fingerprint(journal, day, arguments), said, 1, made=f"made-on/{day}")
"""
START = """
import sys
before = set(sys.modules)
from backbud.start import main
status = main()
# It is compiled in, and what was installed beside may have loaded it before.
print(*sorted(set(sys.modules) - before - {"errno"}))
sys.exit(status)
"""


def look_back(journal: Path, arguments: str, said: str) -> None:
    """Publish and remember a look back at the day, as a process of its own."""
    publish(str(journal), {"index.html": b"index"}, made=f"made-on/{DAY}")
    python(REMEMBER, journal, DAY, arguments, said)


def test_make_with_nothing_to_do_says_so_and_loads_next_to_nothing(journal: Path) -> None:
    look_back(journal, "make on", SUMMARY)
    said = python(START, "make", journal, "--on", DAY, status=1)
    assert said.splitlines() == [
        "Nothing changed.",
        "3 works fall due this week.",
        "The calendar is in made/calendars.",
        # The journal has plugins, and whether they are trusted may have changed.
        "__future__ _blake2 backbud backbud.consent backbud.consent.place "
        "backbud.import_path backbud.person backbud.publish backbud.publish.manifest "
        "backbud.publish.mark backbud.publish.memory backbud.publish.plain "
        "backbud.publish.unchanged backbud.say backbud.start backbud_grammar backbud_grammar.shown",
    ]


def test_what_a_program_reads_is_given_as_it_was_remembered(journal: Path) -> None:
    look_back(journal, "make on json", '{"written": 0}')
    said = python(START, "make", journal, "--on", DAY, "--json", status=1)
    assert said.splitlines()[0] == '{"written": 0}'
