"""A plan that names a season: its window is that season of the hemisphere."""

from __future__ import annotations

from datetime import date
from types import SimpleNamespace

import pytest

from backbud.plan.windows import window_said
from backbud_grammar.syntax import Detail


# Seasons begin on the first of March, June, September and December (meteorological).
@pytest.mark.parametrize(
    ("day", "words", "southern", "opens", "closes"),
    [
        ("2026-11-10", "in spring", False, "2027-03-01", "2027-05-31"),
        ("2026-11-10", "next spring", False, "2027-03-01", "2027-05-31"),
        ("2027-04-10", "in spring", False, "2027-03-01", "2027-05-31"),
        ("2027-04-10", "next spring", False, "2028-03-01", "2028-05-31"),
        ("2027-01-10", "this winter", False, "2026-12-01", "2027-02-28"),
        ("2027-04-10", "in spring", True, "2027-09-01", "2027-11-30"),
    ],
)
def test_the_window(day: str, words: str, southern: bool, opens: str, closes: str) -> None:
    season = Detail("season", words=words)
    event = SimpleNamespace(
        day=date.fromisoformat(day), first=lambda name: season if name == "season" else None
    )
    window = window_said(event, southern)  # type: ignore[arg-type]
    assert window is not None
    assert (str(window.opens), str(window.closes)) == (opens, closes)


def test_what_a_plan_says_of_the_work_stays_and_its_time_goes(written) -> None:
    session = written(
        """
        tree hoshi
          kind  trident maple
        2026-11-01
        hoshi
          planned  trim to 2 pairs, to 2027-05
          planned  prune hard, in 6 weeks
          planned  repot, next spring
        """,
        problems=(),
    )
    titles = {f.title for f in session.plan().all() if f.planned}
    assert "trim to 2 pairs" in titles
    assert "prune hard" in titles
    assert not any("2027" in title or "weeks" in title or "spring" in title for title in titles)
