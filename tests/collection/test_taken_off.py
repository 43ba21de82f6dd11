"""What comes off a part of a tree on which nothing is written to be: held back, and told."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.conftest import UNSAID, Written

from backbud.collection import attached, moments
from backbud.collection.attached import Attached
from backbud.collection.on_tree import Change
from backbud.collection.state import OnTree
from backbud.journal.events import Event
from backbud.plan import settle
from backbud.plan.due import Due
from backbud.session import Session, open_session

CARDS = """\
tree hoshi
  kind  trident maple
tree yuki
  kind  trident maple
"""
ON_IT = "On it: wire on left 1, left 2."
WIRED = "2026-05-04\nhoshi\n  wired  3 mm Al on left 1, 2 mm Al on left 2\n"


def on_hoshi(session: Session) -> list[str]:
    tree = session.plan().trees["hoshi"]
    return [" on ".join(filter(None, (thing.sort, thing.part))) for thing in tree.on_tree]


@pytest.mark.parametrize("part", ["right 9", "branch", "left one", "left 12"])
def test_where_no_wire_stands_none_comes_off(written: Written, part: str) -> None:
    text = f"{CARDS}{WIRED}2026-09-01\nhoshi\n  unwired  on {part} -- all well\n"
    session = written(text, problems=("held-back",))
    (problem,) = [p for p in session.problems() if p.code not in UNSAID]
    assert (problem.file, problem.line, problem.column) == ("journal.txt", 10, 15)
    assert problem.length == len(part)
    assert problem.message == (
        f"no wire is on “{part}” of “hoshi”, so this line is held back and changes nothing"
    )
    assert problem.hint == ON_IT
    assert on_hoshi(session) == ["wire on left 1", "wire on left 2"]
    tree = session.plan().trees["hoshi"]
    assert "unwired" not in tree.last
    assert tree.history[-1].event.held == "unwired"
    looks = [f for f in session.plan().follow_ups["hoshi"] if f.id.startswith("hoshi/wire-check/")]
    assert [f.outcome for f in looks] == ["open", "open"]


def test_a_part_that_is_not_there_holds_back_those_that_are(written: Written) -> None:
    text = f"{CARDS}{WIRED}2026-09-01\nhoshi\n  unwired  on left 1, on right 9\n"
    session = written(text, problems=("held-back",))
    assert on_hoshi(session) == ["wire on left 1", "wire on left 2"]


@pytest.mark.parametrize(
    ("put", "line", "stays"),
    [
        ("wired  3 mm Al on left 2", "unwired  on Left 2", []),
        ("wired  3 mm Al on left 2", "unwired  on left", []),
        # Some of it: the rest stays, and is still looked at.
        ("wired  3 mm Al on left 2", "unwired  on left 2 tip", ["wire on left 2"]),
        ("wired  3 mm Al on left 2", "unwired  on the left 2 tip", ["wire on left 2"]),
        ("wired  3 mm Al on left", "unwired  on left 2", ["wire on left"]),
        # All of the tree was wired, or nobody wrote where.
        ("wired  3 mm Al", "unwired  on left 2", ["wire"]),
        # What came on before the diary began is written nowhere.
        ("guyed  1 mm Cu on left 2", "unwired  on right 9", ["guy on left 2"]),
        ("guyed  1 mm Cu on left 2", "unwired", ["guy on left 2"]),
        ("guyed  1 mm Cu on left 2", "unwired  all", ["guy on left 2"]),
        ("watered", "unwrapped  on apex", []),
    ],
)
def test_what_may_have_come_off_is_no_problem(
    written: Written, put: str, line: str, stays: list[str]
) -> None:
    session = written(f"{CARDS}2026-05-04\nhoshi\n  {put}\n2026-09-01\nhoshi\n  {line}\n")
    assert on_hoshi(session) == stays
    assert session.plan().trees["hoshi"].history[-1].event.held == ""


@pytest.mark.parametrize(
    ("put", "line", "on_it"),
    [
        # Some of it, or another branch too: nobody can tell.
        ("wired  3 mm Al on left 2", "unwired  on left 2 3", "wire on left 2"),
        ("guyed  1 mm Cu on left 2", "unguyed  on apex", "guy on left 2"),
        ("wrapped  raffia on left 2", "unwrapped  on apex", "wrap on left 2"),
        ("wired  3 mm Al on left 2", "unwired  partly, on apex", "wire on left 2"),
        (
            "wired  " + ", ".join(f"2 mm Al on left {n}" for n in range(1, 9)),
            "unwired  on apex",
            "wire on left 1, left 2, left 3, left 4, left 5, left 6 and 2 more",
        ),
    ],
)
def test_of_every_sort(written: Written, put: str, line: str, on_it: str) -> None:
    text = f"{CARDS}2026-05-04\nhoshi\n  {put}\n2026-09-01\nhoshi\n  {line}\n"
    session = written(text, problems=("held-back",))
    (hint,) = [p.hint for p in session.problems() if p.code == "held-back"]
    assert hint == f"On it: {on_it}."


def test_of_several_trees_those_without_it_are_told(written: Written) -> None:
    text = (
        f"{CARDS}{WIRED}2026-05-05\nyuki\n  wired  3 mm Al on apex\n"
        "2026-09-01\nhoshi, yuki\n  unwired  on left 1\n"
    )
    session = written(text, problems=("held-back",))
    assert [p.message for p in session.problems() if p.code == "held-back"] == [
        "no wire is on “left 1” of “yuki”, so this line is held back and changes nothing"
    ]
    assert on_hoshi(session) == ["wire on left 2"]
    assert [t.part for t in session.plan().trees["yuki"].on_tree] == ["apex"]


def test_a_correction_says_where_it_came_off(written: Written) -> None:
    text = (
        f"{CARDS}{WIRED}2026-09-01\nhoshi\n  unwired  on right 9\n"
        "2026-09-02\nhoshi\n  corrected  unwired 2026-09-01, on left 2\n"
    )
    assert on_hoshi(written(text)) == ["wire on left 1"]
    undone = text.replace("2026-09-01, on left 2", "2026-09-01, not done")
    assert on_hoshi(written(undone)) == ["wire on left 1", "wire on left 2"]


def test_what_was_never_put_on_does_not_come_off(written: Written) -> None:
    text = (
        f"{CARDS}{WIRED}2026-05-06\nhoshi\n  wired  2 mm Al on apex\n"
        "2026-05-07\nhoshi\n  corrected  wired 2026-05-06, not done\n"
        "2026-09-01\nhoshi\n  unwired  on apex\n"
    )
    session = written(text, problems=("held-back",))
    assert on_hoshi(session) == ["wire on left 1", "wire on left 2"]


def test_a_check_that_goes_on_from_a_moment_knows_what_is_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("FEW_PAGES", "PAGES_BEFORE_END", "FURTHER_APART"):
        monkeypatch.setattr(moments, name, 2)
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    begun = CARDS + WIRED + "".join(f"2026-06-{n:02}\nhoshi\n  watered\n" for n in range(1, 20))

    def told(text: str) -> list[tuple[int, str]]:
        (tmp_path / "journal.txt").write_text(text)
        session = open_session(str(tmp_path), date(2026, 11, 20), only_check=True)
        return [(p.line, p.hint) for p in session.problems() if p.code == "held-back"]

    assert told(begun) == []
    resumed = []
    real = moments._put_at

    def put_at(*given: object) -> bool:
        resumed.append(real(*given))
        return resumed[-1]

    monkeypatch.setattr(moments, "_put_at", put_at)
    line = begun.count("\n") + 3
    more = f"{begun}2026-09-01\nhoshi\n  unwired  on right 9\n"
    assert told(more) == [(line, ON_IT)]
    assert told(f"{begun}2026-09-01\nhoshi\n  unwired  on left\n") == []
    assert resumed == [True, True]


def thing(part: str, sort: str = "wire") -> OnTree:
    return OnTree(sort, sort, part, 1, date(2026, 5, 4), None)


def test_each_comes_off_where_it_is() -> None:
    on = Attached([thing("left 1"), thing("left 10"), thing("", "tie"), thing("apex left 1")])
    on.change(Change(off=("wire",), parts=("Left 1",)))
    assert [(one.sort, one.part) for one in on.things] == [("wire", "left 10"), ("tie", "")]
    on.change(Change(put=(thing("left 1"),), older=("tie",)))
    assert [(one.part, one.from_before) for one in on.things] == [
        ("left 10", False),
        ("", True),
        ("left 1", False),
    ]
    on.change(Change(off=("wire",), stays=True))
    assert len(on.things) == 3
    on.change(Change(off=("wire", "tie")))
    assert on.things == ()


@pytest.mark.parametrize("wires", [50, 400])
def test_each_act_is_held_against_few_of_many_wires(
    written: Written, monkeypatch: pytest.MonkeyPatch, wires: int
) -> None:
    """Linear: an act on a branch is compared with what is on that branch, however many there are.

    Counted, so that no other work on the machine can turn it.
    """
    compared = {"fold": 0, "settle": 0}
    is_meant, settles = attached.is_meant, settle._settles

    def counted_meant(part: str, named: tuple[str, ...]) -> bool:
        compared["fold"] += 1
        return is_meant(part, named)

    def counted_settles(event: Event, due: Due) -> bool:
        compared["settle"] += 1
        return settles(event, due)

    on = "".join(f"  wired  3 mm Al on left {n}\n" for n in range(wires))
    off = "".join(f"  unwired  on left {n}\n" for n in range(wires))
    session = written(f"{CARDS}2026-05-04\nhoshi\n{on}2026-09-01\nhoshi\n{off}")
    monkeypatch.setattr(attached, "is_meant", counted_meant)
    monkeypatch.setattr(settle, "_settles", counted_settles)
    plan = session.plan()
    assert plan.trees["hoshi"].on_tree == ()
    assert not any(f.is_open(session.today) for f in plan.follow_ups["hoshi"] if "/wire-" in f.id)
    # Of each wire its coming off and a look before it are proposed, and each is met but twice.
    assert compared["settle"] <= 4 * wires, compared
    # It is folded for today, and once for all that rules are asked about.
    assert compared["fold"] <= 4 * wires, compared
