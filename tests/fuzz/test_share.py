"""A share of the fuzzing, quick enough for every run; the long one is `python tests/fuzz`."""

from __future__ import annotations

import pytest
from hostile import Files, hostile
from shrink import shrunk
from through import fault_of

# Seeds of their own, so that the share and the long run send different journals through.
FIRST, PARTS, IN_A_PART = 10_000_000, 6, 15


@pytest.mark.parametrize(
    "part", [0, 1, *(pytest.param(part, marks=pytest.mark.long) for part in range(2, PARTS))]
)
def test_odd_journals_are_read_planned_and_published_without_a_fault(part: int) -> None:
    first = FIRST + part * IN_A_PART
    faults = {
        seed: fault.told
        for seed in range(first, first + IN_A_PART)
        if (fault := fault_of(hostile(seed))) is not None
    }
    assert faults == {}


def test_a_seed_gives_the_same_journal_each_time() -> None:
    assert hostile(7) == hostile(7)
    assert hostile(7) != hostile(8)


def test_a_fault_is_told_with_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("a test's")

    monkeypatch.setattr("through.open_session", broken)
    fault = fault_of({"backbud.toml": b"language = 1\n"})
    assert fault is not None
    assert fault.sort == "ZeroDivisionError  in test_share.py:broken"
    assert "a test's" in fault.told


def test_what_takes_too_long_is_told_with_where_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    def endless(*_: object, **__: object) -> None:
        while True:
            pass

    monkeypatch.setattr("through.open_session", endless)
    fault = fault_of({"backbud.toml": b"language = 1\n"}, seconds=0.2)
    assert fault is not None
    assert fault.sort == "overrun"
    assert "longer than 0.2 seconds" in fault.told
    assert "in endless" in fault.told


def test_a_rule_of_ours_that_fails_is_a_fault_though_it_was_caught(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def broken(*_: object) -> None:
        raise KeyError("a test's")

    monkeypatch.setattr("backbud.plan.asking.Asker._check", broken)
    cards = b"tree hoshi\n  kind trident maple\n2027-05-01\nhoshi\n  wired 3 mm Al\n"
    fault = fault_of({"backbud.toml": b"language = 1\n", "cards.txt": cards})
    assert fault is not None
    assert fault.sort.startswith("Unsound rule-failed")


def test_a_journal_is_shrunk_to_what_shows_the_fault() -> None:
    files = {
        "a.txt": b"one\ntwo three four\nfive\n",
        "b.txt": b"six\n",
        "c.txt": b"seven\n",
    }

    def goes_wrong(smaller: Files) -> bool:
        return b"three" in smaller.get("a.txt", b"")

    assert shrunk(files, goes_wrong) == {"a.txt": b"three"}


def test_no_more_smaller_journals_are_tried_than_may_be() -> None:
    tried: list[Files] = []

    def goes_wrong(smaller: Files) -> bool:
        tried.append(smaller)
        return False

    shrunk({"a.txt": b"x" * 500}, goes_wrong, tries=5)
    assert len(tried) == 5
