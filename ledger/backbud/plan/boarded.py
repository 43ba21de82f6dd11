"""Asks no shape and no new pot of a customer's tree of which nothing but its keep was agreed.

Somebody else's tree that only stays the winter is kept alive: watered, sheltered, looked over,
freed of wire that bites. What else it could do with, its owner was not asked. Common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterable

from backbud.collection.on_tree import TAKEN_OFF_BY
from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.plan.agreed_work import is_keep, said_for
from backbud.plan.customers import came_of, is_customers
from backbud.plan.due import Due
from backbud.plan.of_batches import OF_SHAPE
from backbud_grammar.act_words import ActWord, as_settling
from backbud_grammar.forms import WorkName

_NOT_AGREED: tuple[WorkName, ...] = (*OF_SHAPE, "roots")
# Looks that only ask whether such a work is to be done.
_LOOKS_FIRST = (as_settling("checked", "roots"), as_settling("checked", "strength"))
_FREES: frozenset[ActWord] = frozenset(TAKEN_OFF_BY.values())


def is_boarded(tree: Tree, journal: Journal) -> bool:
    """Whether it is somebody else's and stays here for its keep alone, by what was agreed for this
    visit, or by what it came for."""
    if not is_customers(tree, journal):
        return False
    came = came_of(tree)
    agreed = [
        entry.event
        for entry in tree.history
        if entry.event.act == "agreed" and not entry.undone and not entry.event.held
        if came is None or entry.event.day >= came.day
    ]
    came_for = said_for(came) if came is not None else ()
    named = [said for event in agreed if (said := said_for(event))] or [came_for]
    if any(named):
        return all(map(is_keep, named))
    return not agreed and came is not None and came.has("on loan")


def within_keep(dues: Iterable[Due]) -> list[Due]:
    """What its keep asks for: all but what a season would do to its shape and roots. What was done
    to it still asks for its own."""
    return [due for due in dues if due.event is not None or not _is_design(due)]


def _is_design(due: Due) -> bool:
    one = due.follow_up
    if one.act == "checked":
        return not set(_LOOKS_FIRST).isdisjoint(one.settled_by)
    return one.row.work in _NOT_AGREED and one.act not in _FREES
