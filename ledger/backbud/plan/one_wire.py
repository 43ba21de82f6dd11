"""Asks once of each wire: off, where it was seen to bite; else off in its time; else a look.

What bites stands for the day on which wire usually comes off. A look at wires that are all told to
come off is none, nor is one that fell due while the tree was at its owner's: as it came back it is
looked over with its wire.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from msgspec.structs import replace

from backbud.collection.on_tree import is_meant
from backbud.collection.state import Tree
from backbud.plan.common.arrival import ARRIVAL
from backbud.plan.common.wire_check import LOOK_AGAIN
from backbud.plan.cycles import COMES_OFF
from backbud.plan.due import Due
from backbud.plan.followups import NOW_BEFORE
from backbud.words import monday_of
from backbud_grammar.act_words import ActWord, as_settling

_OFF: ActWord = "unwired"
_LOOK = as_settling("checked", "wire")


def one_wire(dues: Iterable[Due], tree: Tree) -> list[Due]:
    """The dues, each wire asked of once."""
    every = list(dues)
    off = [due for due in every if _stays_open(due)]
    bitten = [due for due in off if due.rule == LOOK_AGAIN]
    came = [due.event.day for due in every if due.event is not None and _looks_over(due)]
    if not (off or came):
        return every

    def once(due: Due) -> Due:
        if _is_open_off(due) and any(_stands_for(one, due) for one in bitten):
            return _replaced(due)
        if not _is_look(due):
            return due
        if any(due.follow_up.window.closes < day for day in came):
            return _replaced(due)
        if due.follow_up.planned or due.where:
            # Of one branch the next of its kind stands for it (cycles.py).
            return due
        return _until(due, _all_told_off(off, tree))

    return [once(due) for due in every]


def _stays_open(due: Due) -> bool:
    """Whether it is told until the wire is off: no later look stands for it."""
    one = due.follow_up
    return one.act == _OFF and one.outcome == "open" and one.next_cycle is None


def _is_open_off(due: Due) -> bool:
    return due.rule in COMES_OFF and due.follow_up.outcome == "open"


def _looks_over(due: Due) -> bool:
    return due.rule == ARRIVAL and due.follow_up.act == "checked"


def _is_look(due: Due) -> bool:
    one = due.follow_up
    is_open = one.outcome == "open" and not one.promised
    return is_open and one.act == "checked" and _LOOK in one.settled_by


def _stands_for(bitten: Due, off: Due) -> bool:
    return bitten.at > off.at and _is_at(bitten, off.where)


def _is_at(off: Due, part: str) -> bool:
    return is_meant(part, (off.where,) if off.where else ())


def _all_told_off(off: Sequence[Due], tree: Tree) -> date | None:
    """From when on all wires of the tree are told to come off; None where one is not."""
    last: date | None = None
    for wire in tree.on("wire"):
        told = [_told(one) for one in off if _is_at(one, wire.part)]
        if not told:
            return None
        last = max(min(told), last or date.min)
    return last


def _told(off: Due) -> date:
    """From when on whoever has the tree is told to take it off; the keeper's word at once."""
    one = off.follow_up
    if off.rule not in COMES_OFF:
        return one.window.opens
    return max(one.window.opens, monday_of(one.window.best) - NOW_BEFORE)


def _until(look: Due, day: date | None) -> Due:
    one = look.follow_up
    if day is None:
        return look
    if day <= one.window.opens:
        return _replaced(look)
    return replace(look, follow_up=replace(one, next_cycle=min(day, one.next_cycle or day)))


def _replaced(due: Due) -> Due:
    return replace(due, follow_up=replace(due.follow_up, outcome="replaced"))
