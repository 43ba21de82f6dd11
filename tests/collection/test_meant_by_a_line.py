"""Whom a line names, however it is written, and what of a page is done to them."""

from __future__ import annotations

import pytest

from backbud.collection import whereabouts
from backbud.collection.whereabouts import Histories

CARDS = """place yard
place bench
tree hoshi
  kind   trident maple
  place  yard
tree yuki
  kind   trident maple
  place  yard

"""


def done_to(session, handle: str) -> list[tuple[str, str]]:
    entries = session.histories.trees[handle].entries
    return [(str(entry.event.day), entry.event.act) for entry in entries]


@pytest.mark.parametrize(
    ("subject", "hoshi", "yuki"),
    [
        ("hoshi", 1, 0),
        ("hoshi, yuki", 1, 1),
        ("yuki, hoshi", 1, 1),
        ("Hoshi, YUKI", 1, 1),
        ("hoshi,   yuki", 1, 1),
        # Twice named is once meant.
        ("hoshi, hoshi", 1, 0),
        ("hoshi, yuki, hoshi", 1, 1),
        ("all, hoshi", 1, 1),
    ],
)
def test_a_line_is_done_once_to_each_that_it_names(written, subject, hoshi, yuki) -> None:
    """Twice, as what a subject line means is remembered."""
    session = written(
        f"{CARDS}2026-06-01\n{subject}\n  watered\n2026-06-02\n{subject}\n  watered\n",
        any_problems=True,
    )
    days = [("2026-06-01", "watered"), ("2026-06-02", "watered")]
    assert done_to(session, "hoshi") == days * hoshi
    assert done_to(session, "yuki") == days * yuki


@pytest.mark.parametrize("subject", ["hoshi, yuki", "hoshi,   yuki", "Hoshi, Yuki"])
def test_who_is_gone_and_named_outright_is_told(written, subject) -> None:
    text = f"{CARDS}2026-06-01\nhoshi\n  died\n2026-06-02\n{subject}\n  watered\n"
    session = written(text, problems=("not-here",))
    [told] = [p.message for p in session.problems() if p.code == "not-here"]
    assert told == "“hoshi” is not here: died on 2026-06-01"


def test_of_a_page_only_the_line_that_is_corrected_changes(written) -> None:
    for first in ("watered", "moved  bench"):
        text = (
            f"{CARDS}2026-06-01\nhoshi\n  {first}\n  pruned\n  trimmed\n"
            "2026-06-02\nhoshi\n  corrected  pruned 2026-06-01, not done\n"
        )
        entries = written(text).histories.trees["hoshi"].entries
        undone = [(entry.event.act, entry.undone) for entry in entries]
        act = first.split()[0]
        assert undone == [
            (act, False), ("pruned", True), ("trimmed", False), ("corrected", False),
        ]  # fmt: skip


def test_a_fault_of_ours_is_told_at_the_block_and_all_else_counts(written, monkeypatch) -> None:
    as_it_is = whereabouts.Replay._act

    def breaks(replay, event, meant) -> None:
        if event.act == "moved":
            raise RuntimeError("the bench is gone")
        as_it_is(replay, event, meant)

    monkeypatch.setattr(whereabouts.Replay, "_act", breaks)
    text = f"{CARDS}2026-06-01\nhoshi\n  moved  bench\n2026-06-02\nhoshi\n  died\n"
    session = written(text, any_problems=True)
    [fault] = [p for p in session.problems() if p.code == "fault"]
    assert "RuntimeError" in fault.message
    assert (fault.line, fault.column) == (CARDS.count("\n") + 2, 1)
    assert session.histories.trees["hoshi"].standing == "died"


def test_the_histories_of_some_trees() -> None:
    every = Histories({"hoshi": "one", "yuki": "two", "mori": "three"}, {"pot-1": ()})  # type: ignore[dict-item]
    assert every.only(["yuki", "hoshi", "mori"]) is every
    some = every.only(["yuki", "hoshi"])
    assert dict(some.trees) == {"yuki": "two", "hoshi": "one"}
    assert some.others is every.others
