"""A tree that comes out from under its cover before its time is asked in again.

Denver's monthly means as remembered, rounded: 13.3 K under -8 °C is -21 °C in the mean year and
-27 °C in one of ten (worked out in test_winter_frost.py). A trident's roots bear -5 °C.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.plan.followups import FollowUp

PLACES = """
place yard
  latitude   39.7 N
  longitude  105 W
  low   -8 -7 -3 1 6 11 15 14 9 2 -4 -8 C
  high  7 8 12 16 22 28 32 31 26 19 12 7 C
place wall
  within  yard
place frame
  within  yard
  cover   cold frame
place room
  within  yard
  cover   indoors
"""
KNOWN = "2025-06-01\nhoshi\n  noted  well\n"
IN = "2025-10-10\nhoshi\n  moved  frame\n"


@pytest.fixture
def shelters(written):
    def asked(diary: str, on: str, kind: str = "trident maple") -> list[FollowUp]:
        """What asks for shelter from winter on that day."""
        text = PLACES + f"tree hoshi\n  kind   {kind}\n  place  yard\n" + KNOWN + diary
        session = written(text, on, settings='home = "yard"\n')
        rules = ("/winter-frost/", "/tender-in/", "/tender-out/")
        day = date.fromisoformat(on)
        every = session.plan().all()
        some = [one for one in every if any(rule in one.id for rule in rules)]
        return [one for one in some if one.state(day) in ("now", "overdue")]

    return asked


def test_a_move_into_the_open_is_no_shelter(shelters) -> None:
    (still,) = shelters("2025-10-10\nhoshi\n  moved  wall\n", "2025-11-01")
    assert still.id == "hoshi/winter-frost/2025"
    assert shelters(IN, "2025-11-01") == []


def test_out_in_march_it_is_asked_in_again(shelters) -> None:
    out = "2026-03-10\nhoshi\n  moved  yard\n"
    (again,) = shelters(IN + out, "2026-03-12")
    # A name of its own: the work of autumn was done.
    assert again.id == "hoshi/winter-frost/2025/bare-2026-03-10"
    assert again.title == "protect against winter frost"
    assert (again.weight.at_stake, again.weight.must) == ("life", True)
    assert again.window.opens == date(2026, 3, 10)
    # The last night of -5 °C comes by the end of April in one year of ten.
    assert date(2026, 4, 15) < again.window.closes < date(2026, 5, 10)
    assert again.because[-1].text.startswith(
        "It was taken from under its cover on 10 March 2026, and"
    )
    # Whatever shelter it gets settles it.
    for act in ("protected  fleece", "moved  frame"):
        assert shelters(f"{IN}{out}2026-03-13\nhoshi\n  {act}\n", "2026-03-14") == []


def test_a_fleece_that_comes_off_in_january_too(shelters) -> None:
    diary = (
        "2025-11-01\nhoshi\n  protected  fleece\n\n2026-01-10\nhoshi\n  unprotected  -- snowed in\n"
    )
    (again,) = shelters(diary, "2026-01-12")
    assert again.id == "hoshi/winter-frost/2025/bare-2026-01-10"


def test_out_when_it_is_time_nobody_asks_again(shelters) -> None:
    assert shelters(IN + "2026-04-25\nhoshi\n  moved  yard\n", "2026-04-26") == []


def test_only_warmth_shelters_a_tender_tree(shelters) -> None:
    fig = "small-leaved fig"
    frame = "2025-09-01\nhoshi\n  moved  frame\n"
    (still,) = shelters(frame, "2025-09-20", fig)
    assert still.id == "hoshi/tender-in/2025/in"
    assert shelters(frame.replace("frame", "room"), "2025-09-20", fig) == []


def test_a_tender_tree_that_goes_out_in_march_is_asked_in_again(shelters) -> None:
    fig = "small-leaved fig"
    diary = "2025-09-01\nhoshi\n  moved  room\n2026-03-10\nhoshi\n  moved  yard\n"
    (again,) = shelters(diary, "2026-03-12", fig)
    assert again.id == "hoshi/tender-out/moved-2026-03-10/in"
    assert again.title == "move in, to a warm and light place"
    assert (again.weight.at_stake, again.window.opens) == ("life", date(2026, 3, 10))
    # A frame is no help to it, its room is; and once its time is come nobody asks.
    back = "2026-03-13\nhoshi\n  moved  {}\n"
    assert len(shelters(diary + back.format("frame"), "2026-03-14", fig)) == 1
    assert shelters(diary + back.format("room"), "2026-03-14", fig) == []
    assert shelters(diary, "2026-07-10", fig) == []


def test_a_tender_tree_that_never_stood_outside_too(written) -> None:
    """Its card has it in its room, so nothing had to be asked before."""
    card = "tree hoshi\n  kind   willow-leaf fig\n  place  room\n"

    def asked(diary: str, on: str) -> list[str]:
        session = written(PLACES + card + KNOWN + diary, on, settings='home = "yard"\n')
        day = date.fromisoformat(on)
        every = session.plan().all()
        return [one.id for one in every if "/tender-" in one.id and one.state(day) == "now"]

    march = "2026-03-10\nhoshi\n  moved  yard\n"
    assert asked(march, "2026-03-12") == ["hoshi/tender-out/moved-2026-03-10/in"]
    assert asked("2026-06-12\nhoshi\n  moved  yard\n", "2026-06-13") == []
    november = "2025-11-05\nhoshi\n  moved  yard\n"
    assert asked(november, "2025-11-06") == ["hoshi/tender-out/moved-2025-11-05/in"]
