"""What `worked` lines teach of the minutes of an act, worked out by hand."""

from __future__ import annotations

import pytest

from backbud.plan.hours import learned
from backbud.session import Session

CARDS = """
    tree oak
      kind    garden shrub
      height  30 cm
    tree elm
      kind    garden shrub
      height  32 cm
"""


def taught(session: Session) -> dict[tuple[str, str], float]:
    found = learned(session.histories, session.journal.things, session.today)
    return {tuple(key): minutes for key, minutes in found.items()}


def test_the_median_of_three_by_act_and_height(written) -> None:
    session = written(
        CARDS
        + """
    2024-03-01
    oak
      repotted  same pot
      worked    1 h 30
    2025-03-01
    elm
      repotted  same pot
      worked    2 h
    2026-03-01
    oak
      repotted  same pot
      worked    100 min
    2026-03-02
    oak
      wired     2 mm Al on apex
      worked    3 h
    """
    )
    # 90, 100, 120; the wiring was timed once only. 30 and 32 cm are kifu.
    assert taught(session) == {("repotted", "kifu"): 100}


@pytest.mark.parametrize(
    ("today", "known"), [("2026-02-28", {}), ("2026-03-01", {("repotted", "kifu"): 90})]
)
def test_what_was_timed_today_counts(written, today, known) -> None:
    """It takes three times to tell."""
    pages = "".join(
        f"""
    202{n}-03-01
    oak
      repotted  same pot
      worked    90 min
    """
        for n in (4, 5, 6)
    )
    assert taught(written(CARDS + pages, today, as_of=True)) == known


def test_a_time_for_several_acts_is_parted_as_usual_minutes_are(written) -> None:
    session = written(
        CARDS
        + "".join(
            f"""
    202{n}-03-01
    oak
      repotted  same pot
      pruned    light
      worked    3 h
      noted     rain all day
    """
            for n in (3, 4, 5)
        )
    )
    # Usual are 60 and 30 min: two thirds and one third of 180.
    assert taught(session) == {("repotted", "kifu"): 120, ("pruned", "kifu"): 60}


def test_a_line_that_names_its_work_is_about_that_alone(written) -> None:
    session = written(
        CARDS
        + "".join(
            f"""
    202{n}-03-01
    oak
      repotted  same pot
      pruned    light
      worked    2 h on repotting
      worked    20 min on pruning
    """
            for n in (3, 4, 5)
        )
    )
    assert taught(session) == {("repotted", "kifu"): 120, ("pruned", "kifu"): 20}


def test_a_line_counts_for_its_own_subjects_and_is_shared_among_them(written) -> None:
    session = written(
        CARDS
        + "".join(
            f"""
    202{n}-06-01
    oak, elm
      trimmed   light
      worked    1 h
    oak
      pruned    light
      worked    45 min
    """
            for n in (3, 4, 5)
        )
    )
    # Half an hour for each of two trees, six times; the pruning has its own line.
    assert taught(session) == {("trimmed", "kifu"): 30, ("pruned", "kifu"): 45}


def test_the_height_is_that_of_the_day(written) -> None:
    session = written(
        CARDS
        + "".join(
            f"""
    202{n}-06-01
    oak
      {"measured  height 70 cm" if n == 4 else "noted     dry"}
      trimmed   light
      worked    {n}0 min
    """
            for n in (1, 2, 3, 4, 5, 6)
        )
    )
    # 10, 20, 30 min while it was kifu; 40, 50, 60 since it is over 60 cm.
    assert taught(session) == {("trimmed", "kifu"): 20, ("trimmed", "dai"): 50}


@pytest.mark.parametrize(("worked", "minutes"), [("50 min", 50), ("20 min", 20)])
def test_what_was_learned_is_what_a_work_is_planned_with(written, find, worked, minutes) -> None:
    diary = "".join(
        f"""
    202{n}-06-01
    oak
      pruned    light
      worked    {worked}
    """
        for n in (3, 4, 5)
    )
    plan = """
    2026-11-01
    oak, elm
      planned   prune, to 2027-02
    tree fir
      kind      garden shrub
    2026-11-01
    fir
      planned   prune, to 2027-02
    """
    session = written(CARDS + diary + plan)
    # elm is of the same class of height; nobody wrote that of fir, so it has the usual 30 min.
    assert find(session, "oak/planned").minutes == minutes
    assert find(session, "elm/planned").minutes == minutes
    assert find(session, "fir/planned").minutes == 30


@pytest.mark.parametrize(("on", "minutes"), [("-05", 90), ("", 100)])
def test_what_is_only_roughly_known_teaches_no_minutes(written, on, minutes) -> None:
    """90, 100 and 120 minutes of exact days, and twice twenty: of one day in March and in April, or
    of some day in them. The middle of all five is 90."""
    times = (("2024-03-01", 90), ("2025-03-01", 120), ("2026-02-01", 100))
    times += ((f"2026-03{on}", 20), (f"2026-04{on}", 20))
    text = "".join(
        f"""
    {day}
    oak
      repotted  same pot
      worked    {taken} min
    """
        for day, taken in times
    )
    assert taught(written(CARDS + text)) == {("repotted", "kifu"): minutes}
