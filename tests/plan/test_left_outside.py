"""A tender tree that was not brought in is asked in, and not for the works of its room."""

from __future__ import annotations

import pytest

PLACES = """
    place yard
      latitude  52.9 N
      longitude 1.2 W
      low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
      high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
    place room
      cover  indoors
    place house
      cover  heated glass 8 C
    tree figo
      kind   willow-leaf fig
      since  2020
      place  yard
    2026-06-01
    figo
      vigour  strong
"""


@pytest.fixture
def asked(written):
    def on(day: str, moved: str) -> set[str]:
        """The rules that ask for something on a day that can be done then."""
        text = PLACES + (f"    2026-09-10\n    figo\n      moved  {moved}\n" if moved else "")
        session = written(text, day, settings='home = "yard"\n')
        return {
            one.id.split("/")[1]
            for one in session.plan().all()
            if one.state(session.today) in ("now", "overdue")
        }

    return on


def test_left_outside_in_december_it_has_to_come_in_and_no_more(asked) -> None:
    found = asked("2026-12-12", "")
    assert "tender-in" in found
    assert found.isdisjoint({"willow-fig-light", "willow-fig-feed-winter"})


def test_in_its_room_it_is_turned_and_fed_weakly(asked) -> None:
    found = asked("2026-12-12", "room")
    assert {"willow-fig-light", "willow-fig-feed-winter"} <= found
    assert "tender-in" not in found


def test_under_heated_glass_light_comes_from_all_sides(asked) -> None:
    found = asked("2026-12-12", "house")
    assert "willow-fig-feed-winter" in found
    assert "willow-fig-light" not in found


@pytest.mark.parametrize("day", ["2026-09-25", "2026-12-12"])
def test_what_stands_outside_as_its_journal_begins_has_to_come_in(written, day) -> None:
    """Of a tree that only has a card: its days to come in were over before anything was written of
    it, and it may die of the nights that come. The looks of that autumn are not made up for."""
    cards = PLACES[: PLACES.index("    2026-06-01")]
    session = written(cards, day, settings='home = "yard"\n')
    late = {
        one.id.split("/")[1]
        for one in session.plan().all()
        if one.state(session.today) == "overdue"
    }
    assert late == {"tender-in"}


TOKYO = """
    place yard
      latitude  35.7 N
      longitude 139.75 E
      low   1.2 2.1 5.0 9.8 14.6 18.5 22.4 23.5 20.3 14.8 8.8 3.8 C
      high  9.8 10.9 14.2 19.4 23.6 26.1 29.9 31.3 27.5 22.0 16.7 12.0 C
    tree rissa
      kind   serissa
      since  2020
      place  yard
    2025-06-01
    rissa
      vigour  strong
"""


@pytest.mark.parametrize(
    ("day", "late"),
    [
        # Its last day to come in was 25 November; 150 days later is 24 April.
        ("2025-12-10", True),
        ("2026-03-10", True),
        # The usual night is over 7 °C from the last days of March on: nothing is at stake.
        ("2026-04-20", False),
    ],
)
def test_who_wintered_outside_is_not_asked_in_when_spring_is_mild(written, day, late) -> None:
    """A serissa at Tokyo was asked in on 20 April, `each colder night costs it leaves`, in nights
    of 10 °C that get milder."""
    session = written(TOKYO, day, settings='home = "yard"\n')
    asked = [
        one
        for one in session.plan().all()
        if "tender-in/2025" in one.id and one.state(session.today) in ("now", "overdue")
    ]
    assert bool(asked) is late
