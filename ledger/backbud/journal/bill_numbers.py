"""Finds numbers of bills and credits that stand on two lines: a number is one paper's alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from backbud.journal.events import Event
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.journal.read import Journal
from backbud.memo import NO_MEMO, Memo
from backbud_grammar.act_words import ActWord

_ACTS: frozenset[ActWord] = frozenset({"billed", "credited"})
# A file whose bytes hold none of this bills nothing: its pages need not be read for it. The
# keeper's own words may stand for an act, so where there are such every file is read.
_MAY_BILL = re.compile(rb"bill|invoice|credit", re.IGNORECASE)


def doubled_numbers(journal: Journal, kept: Memo = NO_MEMO) -> Iterator[PlacedFlaw]:
    """A flaw for each line after the first that has a number which another has.

    `kept`: what an earlier run of this process left of each file.
    """
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


def _numbered(journal: Journal, kept: Memo) -> Iterator[Event]:
    has_own_words = bool(journal.things.of_kind("words"))

    def may_bill(name: str, text: bytes) -> bool:
        work = partial(_MAY_BILL.search, text)
        return bool(kept.once(("may bill", name), (text,), work))

    files = {name for name, text in journal.texts.items() if has_own_words or may_bill(name, text)}
    for page in journal.pages:
        if page.file in files:
            for block in page.blocks:
                for i, act in enumerate(block.acts):
                    if act in _ACTS:
                        yield block.event(i)
