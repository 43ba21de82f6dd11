"""The year's page: what it says of weeks, twigs and what was moved, by literal figures.

The nursery's day is Wednesday 25 November 2026, so its first week begins on Monday the 23rd. Less
than ten days of November are left, so what comes first reaches to the end of December's last week.
"""

from __future__ import annotations

import itertools
import re
from datetime import date, timedelta
from xml.etree import ElementTree

import msgspec
import pytest

from backbud.collection.state import Tree
from backbud.pages import Nursery, render_pages
from backbud.pages.drawings import sprig
from backbud.pages.year import sheet
from backbud.plan.followups import FollowUp
from backbud.species import Weight, Window
from backbud.views.year import MOST_ROWS, first_until, year_view
from backbud_grammar.acts import ROWS

TODAY = date(2026, 11, 25)
MONDAY = date(2026, 11, 23)
# What may be done waits for its best week; `follow_up` gives what must be done.
CHANCE = Weight("style", False, "lapses")


def follow_up(
    tree: str, act: str, minutes: int, opens: int, best: int, closes: int, what: str = "",
    weight: Weight | None = None,
) -> FollowUp:  # fmt: skip
    days = (TODAY + timedelta(n) for n in (opens, best, closes))
    settled_by = (f"{act} {what}".rstrip(), act)
    one = FollowUp(
        f"{tree}/{act}/{best}", tree, act, act, Window(*days), (), (), minutes, settled_by,
        row=ROWS[act],
    )  # fmt: skip
    return one if weight is None else msgspec.structs.replace(one, weight=weight)


def nursery_with(hours: float, trees: dict[str, Tree], *plans: FollowUp) -> Nursery:
    by_tree = {name: tuple(p for p in plans if p.tree == name) for name in trees}
    return Nursery("A test", TODAY, "", tuple(trees.values()), by_tree, hours_per_week=hours)


@pytest.fixture
def two(nursery: Nursery) -> dict[str, Tree]:
    """Two trees of the invented nursery, of two kinds."""
    trees = {tree.handle: tree for tree in nursery.trees if tree.handle in ("hoshi", "pip")}
    return trees | {"pip": msgspec.structs.replace(trees["pip"], kind="Scots pine")}


def full_of(two: dict[str, Tree], hours: float) -> Nursery:
    return nursery_with(
        hours,
        two,
        follow_up("hoshi", "repotted", 120, 0, 1, 3),
        follow_up("pip", "pruned", 60, 0, 2, 30),
        follow_up("pip", "wired", 90, 100, 120, 140),
        follow_up("hoshi", "fed", 5, -40, -30, -20),
    )


def test_the_year_in_short(two) -> None:
    found = sheet(full_of(two, 4))
    # 120 + 60 + 90 + 5; of these all but the wiring in the first week.
    assert found.short.replace("\xa0", " ") == (
        "4 h 35 of work in the year ahead. The fullest week is this one, 3 h 05 of 4 h."
    )
    assert found.said == ("Every work stands on its best day.",)
    (week,) = found.near
    assert (week.heading, week.hours, week.at_bench) == ("This week", "3 h 05 of 4 h", "3 works")


def test_what_was_moved_is_told_with_its_gain(two) -> None:
    found = sheet(full_of(two, 2))
    # 120 + 60 + 5 late is 65 over; without the pruning 5 stay over, for what is late is now.
    assert found.said == (
        "With every work on its best day, 1 week would be too full, 1 h 05 over in all. "
        "1 work moved inside its window: 5 min over.",
        "Only this page moves them: calendars keep every work on its best day.",
    )
    first, second = found.near
    assert (first.heading, first.hours) == ("This week", "2 h 05, 5 min more than the week has")
    assert first.full
    # Both stand at the bench, and nowhere else.
    assert (first.at_bench, first.rows) == ("2 works", ())
    assert (second.heading, second.hours, second.at_bench) == ("Next week", "1 h of 2 h", "")
    (row,) = second.rows
    assert (row.task, row.kind.name) == ("Prune", "Scots pine")
    assert row.by.replace("\xa0", " ") == "30 November, 1 h, moved from 27 November"
    (moved,) = row.trees
    assert (moved.name, moved.aside) == ("pip", "")
    assert moved.page.startswith("trees/pip.html#why-")
    # 25 November and 120 days are 25 March, a Thursday.
    (month,) = found.months
    assert (month.heading, month.total) == ("March 2027", "1 work, 1 h 30")
    (of_kind,) = month.kinds
    (wiring,) = of_kind.works
    assert (of_kind.kind.name, wiring.task) == ("Scots pine", "Wire")
    assert wiring.told.replace("\xa0", " ") == "pip, 25 March, 1 h 30"


def test_without_hours_nothing_is_moved_and_it_says_how_to_write_them(two) -> None:
    found = sheet(full_of(two, 0))
    assert found.said[0].endswith("hours_per_week = 10")
    assert found.near[0].hours == "3 h 05"


def test_what_cannot_wait_is_said_to(two) -> None:
    found = sheet(nursery_with(1, two, follow_up("hoshi", "repotted", 120, 0, 1, 3)))
    assert found.said == (
        "What is in the weeks that are too full cannot wait, or has no lighter week to go to.",
    )


def test_works_of_two_kinds_are_never_one_row_and_a_tree_is_named_once(two) -> None:
    looks = [follow_up("pip", "checked", 5, 5, n, 9, "wire") for n in (6, 7, 8)]
    other = follow_up("hoshi", "checked", 5, 5, 6, 9, "wire")
    (week,) = sheet(nursery_with(4, two, *looks, other)).near
    assert [(row.task, row.kind.name, row.trees[0].aside) for row in week.rows] == [
        ("Check wire", "Scots pine", "× 3"),
        ("Check wire", "trident maple", ""),
    ]


def test_a_chance_waits_for_its_best_week_and_stands_there(two) -> None:
    chance = follow_up("pip", "pruned", 30, -3, 9, 20, weight=CHANCE)
    (week,) = sheet(nursery_with(4, two, chance)).near
    # 25 November and 9 days are Friday 4 December.
    assert (week.heading, week.at_bench, week.rows[0].task) == ("Next week", "", "Prune")


def test_what_comes_first_reaches_to_the_end_of_a_week() -> None:
    # 30 April 2026 is a Thursday, 31 May a Sunday (ISO 8601).
    assert first_until(date(2026, 4, 2)) == date(2026, 5, 3)
    assert first_until(date(2026, 4, 21)) == date(2026, 5, 3)
    assert first_until(date(2026, 4, 22)) == date(2026, 5, 31)


def test_rows_over_the_most_go_by_kind(nursery: Nursery) -> None:
    """Of 32 works in a week, one a kind, the two that take least have no row."""
    tree = nursery.trees[0]
    trees = {
        f"t{n}": msgspec.structs.replace(tree, handle=f"t{n}", kind=f"kind {n:02}")
        for n in range(MOST_ROWS + 2)
    }
    works = [follow_up(f"t{n}", "wired", 10 + n, 5, 6, 30) for n in range(MOST_ROWS + 2)]
    (week,) = sheet(nursery_with(0, trees, *works)).near
    assert len(week.rows) == MOST_ROWS
    assert [(one.kind.name, one.what) for one in week.rest] == [
        ("kind 00", "1 more work, 10 min"),
        ("kind 01", "1 more work, 11 min"),
    ]


def test_a_twig_is_as_thick_as_trees_are_open_and_no_window_is_told_that_none_has(two) -> None:
    alike = {"pip": two["pip"], "hoshi": msgspec.structs.replace(two["hoshi"], kind="Scots pine")}
    works = [
        follow_up("pip", "wired", 30, 60, 70, 80),
        follow_up("hoshi", "wired", 30, 75, 90, 100),
        follow_up("pip", "wired", 30, 75, 91, 100),
        follow_up("pip", "wired", 30, 200, 210, 220),
        follow_up("hoshi", "pruned", 30, 0, 5, 10),
    ]
    (one,) = year_view(nursery_with(0, alike, *works)).sprigs
    assert (one.kind, one.trees, one.minutes) == ("Scots pine", 2, 150)
    prune, wire = one.twigs
    assert (prune.work, wire.work) == ("prune", "wire")
    # Days 62 to 82 after the first Monday are the weeks 8 to 11, 77 to 102 are 11 to 14, 202 to 222
    # are 28 to 31; in week 11 pip has two windows, and is one tree.
    assert {n: trees for n, trees in enumerate(wire.open_trees) if trees} == {
        8: 1, 9: 1, 10: 1, 11: 2, 12: 2, 13: 2, 14: 2, 28: 1, 29: 1, 30: 1, 31: 1,
    }  # fmt: skip
    # 72, 92, 93 and 212 days after the first Monday: the weeks 10, 13 and 30.
    assert [(bud.week, bud.trees) for bud in wire.buds] == [(10, 1), (13, 2), (30, 1)]
    assert sprig.when_it_may_be(wire, TODAY) == (
        "24 January to 13 February 2027, 8 February to 5 March 2027 (2 trees), "
        "13 June to 3 July 2027"
    )
    # Foreseen is unfilled; the pruning may be done today.
    drawn = sprig.draw("x", one, MONDAY, TODAY)
    assert [drawn.count(f'class="{mark}"') for mark in ("bud", "bud ahead", "burst")] == [1, 3, 0]


def test_of_many_windows_only_their_reach_is_told(two) -> None:
    looks = [follow_up("pip", "checked", 5, n, n + 1, 2 * n + 2) for n in range(7)]
    (one,) = year_view(nursery_with(0, two, *looks)).sprigs
    assert sprig.when_it_may_be(one.twigs[0], TODAY) == (
        "7 windows, the first from 25 November, the last until 9 December"
    )


def test_names_of_twigs_never_meet(two) -> None:
    """On a telephone 340 pixels are the drawing's width: no two names in one lane overlap."""
    acts = ("wired", "pruned", "fed", "trimmed", "pinched", "thinned", "repotted", "cleaned")
    works = [follow_up("pip", act, 5, 40 + n, 45 + n, 60 + n) for n, act in enumerate(acts)]
    (one,) = year_view(nursery_with(0, two, *works)).sprigs
    drawn = sprig.draw("x", one, MONDAY, TODAY)
    names = re.findall(r'<text x="([\d.]+)%" y="(\d+)">(.*?)</text>', drawn)
    assert len(names) == len(acts)
    by_lane: dict[str, list[tuple[float, float]]] = {}
    for x, y, name in names:
        left = float(x) * 3.4
        by_lane.setdefault(y, []).append((left, left + 7 * len(name)))
    for spans in by_lane.values():
        spans.sort()
        assert all(a[1] <= b[0] for a, b in itertools.pairwise(spans))


def test_the_drawings_are_sound_and_tell_themselves_in_words(two) -> None:
    page = render_pages(full_of(two, 2))["season.html"].decode()
    drawings = re.findall(r'<svg class="(?:bough|sprig)".*?</svg>\n', page, re.S)
    assert len(drawings) == 3
    for drawing in drawings:
        root = ElementTree.fromstring(drawing)
        title, about = root[0], root[1]
        assert root.get("role") == "img"
        assert root.get("aria-labelledby") == title.get("id")
        assert root.get("aria-describedby") == about.get("id")
    hours, *kinds = (ElementTree.fromstring(drawing) for drawing in drawings)
    assert hours[1].text == "52 weeks; the fullest is the week of 23 November with 2 h 05."
    assert [drawing[1].text for drawing in kinds] == [
        "prune: 25 November to 25 December; wire: 5 March to 14 April 2027.",
        "feed: 1 tree past the time for it; repot: 25 to 28 November.",
    ]
    # A diamond over the week that is too full, and one on the twig of what is late.
    assert [drawing.count('class="burst"') for drawing in drawings] == [1, 0, 1]
    assert drawings[0].count('class="beyond"') == 1


def test_a_nursery_without_work_says_so(nursery: Nursery) -> None:
    page = render_pages(msgspec.structs.replace(nursery, plans={}))["season.html"].decode()
    assert "Nothing wants doing in the year ahead." in page
    assert "<svg" not in page
