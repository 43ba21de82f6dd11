"""The first page: rounds, their order and their headings, and what finds no row."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

import msgspec
import pytest
from tests.pages.conftest import TODAY, around, plan, tree
from tests.pages.test_render import Outline

from backbud.pages import Nursery, render_pages
from backbud.pages.drawings.window_line import window_line
from backbud.plan.followups import FollowUp, Reason
from backbud.species import CARE, CHANCE, PROTECTION, ROUTINE, Window
from backbud.views.bench import FrostToday, _frost
from backbud.views.sky import FrostOfWinter, Frosts, Odds

NO_BREAK = "\N{NO-BREAK SPACE}"


def text_of(page: bytes) -> str:
    return Outline(page).text.replace(NO_BREAK, " ")


@pytest.fixture(scope="module")
def first(nursery: Nursery) -> str:
    return text_of(render_pages(nursery)["index.html"])


def bench(plans: Mapping[str, tuple[FollowUp, ...]], **places: str) -> Nursery:
    """A journal with these works; `places`: where each tree stands, else the tunnel."""
    trees = tuple(tree(handle, place=places.get(handle, "tunnel")) for handle in plans)
    names = {"tunnel": "Tunnel", "long-bench": "Long bench"}
    return Nursery("Bench", TODAY, "", trees, plans, names)


def page_of(view: Nursery) -> str:
    return render_pages(view)["index.html"].decode().replace(NO_BREAK, " ")


def rows_of(page: str) -> list[str]:
    return [part.split("</li>")[0] for part in page.split('<li class="round')[1:]]


def test_it_says_what_by_when_how_long_where_and_why(first: str) -> None:
    assert "Wednesday 25 November 2026" in first
    # Due by 13 November, twelve days before the 25th.
    assert (
        "Past its time Protect the pot against frost was due 23 November, 10 min Tunnel 星降る夜 "
        "why, take care"
    ) in first
    assert (
        "Take the wire off left 2 was due 13 November, 25 min Tunnel Hoshi why: "
        "Take the wire off left 2 Wired 3 mm Al on left 2 on 4 May 2026. "
        "Wire on a trident maple bites within six weeks of strong growth."
    ) in first
    assert (
        "Closes soon Move under unheated glass by 29 November, best today, 5 min "
        "North bench Yuki why, take care"
    ) in first
    assert "Not pressing Pluck old needles by 13 December, 1 h 30 North bench Old Goat" in first
    assert "Take the old ties out by 15 December, best 27 November, 10 min Tunnel Hoshi" in first
    assert "Take care: Azalea is poisonous, all of it: wash your hands before you eat." in first


def test_what_is_still_to_come_stands_in_the_year_alone(nursery: Nursery, first: str) -> None:
    for title in ("Treat the deadwood", "Check the guy", "Wire the second branch", "Bring it in",
                  "End the quarantine", "Prune hard", "Repot Hoshi", "Feed"):  # fmt: skip
        assert title not in first
    assert "What comes next stands in the year" in first
    season = text_of(render_pages(nursery)["season.html"])
    assert "wire" in season and "The Ferryman" in season


def test_problems_stand_above_the_work(first: str) -> None:
    assert first.index("The journal has 1 problem") < first.index("Past its time")
    assert "“wird” is no act known here. Did you mean wired?" in first


def test_the_same_work_of_several_trees_is_one_row() -> None:
    """By place as one walks, reasons and cautions once, the window of the one that closes first."""
    common = Reason("rule", "Wire bites in strong growth.")
    plans = {
        handle: (
            plan(handle, "unwired", f"unwire on {part}", around(-9, 2, closes), part=part,
                 because=(Reason("diary", f"Wired {part}."), common), minutes=20,
                 cautions=("Cut the wire, never unwind it.",)),
        )
        for handle, part, closes in (
            ("crow", "left 2", 40), ("gannet", "apex", 20), ("skerry", "left 1", 30),
        )
    }  # fmt: skip
    plans["crow"] += (
        plan("crow", "unwired", "unwire on apex", around(-9, 2, 50), part="apex", minutes=5,
             because=(common,), cautions=("Cut the wire, never unwind it.",)),
    )  # fmt: skip
    page = page_of(bench(plans, gannet="long-bench"))
    (row,) = rows_of(page)
    # 20 days after 25 November, 50 days after it; 3 x 20 + 5 minutes.
    assert '<h3 dir="auto">Unwire</h3>' in row
    assert "by 15 December, best 27 November, the last 14 January 2027, 1 h 05" in row
    said = text_of(page.encode())
    assert "Long bench gannet apex Tunnel crow left 2, apex skerry left 1" in said
    assert row.count("Cut the wire, never unwind it.") == 1
    assert row.count("Wire bites in strong growth.") == 1
    assert "crow: Wired left 2." in said and "gannet: Wired apex." in said


def test_a_caution_of_some_trees_names_them() -> None:
    plans = {
        "crow": (plan("crow", "fed", "feed", around(-1, 0, 20), cautions=("Weak.",)),),
        "gannet": (plan("gannet", "fed", "feed", around(-1, 0, 20)),),
    }
    assert "Take care:</strong> crow: Weak.</p>" in page_of(bench(plans))


@pytest.mark.parametrize(
    ("act", "window", "given", "heading"),
    [
        ("pruned", around(-40, -30, -1), {}, "Past its time"),
        ("pruned", around(-9, 0, 10), {}, "Closes soon"),
        ("pruned", around(-9, 0, 11), {}, "Not pressing"),
        # What a tree may die without comes first; what only may be done presses nobody.
        ("protected", around(-9, 0, 40), {"weight": PROTECTION}, "Before all else"),
        # So does a shelter that should be over it by now; one for a night goes by its days.
        ("protected", around(-1, 0, 20), {"weight": CARE}, "Before all else"),
        ("protected", around(-1, 3, 20), {"weight": CARE}, "Not pressing"),
        ("protected", around(-1, 0, 2), {"weight": CARE}, "Closes soon"),
        ("protected", around(-1, 0, 20), {"weight": CHANCE}, "Not pressing"),
        ("pruned", around(-9, 0, 2), {"weight": CHANCE}, "Not pressing"),
        ("checked", around(-9, 0, 0), {}, "The round to look at"),
        ("checked", around(-9, -5, -1), {}, "Past its time"),
        ("pruned", around(-400, -300, -200), {"given_word": True}, "Given word"),
        ("pruned", around(-40, -30, -20), {"given_word": True}, "Past its time"),
    ],
)
def test_headings_go_by_days_and_by_what_is_at_stake(
    act: str, window: tuple[date, date, date], given: dict[str, Any], heading: str
) -> None:
    one = plan("crow", act, "do it", window, **given)
    page = page_of(bench({"crow": (one,)}))
    assert re.findall(r"<h2[^>]*>(.*?)</h2>", page) == [heading]


def test_what_is_most_at_stake_stands_first() -> None:
    some = (
        plan("crow", "fed", "style", around(-9, 0, 2), weight=ROUTINE),
        plan("crow", "pruned", "harm", around(-9, 0, 9), weight=CARE),
        plan("crow", "protected", "life", around(-9, 0, 10), weight=PROTECTION),
    )
    assert re.findall(r"<h3[^>]*>(.*?)</h3>", page_of(bench({"crow": some}))) == [
        "Life", "Harm", "Style"
    ]  # fmt: skip


def test_a_chance_waits_for_the_week_of_its_best_day() -> None:
    """25 November 2026 is a Wednesday: a best day of Monday the 30th is next week's."""
    this = plan("crow", "pruned", "this week", around(-9, 4, 20), weight=CHANCE)
    following = plan("crow", "pruned", "next week", around(-9, 5, 20), weight=CHANCE)
    page = page_of(bench({"crow": (this, following)}))
    assert re.findall(r"<h3[^>]*>(.*?)</h3>", page) == ["This week"]


def test_a_row_names_six_trees_and_then_links_to_their_places() -> None:
    handles = [f"tree-{n}" for n in range(9)]
    plans = {h: (plan(h, "fed", "feed", around(-1, 0, 20)),) for h in handles}
    there = {"tree-7": "long-bench", "tree-8": "long-bench"}
    (row,) = rows_of(page_of(bench(plans, **there)))
    assert re.findall(r'href="trees/(tree-\d)', row) == handles[:6]
    assert text_of(row.encode()).count("1 more") == 1
    assert 'and 2 more trees at</span> <a class="place" href="places/long-bench.html"' in row


def test_never_more_than_thirty_rows_then_by_place() -> None:
    """Forty works on two places: 28 rows, and one for what is over at each place."""
    plans = {
        f"tree-{n}": (plan(f"tree-{n}", "pruned", f"prune number {n}", around(-1, 0, 12 + n)),)
        for n in range(40)
    }
    there = {f"tree-{n}": "long-bench" for n in range(38, 40)}
    rows = rows_of(page_of(bench(plans, **there)))
    assert len(rows) == 30
    titles = [re.search(r"<h3[^>]*>(.*?)</h3>", row) for row in rows[:28]]
    assert [found and found[1] for found in titles] == [f"Prune number {n}" for n in range(28)]
    # Ten are left in the tunnel, of 20 minutes each, and two on the long bench.
    assert "places/tunnel.html" in rows[28] and "3 h 20" in rows[28]
    assert "Prune number 28, prune number 29" in rows[28]
    # Six are named, however many there are.
    assert "prune number 33, 4 more works" in rows[28]
    assert "places/long-bench.html" in rows[29] and "40 min" in rows[29]


def test_what_is_not_pressing_gives_way_first() -> None:
    some = [plan("crow", "pruned", f"late {n}", around(-90, -50, -1 - n)) for n in range(20)]
    some += [plan("crow", "pruned", f"time {n}", around(-9, 0, 30 + n)) for n in range(20)]
    rows = rows_of(page_of(bench({"crow": tuple(some)})))
    titles = [found[1] for row in rows if (found := re.search(r"<h3 dir[^>]*>(.*?)</h3>", row))]
    # Nothing stands first for its age: what closed yesterday comes first of what is past.
    assert titles == [f"Late {n}" for n in range(20)] + [f"Time {n}" for n in range(9)]


def test_a_window_is_drawn_to_one_scale() -> None:
    """Twelve weeks on 280 px: today at 140, a day is 3.33 px; a last day is included."""
    window = Window(*(TODAY + timedelta(days) for days in (-3, 6, 9)))
    drawn = window_line(window, TODAY, late=False)
    assert 'class="days" d="M130 10H173"' in drawn
    assert 'class="best" d="M160 10' in drawn and 'class="today" d="M140 1' in drawn
    assert "late" not in drawn
    past = window_line(Window(*(TODAY + timedelta(days) for days in (-60, -50, -12))), TODAY, True)
    # Its best day lies beyond the line, so no leaf says where it is not.
    assert 'class="late" d="M100 5' in past and "best" not in past


def test_frost_is_told_as_one_counts_winters() -> None:
    day, first = timedelta(7), TODAY - timedelta(5)

    def told(odds: list[Odds], first: date | None = None) -> FrostToday | None:
        this = FrostOfWinter("2026/27", first, first)
        return _frost(Frosts(8, (), this, TODAY, tuple(odds), (), (), ()), TODAY)

    spring = [Odds(TODAY - day, 100.0, 60.0), Odds(TODAY, 100.0, 25.0), Odds(TODAY + day, 100, 0)]
    assert told(spring, first) == FrostToday(True, 2, 8)
    autumn = [Odds(TODAY - day, 0.0, 100.0), Odds(TODAY, 37.5, 100.0)]
    assert told(autumn) == FrostToday(False, 3, 8)
    # What came needs no odds any more.
    assert told(autumn, first) == FrostToday(False, 3, 8, first)
    # When no frost is to come, or none has yet, there is nothing to say.
    assert told([Odds(TODAY, 100.0, 0.0)], first) is None
    assert told([Odds(TODAY, 0.0, 100.0)]) is None
    assert told([]) is None


def test_the_weather_that_matters_is_one_line(nursery: Nursery, first: str) -> None:
    sky = nursery.weather.skies[0]
    assert sky.frosts is not None and sky.frosts.winters == 4
    # Four winters on record, each of which has had its first frost by 25 November.
    assert "Frost" in first.partition("2026 ")[2] or sky.heat.ahead_days is None
    assert 'class="weather"' in page_of(nursery)


def test_a_place_says_what_stands_there_and_what_it_wants(nursery: Nursery) -> None:
    pages = render_pages(nursery)
    text = text_of(pages["places/tunnel.html"])
    assert "Tunnel 4 trees, 45 min of work now As you walk Hoshi trident maple" in text
    assert (
        "Take the wire off left 2 was due 13 November, 25 min "
        "Take the old ties out by 15 December, 10 min 星降る夜 trident maple "
        "Protect the pot against frost was due 23 November, 10 min take care 1 "
        "Take care A shallow pot freezes through sooner than the ground."
    ) in text
    assert "Wanting nothing now شجرة الوادي European olive Moth hornbeam" in text
    places = [path for path in pages if path.startswith("places/")]
    assert places == [f"places/{name}.html" for name in ("frame", "north-bench", "tunnel")]


def test_at_a_place_the_parts_of_a_tree_are_one_line() -> None:
    some = tuple(
        plan("crow", "unwired", f"unwire on {part}", around(-9, 2, 20), part=part, minutes=15)
        for part in ("apex", "left 1")
    )
    page = render_pages(bench({"crow": some}))["places/tunnel.html"]
    assert "Unwire on apex left 1 by 15 December, 30 min" in text_of(page)
    assert page.count(b"#why-") == 2


def test_trees_that_stand_nowhere_have_a_page_too() -> None:
    view = bench({"crow": (plan("crow", "fed", "feed", around(-1, 0, 20)),)})
    view = msgspec.structs.replace(view, trees=(tree("crow", place=""),))
    pages = render_pages(view)
    assert "No place written down 1 tree, 20 min of work now" in text_of(pages["places/_.html"])
    assert b'href="places/_.html"' in pages["index.html"]


def test_what_is_over_at_a_place_is_counted_by_trees_and_told_in_short() -> None:
    """Not the whole title of each: two sorts of work of eleven trees, that of most first."""
    titles = ["check for pests: orange jelly, after rain"] * 8 + ["repot, in time"] * 3
    late = {f"late-{n}": (plan(f"late-{n}", "pruned", f"late {n}", around(-9, -6, -3)),)
            for n in range(30)}  # fmt: skip
    now = {f"tree-{n}": (plan(f"tree-{n}", "checked", f"{title} {n}", around(-1, 0, 40)),)
           for n, title in enumerate(titles)}  # fmt: skip
    text = text_of(page_of(bench({**late, **now})).encode())
    assert "Check for pests × 8, repot × 3" in text
    assert "orange jelly" not in text
