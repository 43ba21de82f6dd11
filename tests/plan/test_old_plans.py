"""A plan that nobody closed: it is asked to be closed or planned again, once, and no more is said.

A season is 150 days (`hard_work.SEASON`); days are counted by hand.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.plan.cautions import cautions_of
from backbud.plan.judged_at_once import remember_judged
from backbud.plan.told_cautions import recalled_cautions

CARDS = """
    place yard
      latitude  52
      longitude 1 W
    tree hoshi
      kind      trident maple
      place     yard
    2024-03-01
    hoshi
      planned   repot, to 2024-07
"""
OLD = "hoshi/planned/repotted-2024-03-01"


@pytest.fixture
def states_of(written, states):
    def of(on: str, more: str = "") -> dict[str, str]:
        return states(written(CARDS + more, on), "planned/")

    return of


@pytest.mark.parametrize(
    ("on", "told"),
    # July ends on the 31st; 150 days later it is 28 December.
    [("2024-05-01", 1), ("2024-12-28", 1), ("2024-12-29", 0), ("2026-11-20", 0)],
)
def test_what_speaks_against_a_plan_is_told_for_a_season_after_its_time(written, on, told) -> None:
    """Root work in July is out of a maple's time; once that is long past, nobody can heed it."""
    session = written(CARDS, on)
    found = [one.text for one in cautions_of(session.plan(), session.today)]
    assert len(found) == told, found
    assert all("1 July 2024" in one for one in found)


def test_it_never_lapses_and_is_asked_for_as_a_promise(states_of) -> None:
    assert states_of("2024-12-28") == {OLD: "overdue"}
    assert states_of("2024-12-29") == {OLD: "promised"}
    assert states_of("2034-12-29") == {OLD: "promised"}


@pytest.mark.parametrize("said", ["skipped repot -- too weak", "repotted same pot"])
def test_it_is_closed_by_a_word_or_by_the_work(states_of, said) -> None:
    closed = states_of("2026-11-20", f"\n    2026-02-01\n    hoshi\n      {said}\n")
    assert closed[OLD] == ("skipped" if said.startswith("skipped") else "done")


def test_it_is_closed_by_planning_it_again_from_that_very_day(states_of) -> None:
    """Not only once the new plan's own window opens, a year later."""
    again = "\n    2026-02-01\n    hoshi\n      planned   repot, to 2027-03\n"
    new = "hoshi/planned/repotted-2026-02-01"
    assert states_of("2026-01-31", "") == {OLD: "promised"}
    assert states_of("2026-02-01", again) == {OLD: "replaced", new: "coming"}
    # Of other work, or of another part, it says nothing.
    other = "\n    2026-02-01\n    hoshi\n      planned   prune, to 2026-11\n"
    assert states_of("2026-02-02", other)[OLD] == "promised"


def test_two_plans_of_one_work_whose_time_is_to_come_both_stand(states_of) -> None:
    """July ends on the 31st: planned on that day for later, the first may still be done."""
    both = "\n    2024-07-31\n    hoshi\n      planned   repot, to 2025-03\n"
    assert states_of("2024-07-31", both)[OLD] == "now"
    after = "\n    2024-08-01\n    hoshi\n      planned   repot, to 2025-03\n"
    assert states_of("2024-08-01", after)[OLD] == "replaced"


@pytest.mark.parametrize(("day", "told"), [("2024-12-28", 1), ("2024-12-29", 0)])
def test_what_a_run_remembers_of_it_is_told_no_longer(written, day, told) -> None:
    """A check plans no tree of which nothing new was written: it tells what the last plan found."""
    session = written(CARDS, "2024-05-01")
    remember_judged(session.journal, session.plan(), session.today, "this one")
    remembered = recalled_cautions(
        session.journal.memory, session.journal.pages, date.fromisoformat(day)
    )
    assert len(remembered) == told


@pytest.mark.parametrize(
    ("to", "skipped", "told"),
    [
        # What is older than the third year before this one, 2023, is told no longer; a plan is as
        # old as its last day, or the day on which it was closed, whichever comes later.
        ("2022-12", "2022-11-01", False),
        ("2023-01", "2022-11-01", True),
        ("2022-12-02/2022-12-31", "2022-11-01", False),
        ("2022-12-02/2023-01-01", "2022-11-01", True),
        ("2022-10", "2022-12-31", False),
        ("2022-10", "2023-01-01", True),
    ],
)
def test_a_plan_that_was_closed_is_told_for_three_years_and_this_one(
    written, states, to, skipped, told
) -> None:
    text = (
        CARDS.partition("    2024")[0]
        + f"""
    2022-06-01
    hoshi
      planned   prune, to {to}
    {skipped}
    hoshi
      skipped   prune
    """
    )
    found = states(written(text, "2026-11-20"), "planned/")
    assert list(found.values()) == (["skipped"] if told else [])
