"""Which dues a line may settle; dues and lines are made by hand."""

from __future__ import annotations

import pytest
from tests.plan.by_hand import due
from tests.species.conftest import Made

from backbud.plan.waiting import WaitingDues, acts_in

MADE = Made()
JUNE = "2027-06-01 2027-06-08 2027-06-15"
WHOLE = due("whole", "unwired", JUNE, at=0)
LEFT = due("left", "unwired", JUNE, where="left 2", at=0)
RIGHT = due("right", "unwired", JUNE, where="right 2", at=0)
LOOK = due("look", "checked", JUNE, settled_by=("checked wire", "unwired"), where="left 2", at=0)
TRIM = due("trim", "trimmed", JUNE)


@pytest.mark.parametrize(
    ("act", "said", "found"),
    [
        ("unwired", "", {"whole", "left", "right", "look"}),
        ("unwired", "on left 2", {"whole", "left", "look"}),
        ("unwired", "on left", {"whole", "left", "look"}),
        ("unwired", "on right 2", {"whole", "right"}),
        ("unwired", "on Right", {"whole", "right"}),
        ("unwired", "on left 2, on right 2", {"whole", "left", "right", "look"}),
        # Nothing is on a part of which one word is known of none.
        ("unwired", "on left 3", {"whole"}),
        ("checked", "wire fine on left 2", {"look"}),
        ("checked", "wire fine on right 2", set()),
        # A look that names no part was a look everywhere.
        ("checked", "wire fine on right 2, ties fine", {"look"}),
        ("checked", "", {"look"}),
        ("trimmed", "", {"trim"}),
        ("pruned", "", set()),
        ("wired", "2 mm Al on left 2, old wire off", {"whole", "left", "look"}),
        ("wired", "2 mm Al on left 2", set()),
    ],
)
def test_which_dues_a_line_may_settle(act, said, found) -> None:
    waiting = WaitingDues([WHOLE, LEFT, RIGHT, LOOK, TRIM])
    ids = waiting.for_event(MADE.event("2027-06-02", act, said), 5)
    assert len(ids) == len(set(ids))
    assert set(ids) == found


def test_they_wait_from_their_cause_on_and_until_they_are_dropped() -> None:
    trims = [due(f"trim-{at}", "trimmed", JUNE, at=at) for at in (7, -1, 3, 5)]
    waiting = WaitingDues(trims)
    event = MADE.event("2027-06-02", "trimmed")
    # A line settles nothing that itself, or a later one, caused.
    assert waiting.for_event(event, 0) == ["trim--1"]
    assert waiting.for_event(event, 3) == ["trim--1"]
    assert waiting.for_event(event, 4) == ["trim--1", "trim-3"]
    waiting.drop(trims[1])
    assert waiting.for_event(event, 6) == ["trim-3", "trim-5"]
    waiting.drop(trims[2])
    waiting.drop(trims[3])
    # Twice does no harm, and one that never waited neither.
    waiting.drop(trims[3])
    waiting.drop(due("other", "pruned", JUNE, where="apex"))
    assert waiting.for_event(event, 9) == ["trim-7"]
    waiting.add(trims[2])
    assert waiting.for_event(event, 9) == ["trim-7", "trim-3"]


def test_of_one_part_that_is_dropped_the_others_wait() -> None:
    waiting = WaitingDues([LEFT, RIGHT])
    assert set(waiting.for_event(MADE.event("2027-06-02", "unwired"), 5)) == {"left", "right"}
    waiting.drop(LEFT)
    assert waiting.for_event(MADE.event("2027-06-02", "unwired"), 5) == ["right"]
    assert waiting.for_event(MADE.event("2027-06-02", "unwired", "on left"), 5) == []
    assert waiting.for_event(MADE.event("2027-06-02", "unwired", "on right"), 5) == ["right"]


def test_a_line_is_its_own_act_and_an_unwiring_where_the_old_wire_came_off() -> None:
    assert acts_in(MADE.event("2027-06-02", "wired", "2 mm Al on left 2")) == ("wired",)
    rewired = MADE.event("2027-06-02", "wired", "2 mm Al on left 2, old wire off")
    assert acts_in(rewired) == ("wired", "unwired")
