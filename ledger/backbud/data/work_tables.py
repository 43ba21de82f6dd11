"""The tables of works: what falls due or fell due within the year, why, and what to beware of."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.data.table import Cell, DataTable, cell, text, whole
from backbud.views.dataset import DatasetView
from backbud.views.work import WorkView

_WORKS = (
    text("work", "its id, which never changes"),
    text("tree", "its handle", "trees"),
    text("act", "what is to be done, as an act of the diary"),
    text("title", "the same as a person says it"),
    text("opens", "first day"),
    text("best", "best day"),
    text("closes", "last day, included"),
    text("state", "overdue, now, coming, or how it was settled"),
    whole("minutes", "what it takes; nothing where nobody can tell"),
    text("at_stake", "the tree may die (life), is harmed (harm), or only time or style is lost"),
    whole("must", "1: it must be done; 0: it may be"),
    text("once_past", "what becomes of it once its window has passed: lapses, stays, grows"),
    whole("planned", "1: by the keeper"),
    text("part", "of the tree; nothing: all of it"),
    text("settled_day", "the day that settled it"),
)
_REASONS = (
    text("work", "of which work", "works"),
    whole("number", "counts the reasons of one work"),
    text("reason", "one sentence"),
    whole("expected", "1: it rests on weather that nobody has measured yet"),
    text("at", "file and line where it stands"),
)
_CAUTIONS = (
    text("work", "of which work", "works"),
    whole("number", "counts the cautions of one work"),
    text("caution", "one sentence"),
)


def work_tables(data: DatasetView) -> tuple[DataTable, ...]:
    """The works, with their reasons and cautions."""
    works = tuple(_works(data))
    reasons = (
        (one.id, number, reason.text, int(reason.expected), cell(reason.at))
        for one in works
        for number, reason in enumerate(one.reasons, 1)
    )
    cautions = (
        (one.id, number, caution) for one in works for number, caution in enumerate(one.cautions, 1)
    )
    return (
        DataTable("works", "What wants doing, and what was settled within a year.", _WORKS,
                  ("work",), tuple(map(_row, works))),
        DataTable("reasons", "Why each work falls due, a sentence each.", _REASONS,
                  ("work", "number"), tuple(reasons)),
        DataTable("cautions", "What to beware of in each work.", _CAUTIONS, ("work", "number"),
                  tuple(cautions)),
    )  # fmt: skip


def _works(data: DatasetView) -> Iterator[WorkView]:
    seen: set[str] = set()
    for tree in data.trees:
        for work in (*tree.due, *tree.settled):
            if work.id not in seen:
                seen.add(work.id)
                yield work


def _row(one: WorkView) -> tuple[Cell, ...]:
    return (
        one.id, one.tree, one.act, one.title, cell(one.opens), cell(one.best), cell(one.closes),
        one.state, one.minutes or None, one.at_stake, int(one.must), one.once_past,
        int(one.planned), cell(one.part), cell(one.settled.day if one.settled else None),
    )  # fmt: skip
