"""Trees that were among others: in quarantine, at a show, on loan. The days are counted by hand;
the terms are common practice, no source."""

from __future__ import annotations

import pytest

CARDS = """
person dell
place yard
  latitude   {latitude}
place corner
  within     yard
tree hoshi
  kind       crab apple
  place      yard
"""
# Eight weeks from 20 February are 17 April; the day is told to about a seventh of them.
APART = "\n2026-02-14\nhoshi\n  bought 180 EUR\n\n2026-02-20\nhoshi\n  quarantined in corner, "


@pytest.fixture
def asked(written):
    """The looks of one rule that are open on a day, with the days of their windows."""

    def looks(text: str, on: str, rule: str, latitude: str = "48 N") -> list[str]:
        session = written(CARDS.format(latitude=latitude) + text, on)
        return [
            f"{one.window.opens} {one.window.best} {one.window.closes}"
            for one in session.plan().all()
            if f"/{rule}/" in one.id and one.is_open(session.today)
        ]

    return looks


def line(day: str, act: str) -> str:
    return f"\n\n{day}\nhoshi\n  {act}\n"


@pytest.mark.parametrize("latitude", ["48 N", "41 S"])
@pytest.mark.parametrize(
    ("more", "on", "expected"),
    [
        ("", "2026-02-20", ["2026-03-02 2026-03-06 2026-03-13"]),
        # Nobody looked: it is asked for still.
        ("", "2026-04-02", ["2026-03-02 2026-03-06 2026-03-13"]),
        (line("2026-03-06", "checked pests, none"), "2026-03-07",
         ["2026-03-16 2026-03-20 2026-03-27"]),
        (line("2026-03-06", "checked mites, none"), "2026-03-07",
         ["2026-03-16 2026-03-20 2026-03-27"]),
        # A look at something else is none; the keeper's own day stands for the next.
        (line("2026-03-06", "checked wire, fine"), "2026-03-07",
         ["2026-03-02 2026-03-06 2026-03-13"]),
        (line("2026-03-06", "checked pests, none, again in 5 days"), "2026-03-07", []),
        # After the last two weeks it is only let out.
        (line("2026-04-02", "checked pests, none"), "2026-04-03", []),
        (line("2026-03-01", "released from quarantine"), "2026-03-02", []),
    ],
)  # fmt: skip
def test_in_quarantine_it_is_looked_at_every_two_weeks(
    asked, more: str, on: str, expected: list[str], latitude: str
) -> None:
    text = f"{APART}for 8 weeks{more}"
    assert asked(text, on, "quarantine-look", latitude) == expected


@pytest.mark.parametrize(
    ("until", "expected"),
    [
        ("2026-03-13", ["2026-03-02 2026-03-06 2026-03-13"]),
        ("2026-03-12", []),
    ],
)
def test_so_shortly_before_it_comes_out_it_is_looked_at_then(asked, until, expected) -> None:
    assert asked(f"{APART}until {until}", "2026-02-21", "quarantine-look") == expected


def test_a_look_at_a_tree_that_is_not_apart_asks_for_no_other(asked) -> None:
    text = f"{APART}for 8 weeks{line('2026-04-17', 'released from quarantine')}"
    text += line("2026-04-20", "checked pests, none")
    assert asked(text, "2026-04-21", "quarantine-look") == []
    known = line("2026-04-02", "checked pests, none")
    assert asked(known, "2026-04-03", "quarantine-look") == []


LENT = line("2026-08-10", "lent to dell, until 2026-08-30, for a show")


@pytest.mark.parametrize(
    ("text", "on", "expected"),
    [
        (LENT, "2026-08-20", []),
        (LENT + line("2026-08-30", "returned, delivered"), "2026-08-31",
         ["2026-08-30 2026-09-01 2026-09-13"]),
        # Told twice of one show, it is looked at once.
        (LENT + line("2026-08-30", "returned, delivered\n  shown at the summer show"), "2026-08-31",
         ["2026-08-30 2026-09-01 2026-09-13"]),
        (line("2026-08-20", "shown at the hall"), "2026-08-21",
         ["2026-08-20 2026-08-22 2026-09-03"]),
        (line("2026-08-20", "shown at the hall") + line("2026-08-22", "checked pests, none"),
         "2026-08-23", []),
    ],
)  # fmt: skip
def test_after_a_show_it_is_looked_over(asked, text: str, on: str, expected: list[str]) -> None:
    assert asked(text, on, "back-from-show") == expected


def test_who_went_home_is_looked_over_by_its_owner(asked) -> None:
    owned = "\n2026-05-01\nhoshi\n  received from dell\n  returned to dell\n"
    assert (
        asked(f"\n  owner dell{owned}".replace("\n\n", "\n"), "2026-05-02", "back-from-show") == []
    )
