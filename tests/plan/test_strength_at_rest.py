"""At rest nothing shows a tree's strength: a look at it waits until it grows.

A trident's leaves fall in the first days of November here, and its buds burst about the end of
March, by the reference climate's months.
"""

from __future__ import annotations

from datetime import date

import pytest

PLACE = """
place yard
  latitude   52.9 N
  longitude  1.2 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
"""
KNOWN = "2025-01-10\nhoshi\n  noted  well\n"
IN_SUMMER = "2025-08-20\nhoshi\n  repotted  3 cm off below\n"
IN_WINTER = "2025-12-01\nhoshi\n  repotted  3 cm off below\n"
WEAK = "2025-08-20\nhoshi\n  vigour  1\n"


@pytest.fixture
def looked(written):
    """How the look at a tree's strength stands on a day."""

    def of(diary: str, on: str, kind: str = "trident maple") -> str:
        text = f"{PLACE}tree hoshi\n  kind  {kind}\n  place  yard\n{KNOWN}{diary}"
        session = written(text, on, settings='home = "yard"\n')
        rules = ("/out-of-its-time/", "/strength-check/")
        (one,) = [f for f in session.plan().all() if any(rule in f.id for rule in rules)]
        assert one.act in ("checked", "vigour")
        return one.state(date.fromisoformat(on))

    return of


@pytest.mark.parametrize(
    ("kind", "done"),
    [("trident maple", IN_SUMMER), ("trident maple", WEAK), ("Scots pine", WEAK)],
)
def test_it_is_late_while_the_tree_grows_and_not_in_winter(looked, kind: str, done: str) -> None:
    assert looked(done, "2025-09-20", kind) in ("now", "coming")
    # A pine whose shoots are ripe is looked at in spring from the first.
    rests = ("lapsed", "coming")
    assert looked(done, "2025-12-10", kind) in rests
    assert looked(done, "2026-02-10", kind) in rests
    # Once it grows it is asked anew, and is late until it rests again.
    assert looked(done, "2026-05-05", kind) == "now"
    assert looked(done, "2026-07-20", kind) == "overdue"
    assert looked(done, "2026-12-10", kind) in rests


def test_out_of_its_time_in_august_it_is_late_in_october(looked) -> None:
    """20 August and 42 days is 1 October."""
    assert looked(IN_SUMMER, "2025-10-01") == "now"
    assert looked(IN_SUMMER, "2025-10-02") == "overdue"


def test_what_was_done_in_winter_is_looked_at_in_spring(looked) -> None:
    # How it is helped over is told at once; 1 December and 42 days is 12 January.
    assert looked(IN_WINTER, "2025-12-10") == "now"
    assert looked(IN_WINTER, "2026-01-12") == "now"
    assert looked(IN_WINTER, "2026-01-13") == "lapsed"
    assert looked(IN_WINTER, "2026-03-01") == "lapsed"
    assert looked(IN_WINTER, "2026-05-01") == "now"
    found = "\n2026-04-28\nhoshi\n  checked  strength fine\n"
    assert looked(IN_WINTER + found, "2026-05-01") == "done"


def test_a_plan_that_lasts_all_year_where_there_is_no_winter(written) -> None:
    place = """
place yard
  latitude   1.4 N
  longitude  103.8 E
  low   24 24 25 25 26 26 25 25 25 25 24 24 C
  high  30 32 32 32 32 32 31 31 31 31 31 30 C
"""
    text = f"{place}tree hoshi\n  kind  small-leaved fig\n  place  yard\n{KNOWN}{WEAK}"
    session = written(text, "2025-12-10", settings='home = "yard"\n')
    (one,) = [f for f in session.plan().all() if "/strength-check/" in f.id]
    assert one.schedule.over is None
    assert one.state(date(2025, 12, 10)) == "overdue"
