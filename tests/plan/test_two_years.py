"""Two years of six trees, read on 22 days: what a keeper wants, by two_years_due.txt."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from backbud.views.day import all_works, due, joint_title, rounds, stands_under

JOURNAL = Path(__file__).with_name("two_years_journal.txt").read_text("utf-8")
READ = Path(__file__).with_name("two_years_due.txt").read_text("utf-8")
# These few are read in every run.
OFTEN = ("2026-03-21", "2026-10-05", "2027-05-16", "2027-11-27")


def days() -> list[tuple[str, str, list[str]]]:
    """Each day, why its list is as it is, and the list."""
    read = READ.strip().split("\n\n")[2:]
    found = []
    for block in read:
        head, *lines = block.split("\n")
        day, why = head.split("  ", 1)
        found.append((day, why, [line.strip() for line in lines]))
    return found


def wanted(session) -> list[str]:
    """What is late or can be done now, in its order."""
    today = session.today
    works = due(all_works(session.plan(), session.names(), today), today, timedelta(0))
    lines = []
    for those in rounds(one for one in works if stands_under(one, today) in ("overdue", "now")):
        trees = ", ".join(dict.fromkeys(one.tree for one in those))
        late = "late: " if any(one.state == "overdue" for one in those) else ""
        lines.append(f"{trees}: {late}{joint_title(those)}")
    return lines


@pytest.mark.parametrize(
    ("day", "why", "lines"),
    [
        pytest.param(*one, id=one[0], marks=() if one[0] in OFTEN else (pytest.mark.long,))
        for one in days()
    ],
)
def test_a_keeper_wants_exactly_this(written, day: str, why: str, lines: list[str]) -> None:
    session = written(JOURNAL, day, settings='home = "yard"\n', as_of=True)
    assert session.today == date.fromisoformat(day)
    assert wanted(session) == lines, why


def test_each_of_the_22_days_is_argued() -> None:
    assert len({day for day, _, _ in days()}) == 22
    assert all(why.endswith(".") and lines for _, why, lines in days())
