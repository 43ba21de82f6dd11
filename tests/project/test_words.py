"""Dates and counts in plain English, against expectations written by hand."""

from __future__ import annotations

from datetime import date

import pytest

from backbud import words
from backbud.pages.botanical import Run, botanical_runs
from backbud.pages.links import anchor_of, link, tree_page
from backbud.species import Window
from backbud_grammar.dates import read_date, read_span

TODAY = date(2026, 11, 25)  # a Wednesday


def test_day_names_the_year_only_when_it_is_another() -> None:
    assert words.day(date(2026, 3, 6), 2026) == "6 March"
    assert words.day(date(2027, 3, 6), 2026) == "6 March 2027"
    assert words.full_day(date(2026, 3, 6)) == "6 March 2026"


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        ((2026, 3, 6), (2026, 3, 6), "6 March"),
        ((2026, 3, 6), (2026, 3, 14), "6 to 14 March"),
        ((2026, 2, 28), (2026, 3, 6), "28 February to 6 March"),
        ((2026, 12, 30), (2027, 1, 4), "30 December 2026 to 4 January 2027"),
        ((2027, 3, 6), (2027, 3, 14), "6 to 14 March 2027"),
        ((2027, 2, 6), (2027, 3, 14), "6 February to 14 March 2027"),
    ],
)
def test_between(first: tuple[int, int, int], last: tuple[int, int, int], said: str) -> None:
    assert words.between(date(*first), date(*last), 2026) == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2026-03-06", "6 March"),
        ("2014-03-06", "6 March 2014"),
        ("2014", "2014"),
        ("2014~", "about 2014"),
        ("2014?", "perhaps 2014"),
        ("2014%", "perhaps about 2014"),
        ("2014-05", "May 2014"),
        ("2014-05~", "about May 2014"),
        ("2014-02", "February 2014"),
        ("2026-05", "May"),
        ("2014-21", "spring 2014"),
        ("2014-24", "winter 2014"),
        ("2026-23", "autumn"),
        ("201X", "2010 to 2019"),
        ("2014-W10", "week of 3 March 2014"),
    ],
)
def test_rough_dates_stay_rough(text: str, said: str) -> None:
    assert words.written(read_date(text), 2026) == said


def test_spans_and_open_ends() -> None:
    assert words.written(read_span("2027-03/2027-04"), 2026) == "1 March to 30 April 2027"
    assert words.written(read_span("../2027-04-01"), 2026) == "until 1 April 2027"
    assert words.written(read_span("2027-04-01/.."), 2026) == "from 1 April 2027"


@pytest.mark.parametrize(
    ("count", "said"),
    [(0, "0 days"), (1, "1 day"), (20, "20 days"), (21, "3 weeks"), (83, "11 weeks"),
     (84, "3 months"), (205, "7 months"), (729, "24 months"), (730, "2 years"),
     (1719, "4 years")],
)  # fmt: skip
def test_days(count: int, said: str) -> None:
    assert words.days(count) == said


def test_minutes() -> None:
    assert [words.minutes(n) for n in (5, 60, 80, 125)] == ["5 min", "1 h", "1 h 20", "2 h 05"]


def test_number_has_its_plural() -> None:
    assert words.number(1, "entry", "entries") == "1 entry"
    assert words.number(0, "entry", "entries") == "0 entries"
    assert words.number(2, "tree") == "2 trees"


def test_weeks_begin_on_monday() -> None:
    assert words.monday_of(TODAY) == date(2026, 11, 23)
    assert words.week(date(2026, 11, 23), TODAY) == "This week"
    assert words.week(date(2026, 11, 30), TODAY) == "Next week"
    assert words.week(date(2026, 12, 7), TODAY) == "Week of 7 December"
    assert words.week(date(2027, 1, 4), TODAY) == "Week of 4 January 2027"


def test_where_today_is_in_a_window() -> None:
    window = Window(date(2026, 11, 20), date(2026, 11, 26), date(2026, 12, 14))
    assert words.when_now(window, date(2026, 11, 25)) == "best 26 November"
    assert words.when_now(window, date(2026, 11, 26)) == "best today"
    assert words.when_now(window, date(2026, 12, 6)) == "best was 26 November"
    assert words.when_now(window, date(2026, 12, 7)) == "best was 26 November, 7 days left"
    assert words.when_now(window, date(2026, 12, 13)) == "best was 26 November, 1 day left"
    assert words.when_now(window, date(2026, 12, 14)) == "best was 26 November, last day today"
    assert words.when_late(window, date(2026, 12, 15)) == "1 day late, best was 26 November"
    coming = words.when_coming(window, date(2026, 11, 1))
    assert coming == "from 20 November until 14 December"
    one_day = Window(date(2027, 1, 2), date(2027, 1, 2), date(2027, 1, 2))
    assert words.when_coming(one_day, TODAY) == "only on 2 January 2027"


def test_sizes_get_their_sign() -> None:
    assert words.sizes("38 x 27 x 7 cm") == "38 × 27 × 7 cm"


@pytest.mark.parametrize(
    ("name", "cultivar", "runs"),
    [
        ("Acer buergerianum", "", [("Acer buergerianum", True)]),
        ("Acer buergerianum", "'Evening Rill'",
         [("Acer buergerianum", True), ("‘Evening Rill’", False)]),
        ("Taxus x media", "", [("Taxus", True), ("×", False), ("media", True)]),
        ("Pinus nigra subsp. laricio", "",
         [("Pinus nigra", True), ("subsp.", False), ("laricio", True)]),
        ("Rhododendron Satsuki Group", "",
         [("Rhododendron", True), ("Satsuki Group", False)]),
        ("× Cuprocyparis leylandii", "",
         [("×", False), ("Cuprocyparis leylandii", True)]),
    ],
)  # fmt: skip
def test_botanical_names(name: str, cultivar: str, runs: list[tuple[str, bool]]) -> None:
    assert botanical_runs(name, cultivar) == tuple(Run(*run) for run in runs)


def test_links() -> None:
    assert tree_page("hoshi") == "trees/hoshi.html"
    assert link(tree_page("hoshi"), "../", "why-1") == "../trees/hoshi.html#why-1"
    assert link(tree_page("星")) == "trees/%E6%98%9F.html"
    # A device's name on Windows, so no file can have it there.
    assert tree_page("con") == "trees/con_.html"
    assert anchor_of("hoshi/wire/wired 2026-05-04") != anchor_of("hoshi/wire/wired 2026-05-05")
    assert " " not in anchor_of("hoshi/wire/wired 2026-05-04")
