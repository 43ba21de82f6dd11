"""Whatever a diary holds: an edited copy beside it doubles nothing, and loses nothing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta
from itertools import chain
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.examples import examples
from tests.fates import fates_of
from tests.language.conftest import CARDS, TODAY

from backbud.collection.replay import replay
from backbud.journal.read import Journal, read_journal

TREES = ("hoshi", "yuki", "kaze")
# What is done once, and what adds up: wires, roots, hours, money.
ADDS_UP = ("wired", "repotted", "worked", "billed", "bent")
# The figure makes each line of a journal one of its own.
ACTS = (
    "wired {n} mm Al on left {n}",
    "repotted {n} cm off below",
    "bent left {n}",
    "worked {n} h",
    "billed {n} EUR",
    "trimmed",
    "watered",
    "fed",
    "noted some words",
)
NAMES = ("old-diary.txt", "backup/2027.txt", "a.txt", "resting-place.txt")

# What two may honestly write alike.
OF_EACH = ("worked", "watered", "fed", "noted")

Line = tuple[str, str]
Day = list[Line]


@st.composite
def diaries(draw: st.DrawFn) -> dict[int, Day]:
    """By days since the first of January what was done to whom."""
    days = draw(st.lists(st.integers(0, 120), min_size=3, max_size=8, unique=True))
    out: dict[int, Day] = {}
    n = 0
    for day in sorted(days):
        lines = draw(
            st.lists(
                st.tuples(st.sampled_from(TREES), st.sampled_from(ACTS)), min_size=1, max_size=4
            )
        )
        out[day] = [(tree, act.format(n=(n := n + 1) % 9 + 1)) for tree, act in lines]
    return out


EDITS = ("change", "drop", "move", "add", "tree", "remark", "page")


@st.composite
def edited(draw: st.DrawFn, diary: dict[int, Day]) -> tuple[dict[int, Day], Counter[str]]:
    """A copy with one page and one line edited, and how much was written anew."""
    copy = {day: [*lines] for day, lines in diary.items()}
    new: Counter[str] = Counter()
    for day in draw(st.lists(st.sampled_from(sorted(copy)), min_size=1, max_size=2, unique=True)):
        kind = draw(st.sampled_from(EDITS))
        at = draw(st.integers(0, len(copy[day]) - 1))
        tree, words = copy[day][at]
        if kind == "change":
            copy[day][at] = (tree, words.translate(str.maketrans("123456789", "234567891")))
        elif kind == "drop":
            del copy[day][at]
        elif kind == "move":
            copy[day + 130] = copy.pop(day)
        elif kind == "tree":
            copy[day][at] = (TREES[(TREES.index(tree) + 1) % 3], words)
        elif kind == "remark":
            copy[day][at] = (tree, f"{words} -- as planned")
        elif kind == "add":
            copy[day].append((tree, "worked 30 min"))
            new["worked"] += 1
        else:
            copy[200 + day] = [(tree, "wired 1 mm Al on apex")]
            new["wired"] += 1
    return copy, new


def _text(diary: dict[int, Day]) -> str:
    out = ""
    for day, lines in sorted(diary.items()):
        out += f"{date(2026, 8, 1) + timedelta(day)}\n"
        out += "".join(f"{tree}\n  {words}\n" for tree, words in lines)
    return out


def _read(files: dict[str, str]) -> tuple[Journal, Counter[str]]:
    """The journal, and how often each act that adds up was done, tree by tree."""
    with TemporaryDirectory() as folder:
        for name, text in {
            "backbud.toml": 'language = 1\ncurrency = "EUR"\n',
            "cards.txt": CARDS + "  owner marrow\n",
            **files,
        }.items():
            path = Path(folder, name)
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, "utf-8")
        journal = read_journal(folder, TODAY)
        assert [f for of in fates_of(journal).values() for f in of if f == "lost"] == []
    histories, _ = replay(journal)
    events = [entry.event for tree in histories.trees.values() for entry in tree.entries]
    return journal, Counter(event.act for event in events if event.act in ADDS_UP)


def _telling(lines: Iterable[Line]) -> int:
    """How many of these lines are done once to a tree on a day."""
    return sum(not words.startswith(OF_EACH) for _, words in lines)


def _alike(diary: dict[int, Day], copy: dict[int, Day]) -> int:
    """How many of them stand in both."""
    return sum(
        _telling((Counter(lines) & Counter(copy.get(day, []))).elements())
        for day, lines in diary.items()
    )


@settings(max_examples=examples(30))
@given(st.data())
def test_an_edited_copy_of_any_diary_doubles_nothing_and_loses_nothing(data: st.DataObject) -> None:
    diary = data.draw(diaries())
    copy, new = data.draw(edited(diary))
    telling = _telling(chain.from_iterable(diary.values()))
    # A copy of which nearly all that could tell was changed is nobody's to know.
    assume(_alike(diary, copy) >= max(3, telling / 2 + 1))
    name = data.draw(st.sampled_from(NAMES))
    _, once = _read({"diary/2027.txt": _text(diary)})
    journal, both = _read({"diary/2027.txt": _text(diary), name: _text(copy)})
    for act in ADDS_UP:
        assert both[act] <= once[act] + new[act], act
    assert any(
        one.code in ("edited-copy", "repeated-file", "repeated-lines") for one in journal.problems()
    )
