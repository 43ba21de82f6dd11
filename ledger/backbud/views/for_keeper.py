"""What is for the keeper's eyes alone: private lines, money, and what a card says in confidence."""

from __future__ import annotations

from backbud.collection.state import Entry

_LABELS = frozenset({"note", "value"})


def is_entry_for_keeper(entry: Entry) -> bool:
    """Whether a line, what it first said, or what it was corrected to is for the keeper alone."""
    told = (entry.event, entry.as_written, entry.corrected_by)
    return any(event.is_for_keeper for event in told if event is not None)


def is_fact_for_keeper(label: str) -> bool:
    """Whether a label of a tree's card is for the keeper alone."""
    return label in _LABELS
