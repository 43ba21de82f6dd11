"""In the folded years of a history the daily keep is told together; all else keeps its line."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace
from tests.pages.conftest import TODAY, event, tree
from tests.pages.test_render import Outline

from backbud.collection.state import Entry
from backbud.pages import Nursery, render_pages
from backbud.pages.history import HistoryYear, dates_by_year, years_of
from backbud.views.history import entry_view

OLD = (
    event("fed", "2020-04-03", "2 cakes"),
    event("pruned", "2020-04-03", "hard"),
    event("watered", "2020-05-01"),
    event("fed", "2020-05-17", "20-10-20 0.5 g/L"),
    event("watered", "2020-06-02"),
    event("fed", "2020-07-09", "2 cakes", "it stood dry"),
    event("turned", "2020-07-10"),
    event("watered", "2020-08-20"),
    event("fed", "2020-09-30", "2 cakes"),
    event("watered", "2020"),
    event("checked", "2020-10-01", "ties fine"),
    event("checked", "2020-10-02", "ties fine"),
    event("checked", "2020-10-03", "ties fine"),
)
LATER = tuple(event("watered", f"{year}-05-0{day}") for year in (2025, 2026) for day in range(1, 6))


def years(*events) -> Sequence[HistoryYear]:
    return years_of(dates_by_year([entry_view(Entry(one)) for one in events]))


def lines(year: HistoryYear) -> list[tuple[str, str]]:
    return [
        (day.when, f"{line.act} {line.text}".rstrip()) for day in year.days for line in day.lines
    ]


def test_what_was_done_again_and_again_in_a_folded_year_is_told_together() -> None:
    year = years(*OLD, *LATER)[-1]
    assert (year.year, year.open, year.count) == (2020, False, "13 entries")
    assert [(one.act, one.times) for one in year.again] == [
        ("fed", "30 September 2 cakes; 17 May 20-10-20 0.5 g/L; 3 April 2 cakes"),
        ("watered", "20 August, 2 June, 1 May"),
    ]
    # What has a remark, was done seldom, is dated roughly or found something stands for itself.
    assert sorted(lines(year)) == sorted([
        ("3 October", "checked ties fine"),
        ("2 October", "checked ties fine"),
        ("1 October", "checked ties fine"),
        ("10 July", "turned"),
        ("9 July", "fed 2 cakes"),
        ("3 April", "pruned hard"),
        ("2020", "watered"),
    ])  # fmt: skip


def test_a_year_that_stands_open_tells_each_line() -> None:
    for year in years(*OLD, *LATER)[:2]:
        assert (year.open, year.again, len(lines(year))) == (True, (), 5)


def test_what_was_done_less_than_three_times_keeps_its_days() -> None:
    year = years(*OLD[2:5], *LATER)[-1]
    assert year.again == ()
    assert lines(year) == [
        ("2 June", "watered"), ("17 May", "fed 20-10-20 0.5 g/L"), ("1 May", "watered"),
    ]  # fmt: skip


def test_held_corrected_shared_and_batch_lines_keep_their_days() -> None:
    plain = [entry_view(Entry(event("watered", f"2020-05-0{day}"))) for day in range(1, 9)]
    later = [entry_view(Entry(one)) for one in LATER]
    kept_apart = [
        replace(plain[0], done=False, held_back=True), replace(plain[1], kept=("over",)),
        replace(plain[2], shared_among=3), replace(plain[3], within="tray"),
        replace(plain[4], own_words="uekae"),
    ]  # fmt: skip
    year = years_of(dates_by_year([*kept_apart, *plain[5:], *later]))[-1]
    assert [one.times for one in year.again] == ["8 May, 7 May, 6 May"]
    assert len(lines(year)) == 5


def test_no_word_is_missing_on_the_page() -> None:
    history = tuple(Entry(one) for one in (*OLD, *LATER))
    page = render_pages(Nursery("Long", TODAY, "", (tree("hoshi", history=history),)))
    shown = Outline(page["trees/hoshi.html"]).text
    for said in ("30 September 2 cakes", "17 May 20-10-20 0.5 g/L", "it stood dry", "20 August"):
        assert said in shown
