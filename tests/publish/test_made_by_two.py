"""What two processes make of a journal is what one makes of it, byte for byte."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from backbud.journal import room_for_copy
from backbud.journal.shared_out import shared_out

EXAMPLE = Path(__file__).parents[2] / "example_journal"
ALONE = "sharing.may_be_copied = lambda: False"
# Makes a journal by two, however small it is, in a process that has no thread. What stands in its
# place goes before.
BY_TWO = """
import sys
from datetime import date
from backbud import compiled, in_parts
from backbud.journal import second_process as sharing
from backbud.make import make
in_parts.MANY_TREES, in_parts.TREES = 1, {trees}
there = []
class Counted(sharing.SecondProcess):
    def pieces(self):
        made = list(super().pieces())
        there.append(len(made) == 1)
        return iter(made)
sharing.SecondProcess = Counted
{before}
made = make(sys.argv[1], date(2026, 6, 2), by_two=True)
print(len(there), sum(there), len(made.problems), made.summary.replace(chr(10), " / "), flush=True)
"""


Made = dict[str, bytes]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("two") / "journal"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns(".backbud", "made"))
    return folder


@pytest.fixture(scope="module")
def alone(folder: Path) -> tuple[Made, str]:
    """What one process makes of the journal, and what that told."""
    counts, told = by_two(folder, ALONE)
    assert counts == (0, 0)
    return made(folder), told


def by_two(folder: Path, before: str = "", trees: int = 3) -> tuple[tuple[int, int], str]:
    """Make it anew. How many parts were given to copies, and how many of them came back; and what
    was told."""
    for name in (".backbud", "made"):
        shutil.rmtree(folder / name, ignore_errors=True)
    script = BY_TWO.format(before=before, trees=trees)
    done = subprocess.run(
        [sys.executable, "-c", script, str(folder)], capture_output=True, text=True, check=True
    )
    parts, there, told = done.stdout.split(" ", 2)
    return (int(parts), int(there)), told


def made(folder: Path) -> Made:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in (folder / "made").rglob("*")
        if path.is_file()
    }


@pytest.mark.parametrize(("trees", "beside"), [(1, 12), (4, 3)])
def test_all_is_the_same(folder: Path, alone: tuple[Made, str], trees: int, beside: int) -> None:
    """25 trees in parts: the first is made before, then every other one beside another."""
    (parts, there), told = by_two(folder, trees=trees)
    assert (made(folder), told) == alone
    assert parts == there == beside


@pytest.mark.parametrize("before", ["", "compiled.may_go_in_parts = lambda session: False"])
def test_one_process_makes_the_same_at_once(
    folder: Path, alone: tuple[Made, str], before: str
) -> None:
    """All trees in one part; and all plans held, none laid down."""
    counts, told = by_two(folder, f"{ALONE}\n{before}", trees=1000)
    assert (counts, made(folder), told) == ((0, 0), *alone)


def test_what_a_dead_copy_left_the_first_process_does(
    folder: Path, alone: tuple[Made, str]
) -> None:
    (parts, there), told = by_two(
        folder, "import os\nin_parts._in_one_piece = lambda *a: os._exit(9)"
    )
    assert (made(folder), told) == alone
    assert (parts, there) == (4, 0)


def test_a_rule_that_fails_is_told_of_the_first_tree(folder: Path) -> None:
    """Whichever process comes upon it first."""
    before = (
        "from backbud.plan.asking import Asker\nask = Asker.ask\n"
        "def fails(self, rule, tree, *others):\n"
        "    if rule.id.endswith('wire-check') and tree.handle > 'f':\n"
        "        self._failed_for(rule, tree, ValueError('made to fail'))\n"
        "    return ask(self, rule, tree, *others)\n"
        "Asker.ask = fails"
    )
    _, alone = by_two(folder, f"{before}\n{ALONE}")
    assert by_two(folder, before)[1] == alone != by_two(folder, ALONE)[1]


def test_a_page_that_fails_fails_for_that_tree_alone(folder: Path) -> None:
    before = (
        "from backbud.pages import render\npage = render.tree_page_of\n"
        "def fails(own, shared):\n"
        "    if own.trees[0].handle == 'heron': raise ValueError('made to fail')\n"
        "    return page(own, shared)\n"
        "render.tree_page_of = fails"
    )
    by_two(folder, before)
    assert b"could not be made" in (folder / "made/trees/heron.html").read_bytes()
    assert b"could not be made" not in (folder / "made/trees/crow.html").read_bytes()


def pieces_of(part: int) -> Iterator[bytes]:
    yield b"%d" % part
    yield b""
    yield b"x" * part


def half_of(part: int) -> Iterator[bytes]:
    """Fails in the middle of the fourth part."""
    yield b"%d" % part
    if part == 3 and os.getpid() != FIRST:
        raise ValueError("made to fail")
    yield b""
    yield b"x" * part


FIRST = os.getpid()


@pytest.fixture
def copied(monkeypatch: pytest.MonkeyPatch) -> None:
    """What other tests of this process left running, and how many processors there are, is no
    matter: the copy asks for none of it."""
    monkeypatch.setattr("backbud.journal.shared_out.may_be_copied", lambda: True)


@pytest.mark.parametrize("make", [pieces_of, half_of])
def test_each_part_comes_once_and_whole(
    tmp_path: Path, copied: None, make: Callable[[int], Iterator[bytes]]
) -> None:
    shared = shared_out(8, str(tmp_path), make)
    assert shared is not None
    with shared:
        time.sleep(0.5)  # so that the copy has taken the first parts
        found = {
            part: list(pieces_of(part) if pieces is None else pieces)
            for part, pieces in shared.parts()
        }
    assert found == {part: list(pieces_of(part)) for part in range(8)}
    assert list(tmp_path.iterdir()) == []


def test_what_nobody_asks_for_any_more_is_not_waited_for(
    tmp_path: Path, copied: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who ends early leaves no process behind."""
    begun, fork = list[int](), os.fork

    def counted() -> int:
        number = fork()
        begun.append(number)
        return number

    monkeypatch.setattr("os.fork", counted)
    shared = shared_out(500, str(tmp_path), pieces_of)
    assert shared is not None
    with shared:
        next(shared.parts())
    assert begun
    for number in begun:
        with pytest.raises(ChildProcessError):
            os.waitpid(number, os.WNOHANG)


def _refused(*_: object, **__: object) -> int:
    raise OSError("made to fail")


@pytest.mark.parametrize(
    ("what", "other"),
    [
        ("os.fork", _refused),
        ("os.sched_getaffinity", lambda _: {0}),
        ("tempfile.TemporaryFile", _refused),
        ("backbud.journal.shared_out.has_room_for_copy", lambda: False),
    ],
)
def test_where_there_can_be_no_copy(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str, other: object
) -> None:
    monkeypatch.setattr(what, other, raising=False)
    assert shared_out(8, str(tmp_path), pieces_of) is None


def test_no_copy_is_made_of_a_process_in_which_a_thread_runs(tmp_path: Path) -> None:
    ended = threading.Event()
    thread = threading.Thread(target=ended.wait)
    thread.start()
    try:
        assert shared_out(8, str(tmp_path), pieces_of) is None
    finally:
        ended.set()
        thread.join()


@pytest.mark.parametrize(
    ("held", "available", "limit", "has_room"),
    [
        (100, 101, float("inf"), True),
        (100, 100, float("inf"), False),
        (100, 500, 201.0, True),
        (100, 500, 200.0, False),
    ],
)
def test_a_copy_needs_as_much_again(
    monkeypatch: pytest.MonkeyPatch, held: int, available: int, limit: float, has_room: bool
) -> None:
    monkeypatch.setattr(room_for_copy, "_held", lambda: held)
    monkeypatch.setattr(room_for_copy, "_available", lambda: available)
    monkeypatch.setattr(room_for_copy, "_limit", lambda: limit)
    assert room_for_copy.has_room_for_copy() is has_room


def test_where_the_system_does_not_say_there_is_room(monkeypatch: pytest.MonkeyPatch) -> None:
    def nobody_says() -> int:
        raise FileNotFoundError("/proc/self/statm")

    monkeypatch.setattr(room_for_copy, "_held", nobody_says)
    assert room_for_copy.has_room_for_copy()
