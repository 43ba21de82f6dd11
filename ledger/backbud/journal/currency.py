"""Amounts that name no currency go in, where the settings name none either; problems come out."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.journal.events import Event
from backbud.journal.notes import Notes
from backbud.journal.things import Things
from backbud_grammar.measures import is_money
from backbud_grammar.syntax import Detail


def note_bare_amounts(events: Iterable[Event], things: Things, notes: Notes) -> None:
    """Note every bare amount of a diary and of the cards."""
    for event in events:
        for detail in filter(_is_bare, event.details):
            notes.at(
                event.origin,
                "no-currency",
                f"“{detail.measure}” has no currency",
                HINT,
                0,
                len(event.act),
            )
    for thing in things.by_handle.values():
        for line in thing.lines:
            if _is_bare(line.detail):
                notes.at(
                    line.origin,
                    "no-currency",
                    f"“{line.detail.measure}” has no currency",
                    HINT,
                    line.detail.offset,
                    line.detail.length,
                )


HINT = "Write 120 EUR, or name the currency once in backbud.toml."


def _is_bare(detail: Detail) -> bool:
    return detail.measure is not None and is_money(detail.measure.sort) and not detail.measure.unit
