"""Of a treatment in flower the bees are told, and of no other: by what was seen of the tree, else
by the usual days of its kind. The days are counted by hand."""

from __future__ import annotations

import pytest

from backbud.plan.in_flower import SPARES_BEES

# A place where nothing is known of the weather: first flowers from 20 April, over by 30 May at the
# latest (crab_apple.py); six months later in the south.
CARDS = """
place yard
  latitude   {latitude}
tree hoshi
  kind       {kind}
  place      yard
"""
FOUND = "\n{day}\nhoshi\n  checked pests, aphids some\n"


@pytest.fixture
def told(written):
    """Whether bees are told of in what is to be treated."""

    def of(diary: str, on: str, kind: str = "crab apple", latitude: str = "48 N") -> list[bool]:
        session = written(CARDS.format(kind=kind, latitude=latitude) + diary, on)
        return [
            SPARES_BEES in one.cautions
            for one in session.plan().all()
            if one.act == "treated" and one.is_open(session.today)
        ]

    return of


@pytest.mark.parametrize(
    ("found", "on", "latitude", "expected"),
    [
        # Ten days are there to treat it: from 10 April they meet the 20th, from the 9th they do
        # not, until that day has come and it is late.
        ("2026-04-09", "2026-04-09", "48 N", False),
        ("2026-04-10", "2026-04-10", "48 N", True),
        ("2026-04-09", "2026-04-20", "48 N", True),
        ("2026-05-30", "2026-05-30", "48 N", True),
        ("2026-05-31", "2026-05-31", "48 N", False),
        # Late, and over.
        ("2026-05-20", "2026-05-31", "48 N", False),
        ("2026-10-25", "2026-10-25", "41 S", True),
        ("2026-04-25", "2026-04-25", "41 S", False),
    ],
)
def test_by_the_usual_days(told, found, on, latitude, expected) -> None:
    assert told(FOUND.format(day=found), on, latitude=latitude) == [expected]


def test_by_what_was_seen(told) -> None:
    """In flower on 11 April it may be treated late at the earliest once it has flowered."""
    early = FOUND.format(day="2026-04-01")
    assert told(early, "2026-04-12") == [False]
    seen = f"{early}\n2026-04-11\nhoshi\n  bloomed full\n"
    assert told(seen, "2026-04-12") == [True]
    over = f"{seen}\n2026-04-20\nhoshi\n  bloomed over\n"
    assert told(over, "2026-04-21") == [False]


def test_a_plan_of_the_keepers_too(told) -> None:
    planned = "\n2026-04-01\nhoshi\n  planned treat, with sulphur, to 2026-05-10\n"
    assert told(planned, "2026-04-02") == [True]


def test_a_kind_of_which_no_flower_is_told(told) -> None:
    assert told(FOUND.format(day="2026-05-01"), "2026-05-01", kind="Scots pine") == [False]
    assert told(FOUND.format(day="2026-05-01"), "2026-05-01", kind="garden shrub") == [False]
