"""Finds the works of the last year that no plan has judged yet, so that their trees alone are
planned."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.collection.whereabouts import Histories
from backbud.journal.dated import DatedBlock, DatedPage, events_of
from backbud.journal.events import Event, Origin
from backbud.journal.read import Journal
from backbud.publish.memory import MemoryOf
from backbud_grammar.act_words import ActWord
from backbud_grammar.digest import digest

REMEMBERED = "judged"
# A plan that is older was judged by some run; what was done before that nobody can help any more:
# its aftercare is late for a season at the most.
SINCE, DONE_SINCE = timedelta(days=400), timedelta(days=200)
# More than a keeper writes between two looks: what a check plans trees for, and still is quick.
MOST_WORKS = 60
# What a species judges beside root work; what says that such a work is to come, or was another.
_DONE: tuple[ActWord, ...] = ("pruned", "decandled", "defoliated")
_SAID: frozenset[str] = frozenset({"planned", "put-off", "corrected"})
# What closes the aftercare, or takes a plan back.
_CLOSING: tuple[ActWord, ...] = ("checked", "vigour", "skipped", "repotted")


class NotJudged(Struct, frozen=True):
    """The pages of the last 400 days that no plan has seen, and the works on them that may be out
    of their time: a block and the place of the act in it."""

    pages: tuple[DatedPage, ...]
    lines: tuple[tuple[DatedBlock, int], ...]

    @property
    def are_many(self) -> bool:
        """Whether there are more of them than a check judges."""
        return len(self.lines) > MOST_WORKS

    def works(self) -> tuple[Event, ...]:
        """The works."""
        return tuple(block.event(i) for block, i in self.lines)

    def closing(self) -> tuple[Event, ...]:
        """What on these pages may close what was said of a tree before."""
        return tuple(events_of(self.pages, *_CLOSING))


def not_judged(journal: Journal, today: date, program: str, memory: MemoryOf | None) -> NotJudged:
    """What no plan has judged. `program`: a mark that changes with any file of the program.
    `memory`: where runs remember what they judged; None where none counts."""
    mark = digest(journal.mark, program.encode())
    pages = list(_of_late(journal.pages, today))
    known = _known(memory, mark) if memory is not None else frozenset()
    new = tuple(page for page in pages if page.digest not in known)
    acts = journal.acts.items()
    done = _SAID.union(_DONE, (word for word, row in acts if "root_work" in row.traits))
    lines = (
        (block, i)
        for page in new
        for block in page.blocks
        for wanted in [done if page.when.first >= today - DONE_SINCE else _SAID]
        if not wanted.isdisjoint(block.acts)
        for i, act in enumerate(block.acts)
        if act in wanted
    )
    return NotJudged(new, tuple(lines))


def keep_judged(journal: Journal, today: date, program: str, memory: MemoryOf) -> None:
    """Remember that every page of the last 400 days was judged."""
    mark = digest(journal.mark, program.encode())
    kept = mark + b"".join(page.digest for page in _of_late(journal.pages, today))
    if kept != memory.recall(REMEMBERED):
        memory.keep(REMEMBERED, kept)


def trees_with_lines(works: Sequence[Event], histories: Histories) -> tuple[str, ...]:
    """The handles of the trees that these works were done to, or are planned for."""
    lines = {work.origin for work in works}
    return tuple(handle for handle, at in histories.trees.items() if _has(lines, at.entries))


def _has(lines: Container[Origin], entries: Iterable[Entry]) -> bool:
    return any(
        entry.event.origin in lines
        or (entry.corrected_by is not None and entry.corrected_by.origin in lines)
        for entry in entries
    )


def _of_late(pages: Sequence[DatedPage], today: date) -> Iterator[DatedPage]:
    """The pages of the last 400 days: they stand in the order of their days."""
    since = today - SINCE
    for page in reversed(pages):
        if page.when.first < since:
            return
        yield page


def _known(memory: MemoryOf, mark: bytes) -> frozenset[bytes]:
    kept = memory.recall(REMEMBERED)
    if kept is None or not kept.startswith(mark):
        return frozenset()
    size = len(mark)
    return frozenset(kept[n : n + size] for n in range(size, len(kept), size))
