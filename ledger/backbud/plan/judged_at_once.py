"""Tells what is to be said against works, at once: what the last plan found, and of newly written
works what a plan of their trees finds."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import TYPE_CHECKING

from msgspec import Struct

from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.memo import NO_MEMO, Memo
from backbud.plan.not_judged import NotJudged, keep_judged, not_judged, trees_with_lines
from backbud.plan.told_cautions import Caution, keep_cautions, recalled_cautions

if TYPE_CHECKING:
    from backbud.plan.run import Plan


class CautionsTold(Struct, frozen=True):
    """What speaks against works, and how many works were not judged yet, being too many."""

    cautions: tuple[Caution, ...]
    not_judged: int = 0


def judged_at_once(
    journal: Journal,
    today: date,
    program: str,
    histories: Callable[[], Histories],
    plan: Callable[[Iterable[str]], Plan],
    as_of: bool = False,
) -> CautionsTold:
    """The cautions of a journal on a day. `program`: a mark that changes with any file of the
    program. `plan`: plans these trees. `as_of`: the journal is looked at as it was then, so nothing
    that is remembered of it counts."""
    memory = journal.memory
    told = () if as_of else recalled_cautions(memory, journal.pages, today)
    left = not_judged(journal, today, program, None if as_of else memory)
    if left.are_many:
        return CautionsTold(told, len(left.lines))
    handles = _to_plan(left, told, histories)
    if not handles:
        return CautionsTold(told)
    from backbud.plan.cautions import cautions_of

    found = tuple(cautions_of(plan(handles), today))
    cautions = (*(one for one in told if one.tree not in handles), *found)
    if not as_of:
        keep_cautions(memory, cautions, journal.pages, today)
        keep_judged(journal, today, program, memory)
    return CautionsTold(cautions)


def remember_judged(
    journal: Journal, plan: Plan, today: date, program: str, kept: Memo = NO_MEMO
) -> None:
    """Remember what a plan of every tree says against works, and that every one was judged."""
    from backbud.plan.cautions import cautions_of

    keep_cautions(journal.memory, cautions_of(plan, today, kept), journal.pages, today)
    keep_judged(journal, today, program, journal.memory)


def _to_plan(
    left: NotJudged, told: Iterable[Caution], histories: Callable[[], Histories]
) -> frozenset[str]:
    """The trees of the works that were not judged, and those of which something was told that may
    be over by now."""
    trees = {one.tree for one in told}
    closing = left.closing() if trees else ()
    handles = set(trees_with_lines(left.lines, histories())) if left.lines else set()
    if closing:
        handles |= trees.intersection(trees_with_lines(closing, histories()))
    return frozenset(handles)
