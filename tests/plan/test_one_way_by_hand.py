"""On, to a better cover, or out: a tree is asked one of the two, on both sides of each bound."""

from __future__ import annotations

from datetime import date

import pytest
from tests.plan.by_hand import due

from backbud.plan.due import Due
from backbud.plan.one_way import one_way

WINTER = "2025-11-08 2025-11-22 2026-04-24"
# In the southern half of the Earth the same nights end in October.
SOUTHERN = "2026-05-08 2026-05-22 2026-10-24"


def on(window: str = WINTER, **more) -> Due:
    return due("on", "moved", window, rule="under-cover", part="on", **more)


def out(opens: str, act: str = "moved", **more) -> Due:
    given = {"bares": True, **more}
    return due("out", act, f"{opens} {opens} 2027-12-31", rule="winter-quarters-out", **given)


def states(dues: list[Due], day: str) -> dict[str, str]:
    return {one.follow_up.id: one.follow_up.state(date.fromisoformat(day)) for one in one_way(dues)}


@pytest.mark.parametrize(
    ("window", "opens", "day", "expected"),
    [
        (WINTER, "2026-04-11", "2026-04-10", {"on": "now", "out": "coming"}),
        (WINTER, "2026-04-11", "2026-04-11", {"on": "replaced", "out": "now"}),
        (WINTER, "2026-04-24", "2026-04-24", {"on": "replaced", "out": "now"}),
        (SOUTHERN, "2026-10-11", "2026-10-10", {"on": "now", "out": "coming"}),
        (SOUTHERN, "2026-10-11", "2026-10-11", {"on": "replaced", "out": "now"}),
    ],
)
def test_from_the_day_it_may_come_out_it_goes_on_no_more(window, opens, day, expected) -> None:
    assert states([on(window), out(opens)], day) == expected


def test_what_comes_off_where_it_stands_ends_the_way_on_as_well() -> None:
    assert states([on(), out("2026-04-11", "unprotected")], "2026-04-11")["on"] == "replaced"


@pytest.mark.parametrize(
    "other",
    [
        out("2026-04-11", bares=False),
        out("2026-04-11", outcome="done"),
        out("2026-04-11", outcome="replaced"),
        # The way out of a winter before, and one after the cold.
        out("2025-11-08"),
        out("2026-04-25"),
    ],
)
def test_what_lets_nothing_out_in_those_weeks_leaves_the_way_on(other: Due) -> None:
    (kept, _) = one_way([on(), other])
    assert kept.follow_up.next_cycle is None


def test_of_several_ways_out_the_first_after_it_counts() -> None:
    ways = [out("2026-04-20"), out("2025-10-01"), out("2026-04-11")]
    assert one_way([on(), *ways])[0].follow_up.next_cycle == date(2026, 4, 11)


def test_the_way_in_and_a_way_on_that_was_taken_stay_as_they_are() -> None:
    way_in = due("in", "moved", WINTER, part="in")
    taken = on(outcome="done")
    assert one_way([way_in, taken, out("2026-04-11")])[:2] == [way_in, taken]
