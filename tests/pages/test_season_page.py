"""The season page: what it says of weeks, windows and what was moved, by literal figures.

The nursery's day is Wednesday 25 November 2026, so its first week begins on Monday the 23rd.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from xml.etree import ElementTree

import msgspec
import pytest

from backbud.collection.state import Tree
from backbud.pages import Nursery, render_pages
from backbud.pages.drawings.windows import draw, rows_of
from backbud.pages.season import sheet
from backbud.plan.followups import FollowUp
from backbud.plan.season import Work, by_best, season_of
from backbud.species import Window
from backbud_grammar.acts import ROWS

TODAY = date(2026, 11, 25)


def follow_up(tree: str, act: str, minutes: int, opens: int, best: int, closes: int) -> FollowUp:
    days = (TODAY + timedelta(n) for n in (opens, best, closes))
    ident = f"{tree}/{act}/{best}"
    return FollowUp(ident, tree, act, act, Window(*days), (), (), minutes, (act,), row=ROWS[act])


def nursery(hours: float, trees: dict[str, Tree], *plans: FollowUp) -> Nursery:
    by_tree = {name: tuple(p for p in plans if p.tree == name) for name in trees}
    return Nursery("A test", TODAY, "", tuple(trees.values()), by_tree, hours_per_week=hours)


@pytest.fixture
def two(nursery: Nursery) -> dict[str, Tree]:
    """Two of the trees of the invented nursery: Hoshi and pip."""
    return {tree.handle: tree for tree in nursery.trees if tree.handle in ("hoshi", "pip")}


@pytest.fixture
def full(two) -> Nursery:
    """A week of an hour too much, with one work of two that can wait."""
    return nursery_of(two, 2)


def nursery_of(two: dict[str, Tree], hours: float) -> Nursery:
    return nursery(
        hours,
        two,
        follow_up("hoshi", "repotted", 120, 0, 1, 3),
        follow_up("pip", "pruned", 60, 0, 2, 30),
        follow_up("pip", "wired", 90, 100, 120, 140),
        follow_up("hoshi", "fed", 5, -40, -30, -20),
    )


def test_the_figures_at_the_top(two) -> None:
    found = sheet(nursery_of(two, 4))
    # 120 + 60 + 90 + 5.
    assert (found.works, found.total, found.limit, found.full) == (4, "4 h 35", "4 h", 0)
    assert found.said == ("Every work stands on its best day.",)


def test_what_was_moved_is_told_with_its_gain(full: Nursery) -> None:
    found = sheet(full)
    # 120 + 60 + 5 late is 65 over; without the pruning 5 stay over, for what is late is now.
    assert found.said == (
        "With every work on its best day, 1 week would be too full, 1 h 05 over in all. "
        "1 work moved inside its window: 5 min over.",
        "Only this sheet moves them: calendars keep every work on its best day.",
    )
    assert found.full == 1
    first, second, third = found.weeks
    assert (first.monday, first.hours, first.over) == ("23 November", "2 h 05", "5 min over")
    assert [line.act for line in first.lines] == ["Repot", "Feed"]
    assert first.lines[1].named[0].late
    assert (second.monday, second.hours, second.over) == ("30 November", "1 h", "")
    (moved,) = second.lines[0].named
    assert (moved.tree, moved.moved) == ("pip", "from 27 November")
    assert moved.page.startswith("trees/pip.html#why-")
    # 25 November and 120 days are 25 March, a Thursday.
    assert third.monday == "22 March 2027"


def test_without_hours_nothing_is_moved_and_it_says_how_to_write_them(two) -> None:
    found = sheet(nursery_of(two, 0))
    assert (found.limit, found.full) == ("", 0)
    assert found.said[0].endswith("hours_per_week = 10")
    assert found.weeks[0].hours == "3 h 05"


def test_what_cannot_wait_is_said_to(two) -> None:
    found = sheet(nursery(1, two, follow_up("hoshi", "repotted", 120, 0, 1, 3)))
    assert found.said == (
        "What is in the weeks that are too full cannot wait, or has no lighter week to go to.",
    )


def test_a_tree_is_named_once_in_a_line(two) -> None:
    looks = [follow_up("pip", "checked", 5, 0, n, 9) for n in (0, 1, 2)]
    (week,) = sheet(nursery(4, two, *looks)).weeks
    assert [(one.tree, one.times) for one in week.lines[0].named] == [("pip", 3)]


def test_rows_follow_the_year_and_no_window_is_told_that_no_work_has() -> None:
    def work(act: str, opens: int, best: int, closes: int) -> Work:
        days = (TODAY + timedelta(n) for n in (opens, best, closes))
        return Work(f"{act}{best}{closes}", "x", act, act, 30, *days)

    works = [
        work("wired", 60, 70, 80),
        work("wired", 75, 90, 100),
        work("wired", 75, 91, 100),
        work("wired", 200, 210, 220),
        work("pruned", 0, 5, 10),
    ]
    season = season_of(by_best(works), TODAY, 0)
    first, second = rows_of(season, lambda act: act)
    assert (first.name, second.name) == ("pruned", "wired")
    assert second.windows == (
        ((TODAY + timedelta(60), TODAY + timedelta(80)), 1),
        ((TODAY + timedelta(75), TODAY + timedelta(100)), 2),
        ((TODAY + timedelta(200), TODAY + timedelta(220)), 1),
    )
    # 72, 92, 93 and 212 days after the first Monday: the weeks 10, 13 and 30.
    assert [n for n, minutes in enumerate(second.minutes) if minutes] == [10, 13, 30]
    # The twig: one window is open for 15 days, then three for 6, then two for 20; later one.
    drawn = draw("x", season, (first, second), TODAY).svg
    thick = re.findall(r'class="twig" .*? width="(.*?)%" height="(.*?)"', drawn)
    day = 100 / 364
    assert [(round(float(w) / day), float(h)) for w, h in thick[1:]] == [
        (15, 2.67), (6, 5.0), (20, 3.83), (21, 2.67),
    ]  # fmt: skip


def test_a_window_that_has_begun_is_told_whole_and_one_that_is_over_is_none(two) -> None:
    looks = [
        follow_up("pip", "wired", 5, -10, 3, 9),
        follow_up("pip", "wired", 5, -10, 4, 9),
        follow_up("hoshi", "wired", 5, -40, -30, -20),
    ]
    (row,) = sheet(nursery(0, two, *looks)).windows.table.rows
    assert row[:2] == ("wire", "1 work past the time for it, 15 November to 4 December (2 works)")


def test_of_many_windows_only_their_reach_is_told(two) -> None:
    looks = [follow_up("pip", "checked", 5, n, n + 1, 2 * n + 2) for n in range(7)]
    (row,) = sheet(nursery(0, two, *looks)).windows.table.rows
    assert row[1] == "7 windows, the first from 25 November, the last until 9 December"


def test_the_drawings_are_sound_and_tell_themselves_in_words(full: Nursery) -> None:
    page = render_pages(full)["season.html"].decode()
    drawings = re.findall(r'<svg class="drawing.*?</svg>\n', page, re.S)
    assert len(drawings) == 2
    for drawing in drawings:
        root = ElementTree.fromstring(drawing)
        title, about = root[0], root[1]
        assert root.get("role") == "img"
        assert root.get("aria-labelledby") == title.get("id")
        assert root.get("aria-describedby") == about.get("id")
    hours, windows = (ElementTree.fromstring(drawing) for drawing in drawings)
    assert hours[1].text == (
        "Bars for 52 weeks; the fullest is the week of 23 November with 2 h 05."
    )
    assert windows[1].text == (
        "feed: 1 work past the time for it; repot: 25 to 28 November; "
        "prune: 25 November to 25 December; "
        "wire: 5 March to 14 April 2027."
    )
    assert sheet(full).windows.table.rows[2] == (
        "prune",
        "25 November to 25 December",
        "30 November",
    )
    # One leaf for each week in which an act stands.
    assert drawings[1].count('class="leaf"') == 4
    # Over the limit, what was moved from there, and within it.
    assert [drawings[0].count(f'class="{mark}"') for mark in ("over", "was", "seen")] == [1, 1, 3]


def test_a_nursery_without_work_says_so(nursery: Nursery) -> None:
    page = render_pages(msgspec.structs.replace(nursery, plans={}))["season.html"].decode()
    assert "Nothing wants doing in the year ahead." in page
    assert "<svg" not in page
