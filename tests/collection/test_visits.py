"""When a tree of somebody else's is in the house: by its card, and by what was written of it."""

from __future__ import annotations

import pytest

from backbud.collection.visit import Visit, visits_of

CARDS = """
place yard
person marrow
tree hoshi
  kind   trident maple
  owner  marrow
"""


@pytest.fixture
def visits(written):
    def of(diary: str, cards: str = CARDS) -> list[Visit]:
        session = written(cards + diary, "2027-12-01")
        journal = session.journal
        return list(visits_of(session.histories, journal.things, "hoshi", "", session.today))

    return of


def days(visits: list[Visit]) -> list[tuple[str, str, bool, bool]]:
    """Of each its coming and its going, whether it is here, and whether it is still to come."""
    return [(str(one.came or ""), str(one.went or ""), one.is_here, one.to_come) for one in visits]


AGREED = "2027-03-01\nhoshi\n  agreed  repot, 80 EUR\n"
RECEIVED = "2027-03-06\nhoshi\n  received  from marrow\n"
PRUNED = "2027-04-01\nhoshi\n  pruned  light\n"
RETURNED = "2027-05-01\nhoshi\n  returned\n"
AGAIN = "2027-09-01\nhoshi\n  received  from marrow\n"


@pytest.mark.parametrize(
    ("diary", "found"),
    [
        # Nobody received it, and nothing was written: it was never here.
        ("", []),
        (AGREED, [("", "", False, True)]),
        (PRUNED, [("", "", True, False)]),
        (RECEIVED, [("2027-03-06", "", True, False)]),
        (AGREED + RECEIVED, [("2027-03-06", "", True, False)]),
        # It went, so it had been here.
        (RETURNED, [("", "2027-05-01", False, False)]),
        (RECEIVED + RETURNED, [("2027-03-06", "2027-05-01", False, False)]),
        (
            RECEIVED + PRUNED + RETURNED + AGAIN,
            [("2027-03-06", "2027-05-01", False, False), ("2027-09-01", "", True, False)],
        ),
    ],
)
def test_a_visit_lasts_from_its_coming_to_its_going(visits, diary, found) -> None:
    assert days(visits(diary)) == found


def test_what_was_agreed_before_it_came_is_of_its_first_visit(visits) -> None:
    first, second = visits(AGREED + RECEIVED + PRUNED + RETURNED + AGAIN)
    assert [one.event.act for one in first.entries] == ["agreed", "received", "pruned", "returned"]
    assert [one.event.act for one in second.entries] == ["received"]


def test_its_card_says_that_it_stood_here(visits) -> None:
    """At its owner's own place it does not."""
    here = CARDS + "  place  yard\n"
    assert days(visits("", here)) == [("", "", True, False)]
    assert days(visits(AGREED, here)) == [("", "", True, False)]
    theirs = here.replace("person marrow\n", "person marrow\n  place  yard\n")
    assert days(visits(AGREED, theirs)) == [("", "", False, True)]


def test_work_that_was_taken_back_or_held_back_says_nothing_of_it(visits) -> None:
    taken_back = f"{PRUNED}2027-04-02\nhoshi\n  corrected  pruned 2027-04-01, not done\n"
    assert days(visits(taken_back)) == [("", "", False, True)]
