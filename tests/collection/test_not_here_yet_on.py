"""A journal that is looked at as it was on an earlier day has no tree that came after it."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.moments import trees_here
from backbud.collection.replay import replay

PLACE = "\nplace yard\n  latitude  50 N\n  longitude  9 E\n"
OLD = "tree crow\n  kind  Scots pine\n  place  yard\n\n2025-03-01\ncrow\n  noted  well\n"


@pytest.fixture
def standing(written):
    """How a tree stood on a day, as the journal is looked at then, and how many are counted."""

    def of(card: str, diary: str, on: str, *problems: str) -> tuple[str, int]:
        text = f"{PLACE}tree hoshi\n  kind  hornbeam\n  place  yard\n{card}{OLD}{diary}"
        session = written(text, on, settings='home = "yard"\n', as_of=True, problems=problems)
        plan = session.plan()
        tree = plan.trees["hoshi"]
        assert bool(plan.follow_ups["hoshi"]) is tree.here
        assert session.histories.trees["hoshi"].standing == tree.standing
        return tree.standing, trees_here(session.journal, "").value

    return of


BOUGHT = "2026-06-01\nhoshi\n  bought  80 EUR\n"


@pytest.mark.parametrize(
    ("on", "how"),
    [("2026-05-31", ("not yet", 1)), ("2026-06-01", ("here", 2)), ("2026-11-01", ("here", 2))],
)
def test_a_tree_that_is_bought_later_is_not_here_yet(standing, on: str, how) -> None:
    assert standing("", BOUGHT, on) == how


def test_nor_one_whose_card_is_of_a_later_day(standing) -> None:
    card = "  since  2026-06-01\n"
    assert standing(card, "", "2026-05-31") == ("not yet", 1)
    assert standing(card, "", "2026-06-01") == ("here", 2)
    # A rough day is over once it may have begun.
    assert standing("  since  2026\n", "", "2026-05-31") == ("here", 2)
    assert standing("  since  2026\n", "", "2025-12-31") == ("not yet", 1)


@pytest.mark.parametrize(
    "came",
    [
        "hoshi\n  received  -- from a friend\n",
        "hoshi\n  collected\n",
        "crow\n  layered  on branch 3\n  separated  on branch 3, as hoshi\n",
    ],
)
def test_however_it_came(standing, came: str) -> None:
    assert standing("", f"2026-06-01\n{came}", "2026-05-31") == ("not yet", 1)
    assert standing("", f"2026-06-01\n{came}", "2026-06-02") == ("here", 2)


def test_a_tree_that_was_here_all_along_is(standing) -> None:
    """It went and came back, was worked on later, or is spoken of by nobody."""
    back = "2026-06-01\nhoshi\n  returned\n\n2026-10-01\nhoshi\n  received\n"
    assert standing("", back, "2026-05-31") == ("here", 2)
    assert standing("", "2026-06-01\nhoshi\n  repotted\n", "2026-05-31") == ("here", 2)
    assert standing("", "", "2026-05-31") == ("here", 2)
    # It was sold, and bought back.
    again = "2025-06-01\nhoshi\n  sold\n\n2026-06-01\nhoshi\n  bought\n"
    assert standing("", again, "2026-05-31") == ("sold", 1)


def test_what_is_wrong_on_a_later_page_is_told_on_that_day_alone(standing) -> None:
    wrong = "2026-06-01\nhoshi\n  bought  80 EUR\nnobody\n  pruned\n"
    assert standing("", wrong, "2026-05-31") == ("not yet", 1)
    assert standing("", wrong, "2026-06-01", "unknown-handle") == ("here", 2)


def test_the_journal_as_it_is_takes_no_later_pages(written) -> None:
    text = f"{PLACE}tree hoshi\n  kind  hornbeam\n  place  yard\n{OLD}{BOUGHT}"
    session = written(text, "2026-06-02", settings='home = "yard"\n')
    assert (session.journal.seen_on, session.journal.later) == (None, ())
    back = written(text, "2026-05-02", settings='home = "yard"\n', as_of=True)
    assert back.journal.seen_on == date(2026, 5, 2)
    assert [page.when.first for page in back.journal.later] == [date(2026, 6, 1)]
    assert replay(back.journal).value.trees["hoshi"].standing == "not yet"
