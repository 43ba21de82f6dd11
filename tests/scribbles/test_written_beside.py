"""What was said in other words stands in the history as it was written, beside what was read."""

from __future__ import annotations

from collections.abc import Callable

from backbud.pages.history import dates_by_year, years_of
from backbud.session import Session
from backbud.views.history import entry_view

Written = Callable[..., Session]
TREE = (
    "tree hoshi\n  kind trident maple\n2026-03-01\nhoshi\n  wired 3 mm Al on left 1\n2026-06-01\n"
)


def test_the_line_as_written_stands_beside_what_was_read(written: Written) -> None:
    text = "wire off left 1, no marks\n  watered"
    session = written(f"{TREE}hoshi\n  {text}\n")
    entries = session.histories.trees["hoshi"].entries[1:]
    views = [entry_view(entry) for entry in entries]
    assert [(v.act, v.text, v.own_words, v.kept) for v in views] == [
        ("unwired", "on left 1", "wire off left 1, no marks", ("no marks",)),
        ("watered", "", "", ()),
    ]


def test_a_line_of_two_acts_is_shown_as_written_once(written: Written) -> None:
    session = written(f"{TREE}hoshi\n  wire off left 1. 45 min\n")
    entries = session.histories.trees["hoshi"].entries
    lines = years_of(dates_by_year([entry_view(entry) for entry in entries]))[0].days[0].lines
    assert [(line.act, line.text, line.own_words) for line in lines] == [
        ("unwired", "on left 1", "wire off left 1. 45 min"),
        ("worked", "45 min", ""),
    ]
