"""Finds the few events of some acts among all pages again, where only later pages have changed."""

from __future__ import annotations

from itertools import islice, takewhile
from operator import is_

from backbud.journal.dated import DatedPage
from backbud.journal.events import Event
from backbud.memo import Memo
from backbud_grammar.act_words import ActWord


def events_again(pages: tuple[DatedPage, ...], kept: Memo, *acts: ActWord) -> list[Event]:
    """The events of these acts, in order. `kept`: what an earlier run of this process left."""
    return kept.once(("events of", acts), (), _Found).among(pages, acts)


def same_so_far(pages: tuple[DatedPage, ...], before: tuple[DatedPage, ...]) -> int:
    """How many pages from the first on are the very same."""
    return len(list(takewhile(bool, map(is_, pages, before))))


class _Found:
    """The events of some acts among the pages of the last run, each with the place of its page."""

    def __init__(self) -> None:
        self._pages: tuple[DatedPage, ...] = ()
        self._events: list[tuple[int, Event]] = []

    def among(self, pages: tuple[DatedPage, ...], acts: tuple[ActWord, ...]) -> list[Event]:
        same = same_so_far(pages, self._pages)
        events = [one for one in self._events if one[0] < same]
        for n, page in enumerate(islice(pages, same, None), same):
            # Of other acts none is made, nor of pages without them. To look for one word after
            # another takes a third of the time of a pattern with all.
            if not page.words or any(map(page.words.__contains__, acts)):
                for block in page.blocks:
                    for i, act in enumerate(block.acts):
                        if act in acts:
                            events.append((n, block.event(i)))
        self._pages, self._events = pages, events
        return [event for _, event in events]
