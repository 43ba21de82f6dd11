"""The year back, and a tree's years side by side, by literal cases.

The day is Wednesday 25 November 2026, so the year back begins on 25 November 2025.
"""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

from msgspec.structs import replace
from tests.pages.conftest import TODAY, event, plan, tree

from backbud.collection.state import Entry
from backbud.pages import Nursery, render_pages
from backbud.pages.tree_years import years_beside
from backbud.pages.year_back import sheet
from backbud.plan.followups import FollowUp
from backbud.species import Weight
from backbud.views.history import told_history
from backbud.views.sky import YearAir
from backbud.views.tree_years import tree_years
from backbud.views.year_back import year_back_view
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

CHANCE = Weight("style", False, "lapses")
MUST = Weight("harm", True, "lapses")


def work(handle: str, act: str, closes: str, **given: object) -> FollowUp:
    last = date.fromisoformat(closes)
    opens = last.replace(day=1)
    return plan(handle, act, act, (opens, opens, last), **{"weight": MUST, **given})


def settled(one: FollowUp, when: str, outcome: str = "done") -> FollowUp:
    return replace(one, outcome=outcome, settled=event(one.act, when))


def measured(what: str, number: str, unit: str, when: str) -> Entry:
    measure = Measure((Decimal(number),), unit, "length")
    return Entry(event("measured", when, details=(Detail(what, "", measure),)))


TREES = (
    tree("hoshi", history=(Entry(event("bought", "2026-03-01")),)),
    tree(
        "crow",
        "Scots pine",
        # So the diary was kept when the year back began.
        history=(Entry(event("watered", "2025-10-20")),),
        standing="died",
        standing_since=date(2026, 8, 2),
    ),
    tree("yuki", standing="sold", standing_since=date(2024, 5, 1)),
)
PLANS = {
    "hoshi": (
        settled(work("hoshi", "repotted", "2026-03-30"), "2026-03-09"),
        # Done before the year back began.
        settled(work("hoshi", "repotted", "2025-03-30"), "2025-03-09"),
        settled(work("hoshi", "pruned", "2026-06-30"), "2026-06-12", "skipped"),
        work("hoshi", "fed", "2026-05-30"),
        work("hoshi", "pinched", "2026-06-30", weight=CHANCE),
        # Lapsed in an earlier year, and not yet lapsed.
        work("hoshi", "trimmed", "2025-06-30"),
        work("hoshi", "wired", "2026-12-30"),
    ),
    "crow": (work("crow", "fed", "2026-04-30"), work("crow", "fed", "2026-06-30")),
}
VIEW = Nursery("A test", TODAY, "", TREES, PLANS)


def test_a_young_diary_is_looked_back_on_to_its_first_line() -> None:
    def back(*days: str) -> tuple[date, int]:
        those = (tree("hoshi", history=tuple(Entry(event("watered", day)) for day in days)),)
        found = year_back_view(replace(VIEW, trees=those))
        return found.first, found.asked_done_missed[2]

    # The feeding until 30 May 2026 was missed only where somebody kept the diary then.
    whole = date(2025, 11, 25)
    assert back("2025-09-26", "2026-07-01") == (whole, 1)
    # A day earlier it may be a line of old, from a list.
    assert back("2025-09-25", "2026-07-01") == (date(2026, 7, 1), 0)
    assert back("2026-05-01") == (date(2026, 5, 1), 1)
    assert back("2024-03-01") == back() == (TODAY, 0)


def test_done_against_foreseen() -> None:
    back = year_back_view(VIEW)
    assert (back.first, back.last) == (date(2025, 11, 25), TODAY)
    told = {
        one.work: (one.done, one.skipped, one.missed, one.let_go, one.still_open)
        for one in back.foreseen
    }
    assert told == {
        "feed": (0, 0, 3, 0, 0),
        "repot": (1, 0, 0, 0, 0),
        "prune": (0, 1, 0, 0, 0),
        "pinch": (0, 0, 0, 1, 0),
    }
    shown = sheet(year_back_view(VIEW), VIEW.today)
    assert shown.short == "1 of 6 works that the trees asked for were done; 3 were missed."
    assert [(row.task, row.done, row.rest) for row in shown.done][:2] == [
        ("Feed", "0 of 3", "3 missed"),
        ("Pinch", "0 of 1", "1 let go"),
    ]


def test_what_lapsed_is_told_once_a_kind() -> None:
    """The day after its last, or from the first of these to the last."""
    shown = sheet(year_back_view(VIEW), VIEW.today)
    assert [
        (row.task, row.kind, row.by.replace("\xa0", " "), row.trees) for row in shown.missed
    ] == [
        ("Feed", "Scots pine", "time over 1 May to 1 July", (("crow", "trees/crow.html"),)),
        ("Feed", "trident maple", "time over 31 May", (("hoshi", "trees/hoshi.html"),)),
    ]
    assert [(row.task, row.kind) for row in shown.let_go] == [("Pinch", "trident maple")]


def test_trees_that_came_and_went_in_these_twelve_months() -> None:
    shown = sheet(year_back_view(VIEW), VIEW.today)
    assert [(one.name, one.told) for one in shown.gained] == [("hoshi", "bought 1 March")]
    assert [(one.name, one.told) for one in shown.lost] == [("crow", "died 2 August")]


def test_hours_go_by_what_was_done_on_the_day() -> None:
    """Three hours at wire and pruning, whose usual minutes part them; an hour at nothing told; and
    one that four trees share."""
    hours = Measure((Decimal(3),), "h", "time")
    one_hour = Measure((Decimal(1),), "h", "time")

    def worked(when: str, time: Measure, among: int = 1) -> Entry:
        told = event("worked", when, details=(Detail("time", "", time, share="together"),))
        return Entry(told, among=among)

    history = (
        Entry(event("pruned", "2026-06-01")),
        worked("2026-06-01", hours),
        worked("2026-07-01", one_hour),
        worked("2026-08-01", one_hour, among=4),
        worked("2024-08-01", one_hour),
    )
    back = year_back_view(Nursery("A test", TODAY, "", (tree("hoshi", history=history),)))
    assert back.minutes == (("pruned", 180), ("", 75))


def test_a_row_of_buds_is_filled_as_far_as_it_was_done() -> None:
    page = render_pages(VIEW)["year-back.html"].decode()
    row = re.search(r"<tr[^>]*><th[^>]*>Repot</th>.*?</tr>", page, re.S)
    assert row and row[0].count('class="bud"') == 1 and 'class="bud ahead"' not in row[0]
    fed = re.search(r"<tr[^>]*><th[^>]*>Feed</th>.*?</tr>", page, re.S)
    assert fed
    (ahead,) = re.findall(r'class="bud ahead" d="(.*?)"', fed[0])
    assert ahead.count("M") == 3


def test_a_year_without_works_says_so() -> None:
    page = render_pages(Nursery("A test", TODAY, ""))["year-back.html"].decode()
    assert "Nothing was asked for in these twelve months." in page


AIRS = (
    YearAir("2026", 1653, date(2026, 4, 9), date(2026, 11, 13), False),
    YearAir("2025", 1657, None, date(2025, 10, 20), True),
)
YEARS = (
    Entry(event("repotted", "2025-03-09")),
    *(Entry(event("fed", f"2025-0{month}-22")) for month in (4, 5, 6, 7)),
    measured("trunk", "8.5", "cm", "2025-10-01"),
    Entry(event("bloomed", "2026-05-20", details=(Detail("how", "first"),))),
    Entry(event("bloomed", "2026-05-28", details=(Detail("how", "full"),))),
    measured("candles", "45", "mm", "2026-06-10"),
    measured("trunk", "8.9", "cm", "2026-10-01"),
    Entry(event("noted", "2020-05-01", "dry")),
    Entry(event("worked", "2019-05-01")),
)


def test_a_trees_years_stand_side_by_side() -> None:
    """A year of which nothing is told that can be set beside another has no row."""
    years = tree_years(told_history(YEARS).beside, AIRS, southern=False)
    found = years_beside(years, TODAY)
    assert found is not None
    assert found.heads == (
        "Degree-days over 5 °C", "Last frost", "Flowers", "Growth", "Girth",
    )  # fmt: skip
    assert [(one.name, one.cells, one.done) for one in found.years] == [
        ("2026", ("1653 so far", "9 April", "28 May", "candles 45 mm", "trunk 8.9 cm"), ""),
        (
            "2025",
            ("1657", "", "", "", "trunk 8.5 cm"),
            "repotted 9 March; fed 4 times, 22 April to 22 July",
        ),
    ]


def test_a_southern_year_begins_in_july() -> None:
    history = (Entry(event("pruned", "2025-08-01")), Entry(event("pruned", "2026-06-01")),
               Entry(event("pruned", "2026-07-01")))  # fmt: skip
    airs = tuple(YearAir(name, 1500, None, None, True) for name in ("2026/27", "2025/26"))
    years = tree_years(told_history(history).beside, airs, southern=True)
    assert [one.year for one in years] == ["2026/27", "2025/26"]


def test_years_without_an_answer_are_not_laid_out() -> None:
    """What was done in them stands in the history."""
    history = (Entry(event("pruned", "2025-08-01")), Entry(event("pruned", "2026-06-01")))
    years = tree_years(told_history(history).beside, AIRS, southern=False)
    assert len(years) == 2 and years_beside(years, TODAY) is None


def test_one_year_alone_stands_beside_nothing() -> None:
    history = (Entry(event("pruned", "2026-06-01")),)
    assert tree_years(told_history(history).beside, (), southern=False) == ()
