"""What is for the keeper's eyes alone: private lines, money, and what a card says in confidence."""

from __future__ import annotations

from backbud.collection.state import Entry
from backbud.plan.agreed_work import AGREED_WORK
from backbud.plan.followups import FollowUp

_LABELS = frozenset({"note", "value"})


def is_entry_for_keeper(entry: Entry) -> bool:
    """Whether a line, what it first said, or what it was corrected to is for the keeper alone."""
    first, by = entry.as_written, entry.corrected_by
    if first is None and by is None:
        return entry.event.is_for_keeper
    return any(one.is_for_keeper for one in (entry.event, first, by) if one is not None)


def is_fact_for_keeper(label: str) -> bool:
    """Whether a label of a tree's card is for the keeper alone."""
    return label in _LABELS


def is_work_for_keeper(one: FollowUp) -> bool:
    """Whether a work that falls due is the keeper's to see to and nobody else's to read: that a
    bill is paid, that an owner is asked, and what was agreed."""
    if "for_keeper" in one.row.traits:
        return True
    return AGREED_WORK in one.id and one.id.split("/")[1] == AGREED_WORK
