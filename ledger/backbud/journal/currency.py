"""Tells of amounts that name no currency; asked where the settings name none either."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.journal.events import Event
from backbud.journal.problems import PlacedFlaws, flaw_at
from backbud.journal.things import Things
from backbud_grammar.measures import is_money
from backbud_grammar.syntax import Detail

HINT = "Write 120 EUR, or name the currency once in backbud.toml."


def bare_amounts(events: Iterable[Event], things: Things) -> PlacedFlaws:
    """Every bare amount of a diary and of the cards."""
    in_diary = [
        flaw_at(event.origin, "no-currency", _message(detail), HINT, 0, len(event.act))
        for event in events
        for detail in filter(_is_bare, event.details)
    ]
    on_cards = [
        flaw_at(
            line.origin,
            "no-currency",
            _message(line.detail),
            HINT,
            line.detail.offset,
            line.detail.length,
        )
        for thing in things.by_handle.values()
        for line in thing.lines
        if _is_bare(line.detail)
    ]
    return (*in_diary, *on_cards)


def _message(detail: Detail) -> str:
    return f"“{detail.measure}” has no currency"


def _is_bare(detail: Detail) -> bool:
    return detail.measure is not None and is_money(detail.measure.sort) and not detail.measure.unit
