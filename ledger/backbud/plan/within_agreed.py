"""Asks no shape and no new pot of a customer's tree but what was agreed for it.

Somebody else's tree that only stays the winter is kept alive: watered, sheltered, looked over,
freed of wire that bites. Where works were agreed by name, those are asked as well. What else it
could do with, its owner was not asked. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from backbud.collection.on_tree import TAKEN_OFF_BY
from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.plan.agreed_work import acts_named, said_for
from backbud.plan.customers import came_of, is_customers
from backbud.plan.due import Due
from backbud.plan.of_batches import OF_SHAPE
from backbud_grammar.act_words import ActWord
from backbud_grammar.forms import ActForm, WorkName

_DESIGN: tuple[WorkName, ...] = (*OF_SHAPE, "roots")
_FREES: frozenset[ActWord] = frozenset(TAKEN_OFF_BY.values())
# The work on which all others of its shape hang.
_STYLED: ActWord = "styled"


def agreed_acts(tree: Tree, journal: Journal) -> frozenset[ActWord] | None:
    """The works that were agreed for this visit of somebody else's tree, or that it came for: none
    where it stays for its keep alone; None where nothing bounds what is asked of it.

    Nothing does where no work is named, or where what is named is none that the language knows.
    """
    if not is_customers(tree, journal):
        return None
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
        return acts_named([text for said in named for text in said], journal)
    kept = not agreed and came is not None and came.has("on loan")
    return frozenset() if kept else None


def within_agreed(
    dues: Iterable[Due], agreed: frozenset[ActWord], acts: Mapping[str, ActForm]
) -> list[Due]:
    """What its keep and the agreed works ask for: nothing else of what a season would do to its
    shape and roots. What was done to it still asks for its own."""
    return [due for due in dues if due.event is not None or _is_within(due, agreed, acts)]


def _is_within(due: Due, agreed: frozenset[ActWord], acts: Mapping[str, ActForm]) -> bool:
    one = due.follow_up
    if one.act == "checked":
        # A look that asks whether a work is to be done is settled by that work, too.
        works = {word for word in one.settled_by if word in acts and _is_design(acts[word])}
        return not works or not agreed.isdisjoint(works)
    if not _is_design(one.row) or one.act in agreed:
        return True
    return _STYLED in agreed and one.row.work in OF_SHAPE


def _is_design(form: ActForm) -> bool:
    return form.work in _DESIGN and form.word not in _FREES
