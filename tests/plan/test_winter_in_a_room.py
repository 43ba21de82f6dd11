"""A hardy tree in a warm room in winter is asked out; a tender one is at home there."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.plan.followups import FollowUp

PLACES = """
place yard
  latitude   45.7 N
  longitude  4.9 E
  low   1 1 4 7 11 15 17 17 13 10 5 2 C
  high  7 9 14 17 21 26 28 28 23 18 11 8 C
place room
  within  yard
  cover   indoors
place frame
  within  yard
  cover   cold frame
"""
KNOWN = "2026-06-01\nhoshi\n  noted  well\n"


@pytest.fixture
def asked(written):
    def out(kind: str, moves: str, on: str) -> list[FollowUp]:
        text = PLACES + f"tree hoshi\n  kind   {kind}\n  place  yard\n" + KNOWN + moves
        session = written(text, on, settings='home = "yard"\n')
        some = (one for one in session.plan().all() if "/winter-in-a-room/" in one.id)
        return [one for one in some if one.state(date.fromisoformat(on)) in ("now", "overdue")]

    return out


IN = "2026-11-10\nhoshi\n  moved  room\n"


@pytest.mark.parametrize("kind", ["field maple", "Scots pine", "kurume azalea", "olive"])
def test_a_hardy_tree_is_asked_out_of_a_warm_room(asked, kind: str) -> None:
    (out,) = asked(kind, IN, "2026-11-12")
    assert (out.act, out.weight.at_stake, out.weight.must) == ("moved", "life", True)
    assert out.title.startswith("move out of the room")
    # Nobody did: it grows.
    (late,) = asked(kind, IN, "2026-12-20")
    assert late.state(date(2026, 12, 20)) == "overdue"
    assert late.said_on(date(2026, 12, 20)).startswith("Each warm week costs it buds")
    # Any move out settles it.
    moved = IN + "2026-11-14\nhoshi\n  moved  frame\n"
    assert asked(kind, moved, "2026-11-15") == []


def test_a_tender_tree_is_left_there_and_a_summer_visit_says_nothing(asked) -> None:
    assert asked("willow-leaf fig", IN, "2026-11-12") == []
    assert asked("dwarf jade", IN, "2026-11-12") == []
    july = "2026-07-10\nhoshi\n  moved  room\n"
    assert asked("field maple", july, "2026-07-12") == []
    frame = "2026-11-10\nhoshi\n  moved  frame\n"
    assert asked("field maple", frame, "2026-11-12") == []


@pytest.mark.parametrize(("kind", "warm"), [("willow-leaf fig", True), ("field maple", False)])
def test_a_tender_tree_under_fleece_is_asked_into_the_warmth_alone(written, kind, warm) -> None:
    """Near 0 °C, where a hardy one is kept when its fleece will not do, its roots die."""
    text = PLACES.replace("low   1 1 4", "low   -9 -9 -4").replace("10 5 2 C", "10 2 -6 C")
    diary = "2026-10-10\nhoshi\n  protected  fleece\n"
    cards = f"tree hoshi\n  kind   {kind}\n  place  yard\n"
    session = written(text + cards + KNOWN + diary, "2026-10-20", settings='home = "yard"\n')
    moves = [one for one in session.plan().all() if one.act == "moved" and "2026" in one.id]
    now = [one.title for one in moves if one.is_open(session.today)]
    place = "move in, to a warm and light place" if warm else "move on, to a place that stays near"
    assert len(now) == 1
    assert now[0].startswith(place)


@pytest.mark.parametrize(
    ("place", "on", "state"),
    [
        ("room", "2026-10-31", "coming"),
        ("room", "2026-11-01", "now"),
        ("room", "2027-02-15", "now"),
        # In its time it is no work for one that stands outside.
        ("yard", "2026-10-31", "coming"),
        ("yard", "2026-11-01", None),
        ("yard", "2027-02-15", None),
        ("yard", "2027-02-16", "lapsed"),
    ],
)
def test_a_tree_is_turned_to_the_window_where_it_stands_in_the_room(
    written, place, on, state
) -> None:
    """From 1 November to 15 February, by months."""
    text = PLACES + f"tree hoshi\n  kind   dwarf jade\n  place  {place}\n" + KNOWN
    session = written(text, on, settings='home = "yard"\n')
    found = session.plan().find("hoshi/dwarf-jade-light/2026")
    assert [one.state(session.today) for one in found] == ([state] if state else [])
