"""Each wire is asked of once; days are counted by hand.

A wire of 6 September 2025 is told to come off in its time from the Monday a week before the week of
its best day: 16 May 2026 is a Saturday, so from 4 May.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from msgspec.structs import replace
from tests.plan.by_hand import due
from tests.species.conftest import Made

from backbud.collection.state import OnTree, Tree
from backbud.plan.due import Due
from backbud.plan.one_wire import one_wire

MADE = Made()
WIRED = MADE.event("2025-09-06", "wired", "3 mm Al on left 1, 2.5 mm Al on right 2")
SEEN = MADE.event("2026-06-06", "checked", "wire on left 1, biting")
CAME = MADE.event("2026-05-10", "received", "")
YEAR = "2026-03-07 2026-05-16 2026-09-05"
LOOK = ("checked wire", "unwired")


def tree(*parts: str) -> Tree:
    wires = [OnTree("wire", "3 mm Al", part, 1, WIRED.day, WIRED) for part in parts]
    return replace(MADE.tree(WIRED), on_tree=tuple(wires))


def off(where: str, window: str = YEAR, **more: Any) -> Due:
    given: dict[str, Any] = {"rule": "wire-off", "event": WIRED, "at": 0, **more}
    return due(f"off {where}".strip(), "unwired", window, where=where, **given)


def bitten(where: str, at: int = 1, **more: Any) -> Due:
    window = "2026-06-06 2026-06-06 2026-06-13"
    ident = f"bitten {where}".strip()
    given: dict[str, Any] = {"rule": "wire-check-again", "event": SEEN, "at": at, **more}
    return due(ident, "unwired", window, where=where, **given)


def look(opens: str, where: str = "", **more: Any) -> Due:
    given: dict[str, Any] = {"rule": "wire-check-again", "settled_by": LOOK, **more}
    return due("look", "checked", f"{opens} {opens} 2026-12-31", where=where, **given)


def outcomes(dues: list[Due], of: Tree) -> dict[str, str]:
    return {one.follow_up.id: one.follow_up.outcome for one in one_wire(dues, of)}


@pytest.mark.parametrize(
    ("bites", "left", "right"),
    [
        (bitten("left 1"), "replaced", "open"),
        (bitten(""), "replaced", "replaced"),
        (bitten("left"), "replaced", "open"),
        (bitten("apex"), "open", "open"),
        (bitten("left 1", outcome="done"), "open", "open"),
        # A later look stands for it.
        (bitten("left 1", next_cycle=date(2026, 11, 18)), "open", "open"),
        # It was seen before this wire was put on.
        (bitten("left 1", at=0), "open", "open"),
    ],
)
def test_what_bites_stands_for_the_day_on_which_it_usually_comes_off(bites, left, right) -> None:
    found = outcomes([off("left 1"), off("right 2"), bites], tree("left 1", "right 2"))
    assert (found["off left 1"], found["off right 2"]) == (left, right)


@pytest.mark.parametrize(
    ("opens", "dues", "expected"),
    [
        ("2026-05-04", [off("left 1"), off("right 2")], "replaced"),
        ("2026-05-03", [off("left 1"), off("right 2")], "open"),
        # One of them is told by no line; it has come off.
        ("2026-05-04", [off("left 1")], "open"),
        ("2026-05-04", [off("left 1"), off("right 2", outcome="done")], "open"),
        ("2026-05-04", [off("")], "replaced"),
        ("2026-05-04", [off("", next_cycle=date(2026, 11, 18))], "open"),
        # What bites is told at once, the other a week before its best days.
        ("2026-06-06", [bitten("left 1"), off("right 2")], "replaced"),
        ("2026-06-05", [bitten("left 1"), off("right 2")], "open"),
    ],
)
def test_a_look_at_wires_that_are_all_told_to_come_off_is_none(opens, dues, expected) -> None:
    found = outcomes([look(opens), *dues], tree("left 1", "right 2"))
    assert found["look"] == expected


def test_until_then_the_look_stands() -> None:
    (asked, _, _) = one_wire(
        [look("2026-04-01"), off("left 1"), off("right 2")], tree("left 1", "right 2")
    )
    assert asked.follow_up.next_cycle == date(2026, 5, 4)
    sooner = look("2026-04-01", next_cycle=date(2026, 4, 20))
    (asked, _) = one_wire([sooner, off("")], tree("left 1"))
    assert asked.follow_up.next_cycle == date(2026, 4, 20)


@pytest.mark.parametrize(
    "asked",
    [
        look("2026-05-04", planned=True),
        # Of one branch the next of its kind stands for it.
        look("2026-05-04", where="left 1"),
        look("2026-05-04", planned=True, given_word=True),
        look("2026-05-04", outcome="done"),
        look("2026-05-04", settled_by=("checked ties",)),
    ],
)
def test_other_looks_and_the_keepers_own_stay(asked: Due) -> None:
    assert one_wire([asked, off("")], tree("left 1"))[0] == asked


def test_where_no_wire_is_on_nothing_changes() -> None:
    asked = look("2026-05-04")
    assert one_wire([asked, off("")], tree())[0] == asked


@pytest.mark.parametrize(
    ("closes", "rule", "act", "expected"),
    [
        ("2026-05-09", "arrival-check", "checked", "replaced"),
        ("2026-05-10", "arrival-check", "checked", "open"),
        ("2026-05-09", "arrival-check", "quarantined", "open"),
        ("2026-05-09", "back-from-show", "checked", "open"),
    ],
)
def test_what_fell_due_at_its_owners_is_looked_at_as_it_came_back(
    closes: str, rule: str, act: str, expected: str
) -> None:
    again = due("look", "checked", f"2026-04-12 2026-04-12 {closes}", settled_by=LOOK, planned=True)
    over = due("over", act, "2026-05-10 2026-05-12 2026-05-24", rule=rule, event=CAME, at=3)
    assert outcomes([again, over], tree("left 1"))["look"] == expected
