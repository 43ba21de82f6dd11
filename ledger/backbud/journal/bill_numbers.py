"""Finds numbers of bills and credits that stand on two lines: a number is one paper's alone."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.journal.events import Event
from backbud.journal.events_again import events_again
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.journal.read import Journal
from backbud.memo import NO_MEMO, Memo
from backbud_grammar.act_words import ActWord

_ACTS: tuple[ActWord, ...] = ("billed", "credited")


def doubled_numbers(journal: Journal, kept: Memo = NO_MEMO) -> Iterator[PlacedFlaw]:
    """A flaw for each line after the first that has a number which another has."""
    first: dict[str, Event] = {}
    for event in _numbered(journal, kept):
        detail = event.first("number")
        if detail is None:
            continue
        number = (detail.words or str(detail.measure or "")).casefold()
        before = first.setdefault(number, event)
        if before is not event:
            yield flaw_at(
                event.origin,
                "bill-number-twice",
                f"number {number} stands on another bill or credit ({before.origin})",
                "Give each bill and each credit a number of its own; to change one that was sent, "
                "write: corrected billed DATE, …",
                0,
                max(len(event.written), 1),
            )


def _numbered(journal: Journal, kept: Memo) -> list[Event]:
    return events_again(journal.pages, kept, *_ACTS)
