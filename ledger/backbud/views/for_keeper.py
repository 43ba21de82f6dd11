"""What is for the keeper's eyes alone: private lines, money, and what a card says in confidence."""

from __future__ import annotations

from backbud.journal.events import Event

_LABELS = frozenset({"note", "value"})


def is_for_keeper(event: Event) -> bool:
    """Whether a line is for the keeper alone: what is private, and whatever speaks of that or of
    money."""
    rows = (event.row, event.named_row)
    return any("for_keeper" in row.traits for row in rows) or any(
        detail.measure is not None and detail.measure.sort.startswith("money")
        for detail in event.details
    )


def is_fact_for_keeper(label: str) -> bool:
    """Whether a label of a tree's card is for the keeper alone."""
    return label in _LABELS
