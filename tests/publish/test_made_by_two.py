"""What two processes make of a journal is what one makes of it, byte for byte."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import msgspec
import pytest

from backbud.journal import room_for_copy
from backbud.journal.by_turns import by_turns

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
in_parts.MANY_TREES, in_parts.PART, in_parts.HELD = 1, {trees}, 2
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


@pytest.mark.parametrize(("trees", "beside"), [pytest.param(1, 12, marks=pytest.mark.long), (4, 3)])
def test_all_is_the_same(folder: Path, alone: tuple[Made, str], trees: int, beside: int) -> None:
    """25 trees in parts: the first is made before, then every other one beside another."""
    (parts, there), told = by_two(folder, trees=trees)
    assert (made(folder), told) == alone
    assert parts == there == beside


@pytest.mark.parametrize(
    "before",
    [
        *(pytest.param(one, marks=pytest.mark.long) for one in ("", "in_parts.HELD = 0")),
        "compiled.may_go_in_parts = lambda session: False",
    ],
)
def test_one_process_makes_the_same_at_once(
    folder: Path, alone: tuple[Made, str], before: str
) -> None:
    """All trees in one part, whose plans are held, or laid down; and all planned at once."""
    counts, told = by_two(folder, f"{ALONE}\n{before}", trees=1000)
    assert (counts, made(folder), told) == ((0, 0), *alone)


def test_what_a_dead_copy_left_the_first_process_does(
    folder: Path, alone: tuple[Made, str]
) -> None:
    (parts, there), told = by_two(
        folder,
        "import os\nfrom backbud.journal import by_turns\n"
        "by_turns._in_one_piece = lambda *a: os._exit(9)",
    )
    assert (made(folder), told) == alone
    assert (parts, there) == (4, 0)


# Tells how often something was made of each tree.
COUNTS = """
made_of = []
def counted(cls, name):
    made = getattr(cls, name)
    def count(self, tree, *others):
        made_of.append((name, getattr(tree, 'handle', tree)))
        return made(self, tree, *others)
    setattr(cls, name, count)
from backbud.plan.elsewhere import Elsewhere
from backbud.plan.stores.spent import TakenByTrees
counted(TakenByTrees, '_by')
counted(Elsewhere, 'planned_tree')
"""


def test_what_is_made_ahead_of_a_tree_is_made_once(folder: Path, alone: tuple[Made, str]) -> None:
    """What it took from the shelf, and what it will ask for at home: 25 trees, and papers are made
    of five of them."""
    counts = (
        f"{ALONE}\nin_parts.HELD = 0\n{COUNTS}import atexit\n"
        "atexit.register(lambda: print(len(made_of), len({*made_of})))"
    )
    _, told = by_two(folder, counts)
    assert told == f"{alone[1]}30 30\n"
    assert made(folder) == alone[0]


# A rule fails for some trees.
FAILS = (
    "from backbud.plan.asking import Asker\nask = Asker.ask\n"
    "def fails(self, rule, tree, *others):\n"
    "    if rule.id.endswith('wire-check') and tree.handle > 'f':\n"
    "        self._failed_for(rule, tree, ValueError('made to fail'))\n"
    "    return ask(self, rule, tree, *others)\n"
    "Asker.ask = fails"
)


def test_a_rule_that_fails_is_told_of_the_first_tree(folder: Path) -> None:
    """Whichever process comes upon it first."""
    _, alone = by_two(folder, f"{FAILS}\n{ALONE}")
    assert by_two(folder, FAILS)[1] == alone != by_two(folder, ALONE)[1]


def test_a_page_that_fails_fails_for_that_tree_alone(folder: Path) -> None:
    before = (
        "from backbud.pages import tree_page\ndata = tree_page.trees_data\n"
        "def fails(views):\n"
        "    if any(own.trees[0].handle == 'heron' for own in views): raise ValueError('made to')\n"
        "    return data(views)\n"
        "tree_page.trees_data = fails"
    )
    by_two(folder, before)
    assert b"could not be made" in (folder / "made/trees/heron.html").read_bytes()
    assert b"could not be made" not in (folder / "made/trees/crow.html").read_bytes()


# Plans a journal by two, and tells all of it.
PLANNED = """
import sys
from datetime import date
from backbud.journal import second_process as sharing
from backbud.plan import run
from backbud.session import open_session
run.MANY_TREES, run.TREES = 1, 3
begun, fork = [], sharing.os.fork
sharing.os.fork = lambda: begun.append(1) or fork()
{before}
session = open_session(sys.argv[1], date(2026, 6, 2), by_two=True, keeps=False)
plan = session.plan()
problems = [str(one) for one in session.problems()]
print(len(begun), list(plan.follow_ups.items()), plan.bites, problems)
"""


def planned(folder: Path, before: str = "") -> tuple[int, str]:
    """How many copies were begun, and the plan with what was found wrong."""
    script = PLANNED.format(before=before)
    done = subprocess.run(
        [sys.executable, "-c", script, str(folder)],
        capture_output=True,
        text=True,
        check=True,
        # So that sets are written in one order.
        env={**os.environ, "PYTHONHASHSEED": "1"},
    )
    begun, told = done.stdout.split(" ", 1)
    return int(begun), told


def test_a_command_that_only_plans_has_the_same_plan(folder: Path) -> None:
    begun, told = planned(folder)
    assert begun == 4
    assert planned(folder, ALONE) == (0, told)


def test_what_cannot_be_sent_is_planned_by_the_first_process(folder: Path) -> None:
    before = (
        "from backbud.plan import each_tree\nsent = each_tree.sent_tree\n"
        "def some(handle, *others):\n"
        "    if handle > 'h': raise each_tree.CannotBeSent(handle)\n"
        "    return sent(handle, *others)\n"
        "each_tree.sent_tree = some"
    )
    assert planned(folder, before) == planned(folder)


def test_a_plan_by_two_tells_of_a_rule_that_fails_what_one_tells(folder: Path) -> None:
    begun, told = planned(folder, FAILS)
    assert begun
    assert planned(folder, f"{FAILS}\n{ALONE}") == (0, told)
    assert "made to fail" in told


FIRST = os.getpid()
Pieces = tuple[int, int, bytes]


def here(part: int) -> Iterator[Pieces]:
    """Pieces of a part, with who made them."""
    for n in range(part):
        yield os.getpid(), part, b"x" * n


def there(part: int) -> bytes:
    return msgspec.msgpack.encode(list(here(part)))


def half_there(part: int) -> bytes:
    """Fails at the fourth part; others hold more than a pipe does."""
    if part == 3:
        raise ValueError("made to fail")
    return there(part) + b"\xc0" * 3_000_000


def came(data: bytes) -> Iterator[Pieces]:
    yield from msgspec.msgpack.decode(data.rstrip(b"\xc0"), type=list[Pieces])


@pytest.fixture
def copied(monkeypatch: pytest.MonkeyPatch) -> None:
    """What other tests of this process left running, and how many processors there are, is no
    matter: the copy asks for none of it."""
    monkeypatch.setattr("backbud.journal.second_process.may_be_copied", lambda: True)


@pytest.mark.parametrize(("make", "beside"), [(there, {1, 3, 5, 7}), (half_there, {1, 5, 7})])
def test_each_part_comes_once_and_whole(
    copied: None, make: Callable[[int], bytes], beside: set[int]
) -> None:
    found = list(by_turns(range(8), here, make, came))
    assert [(part, octets) for _, part, octets in found] == [
        (part, b"x" * n) for part in range(8) for n in range(part)
    ]
    assert {part for made_by, part, _ in found if made_by != FIRST} == beside


def test_what_nobody_asks_for_any_more_leaves_no_process_behind(
    copied: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, fork = list[int](), os.fork

    def counted() -> int:
        number = fork()
        begun.append(number)
        return number

    monkeypatch.setattr("os.fork", counted)
    made = by_turns(range(2, 500), here, there, came)
    next(made)
    made.close()
    assert len(begun) == 1
    for number in begun:
        with pytest.raises(ChildProcessError):
            os.waitpid(number, os.WNOHANG)


def all_here() -> bool:
    """Whether every part is made by this process, with nothing left out."""
    found = list(by_turns(range(8), here, there, came))
    return found == [one for part in range(8) for one in here(part)]


def _refused(*_: object, **__: object) -> int:
    raise OSError("made to fail")


@pytest.mark.parametrize(
    ("what", "other"),
    [
        ("os.fork", _refused),
        ("os.sched_getaffinity", lambda _: {0}),
        ("backbud.journal.by_turns.has_room_for_copy", lambda: False),
    ],
)
def test_where_there_can_be_no_copy(
    monkeypatch: pytest.MonkeyPatch, what: str, other: object
) -> None:
    monkeypatch.setattr(what, other, raising=False)
    assert all_here()


def test_no_copy_is_made_of_a_process_in_which_a_thread_runs() -> None:
    ended = threading.Event()
    thread = threading.Thread(target=ended.wait)
    thread.start()
    try:
        assert all_here()
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
