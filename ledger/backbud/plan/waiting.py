"""Finds the dues that an event may settle without a look at all the others.

A tree may have thousands of them, on as many branches.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from backbud.journal.events import Event
from backbud.plan.due import Due
from backbud.plan.looks import looks


class WaitingDues:
    """Which dues wait for each act, and on which part of the tree."""

    def __init__(self, dues: Iterable[Due]) -> None:
        # Those whose cause is still to come, the next last.
        self._to_come = sorted(dues, key=lambda due: due.at, reverse=True)
        # By act and word of the part; those about all of the tree have the word "".
        self._by_act: dict[str, dict[str, dict[str, None]]] = {}

    def add(self, due: Due) -> None:
        """Let it wait for each act that settles it."""
        for act in _acts(due):
            for word in _words(due.where) or ("",):
                by_word = self._by_act.setdefault(act, {})
                by_word.setdefault(word, {})[due.follow_up.id] = None

    def drop(self, due: Due) -> None:
        """It waits no more."""
        for act in _acts(due):
            by_word = self._by_act.get(act, {})
            for word in _words(due.where) or ("",):
                waiting = by_word.get(word, {})
                waiting.pop(due.follow_up.id, None)
                if not waiting:
                    by_word.pop(word, None)
            if not by_word:
                # So the next event of it is seen at once to settle nothing.
                self._by_act.pop(act, None)

    def for_event(self, event: Event, at: int) -> list[str]:
        """The ids of the dues that the event may settle; `at`: its place in the history."""
        while self._to_come and self._to_come[-1].at < at:
            self.add(self._to_come.pop())
        acts = [event.act] if event.act in self._by_act else []
        if "unwired" in self._by_act and "unwired" in acts_in(event):
            acts.append("unwired")
        if not acts:
            return []
        return list(dict.fromkeys([ident for act in acts for ident in self._of_act(act, event)]))

    def _of_act(self, act: str, event: Event) -> Iterator[str]:
        by_word = self._by_act.get(act, {})
        parts = event.parts
        if event.act == "checked" and not all(look.parts for look in looks(event)):
            # A look that names no part was a look everywhere.
            parts = ()
        if not parts:
            for waiting in by_word.values():
                yield from waiting
            return
        yield from by_word.get("", ())
        for part in parts:
            found = (by_word.get(word, {}) for word in _words(part))
            yield from min(found, key=len, default={})


def acts_in(event: Event) -> tuple[str, ...]:
    """The acts that a line counts as: where the old wire came off, it was taken off, too."""
    return (event.act, "unwired") if event.has("old wire off") else (event.act,)


def _acts(due: Due) -> frozenset[str]:
    return first_words(due.follow_up.settled_by)


# What settles a work is said by its rule, for all trees alike.
@lru_cache(maxsize=1024)
def first_words(settled_by: tuple[str, ...]) -> frozenset[str]:
    """The acts among what settles a work, without what is looked at."""
    return frozenset([words.split()[0] for words in settled_by])


@lru_cache(maxsize=1024)
def _words(part: str) -> tuple[str, ...]:
    return tuple(part.casefold().split())
