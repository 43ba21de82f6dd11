"""What is far off does not move from day to day, however the weather of each day was."""

from __future__ import annotations

import random
from datetime import date, timedelta

import pytest

from backbud.plan.run import Plan

KINDS = ("satsuki azalea", "trident maple", "Japanese black pine", "Chinese juniper", "zelkova")
THREE_WEEKS = timedelta(days=21)
FIRST = date(2026, 1, 12)
MONTH_ENDS = (date(2026, 1, 31),)


def weather() -> str:
    """Six years of days that stray about a cool climate, so that sums change every day."""
    low = (1, 1, 2, 4, 6, 9, 11, 11, 9, 6, 3, 1)
    draw, rows, stray, day = random.Random(7), ["date,low,high,rain"], 0.0, date(2020, 1, 1)
    while day < FIRST + timedelta(days=60):
        stray = 0.8 * stray + draw.gauss(0, 2)
        mean = low[day.month - 1] + stray
        rows.append(f"{day},{mean:.1f},{mean + 7:.1f},0")
        day += timedelta(days=1)
    return "\n".join(rows) + "\n"


@pytest.fixture(scope="module")
def rows() -> str:
    return weather()


def test_far_windows_move_at_most_once_a_week_and_only_on_mondays(written, rows: str) -> None:
    """Every day from 12 January on for three weeks, with the weather known up to that day."""
    trees = "".join(f"tree t{n}\n  kind  {kind}\n  place yard\n" for n, kind in enumerate(KINDS))
    noted = "2025-03-01\nall in yard\n  noted  well\n"
    card = "place yard\n  latitude  55\n  weather  yard.csv\n"

    def planned(on: date) -> Plan:
        session = written(
            card + trees + noted,
            on.isoformat(),
            settings='home = "yard"\n',
            as_of=True,
            files={"yard.csv": rows},
        )
        return session.plan()

    before: dict[str, object] = {}
    compared = moved = 0
    for n in range(22):
        today = FIRST + timedelta(days=n)
        now = {f.id: f.window for f in planned(today).all()}
        for ident, window in now.items():
            old = before.get(ident)
            far = window.opens - today > THREE_WEEKS + timedelta(days=7)
            if old is None or not far:
                continue
            compared += 1
            if old != window:
                moved += 1
                # A month's mean is known with its last day, and moves the means of all years:
                # what goes by them alone, and by no stage, moves then.
                by_means = today in MONTH_ENDS and "/spring-clean/" in ident
                assert by_means or today.weekday() in (0, 1), (ident, today, old, window)
        before = dict(now)
    assert compared > 300
    assert moved < compared / 10
