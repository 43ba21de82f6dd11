"""Says what a tree's card tells of it beside its sizes and where it stands."""

from __future__ import annotations

from backbud.journal.things import Thing
from backbud_grammar.act_words import LabelName

_FACTS: tuple[LabelName, ...] = (
    "since",
    "front",
    "style",
    "origin",
    "passport",
    "wedges",
    "value",
    "note",
    "public",
)


def told_on_card(card: Thing) -> dict[str, str]:
    """What a card says besides, as text."""
    facts: dict[str, str] = {}
    for label in _FACTS:
        detail = card.detail(label)
        if detail is not None:
            facts[label] = detail.words or detail.date or str(detail.measure or "")
    return facts
