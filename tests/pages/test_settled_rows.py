"""What one line of the diary settled of one work stands once on its tree's page."""

from __future__ import annotations

from datetime import date

from msgspec.structs import replace

from backbud.pages.work import settled_rows
from backbud.views.work import SettledView, WorkView
from backbud_grammar.act_words import as_act

TODAY = date(2026, 11, 20)


def settled(title: str, part: str, line: int, state: str = "done", remark: str = "") -> WorkView:
    day = date(2026, 8, 2)
    return WorkView(
        id=f"hoshi/{title}/{part}/{line}/{state}",
        tree="hoshi",
        tree_name="hoshi",
        act=as_act("unwired"),
        title=f"{title} on {part}" if part else title,
        opens=day,
        best=day,
        closes=day,
        reasons=(),
        cautions=(),
        minutes=5,
        state=state,  # type: ignore[arg-type]
        part=part,
        settled=SettledView(day, title, remark, "diary/2026.txt", line),
    )


def told(*works: WorkView) -> list[tuple[str, str, str, str, str]]:
    rows = settled_rows(works, TODAY)
    return [(row.day, row.task, row.outcome, row.at, row.remark) for row in rows]


def test_parts_that_one_line_settled_stand_in_one_row() -> None:
    works = [settled("unwire", part, 41, remark="no marks") for part in ("apex", "left 2", "low")]
    assert told(*works) == [
        ("2 August", "Unwire on apex, left 2 and low", "done", "diary/2026.txt:41", "no marks")
    ]


def test_the_same_said_twice_is_said_once() -> None:
    """Two wires with no part named, taken off together."""
    assert told(settled("unwire", "", 41), settled("unwire", "", 41)) == [
        ("2 August", "Unwire", "done", "diary/2026.txt:41", "")
    ]


def test_other_works_lines_and_ends_keep_their_rows_in_their_order() -> None:
    rows = told(
        settled("unwire", "apex", 41),
        settled("check wire", "apex", 41),
        settled("unwire", "", 41),
        settled("unwire", "low", 40),
        settled("unwire", "low", 41, state="skipped"),
        settled("unwire", "left 2", 41),
    )
    assert [(task, outcome, at) for _, task, outcome, at, _ in rows] == [
        ("Unwire on apex and left 2", "done", "diary/2026.txt:41"),
        ("Check wire on apex", "done", "diary/2026.txt:41"),
        ("Unwire", "done", "diary/2026.txt:41"),
        ("Unwire on low", "done", "diary/2026.txt:40"),
        ("Unwire on low", "skipped", "diary/2026.txt:41"),
    ]


def test_what_no_line_settled_stands_alone() -> None:
    gone = replace(settled("unwire", "", 41), settled=None, id="hoshi/one")
    assert len(told(gone, replace(gone, id="hoshi/another"))) == 2
