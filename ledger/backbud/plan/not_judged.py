"""Finds the works of the last year that no plan has judged yet, so that their trees alone are
planned."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud.collection.whereabouts import Histories
from backbud.journal.dated import DatedBlock, DatedPage
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
# What was done to their trees is gone through from the first page on: of more than the pages of ten
# years that takes longer than a check should.
MOST_PAGES = 4000
# What a species judges beside root work; what says that such a work is to come, or was another.
_DONE: tuple[ActWord, ...] = ("pruned", "decandled", "defoliated")
_SAID: frozenset[str] = frozenset({"planned", "put-off", "corrected"})
# What closes the aftercare, or takes a plan back.
_CLOSING: tuple[ActWord, ...] = ("checked", "vigour", "skipped", "repotted")


# A block, and the place of an act in it.
_Line = tuple[DatedBlock, int]


class NotJudged(Struct, frozen=True):
    """The pages of the last 400 days that no plan has seen, and the works on them that may be out
    of their time: a block and the place of the act in it. `of_pages`: how many the diary has."""

    pages: tuple[DatedPage, ...]
    lines: tuple[_Line, ...]
    of_pages: int = 0

    @property
    def are_many(self) -> bool:
        """Whether there are more of them, or of the diary's pages, than a check goes through."""
        return len(self.lines) > MOST_WORKS or self.of_pages > MOST_PAGES

    def closing(self) -> tuple[_Line, ...]:
        """What on these pages may close what was said of a tree before."""
        return tuple(_lines_of(self.pages, _CLOSING))


def not_judged(journal: Journal, today: date, program: str, memory: MemoryOf | None) -> NotJudged:
    """What no plan has judged. `program`: a mark that changes with any file of the program.
    `memory`: where runs remember what they judged; None where none counts."""
    mark = digest(journal.mark, program.encode())
    pages = list(_of_late(journal.pages, today))
    known = _known(memory, mark) if memory is not None else frozenset()
    new = tuple(page for page in pages if page.digest not in known)
    acts = journal.acts.items()
    done = _SAID.union(_DONE, (word for word, row in acts if "root_work" in row.traits))
    of_late = [page for page in new if page.when.first >= today - DONE_SINCE]
    before = [page for page in new if page.when.first < today - DONE_SINCE]
    lines = (*_lines_of(of_late, done), *_lines_of(before, _SAID))
    return NotJudged(new, lines, len(journal.pages))


def _lines_of(pages: Iterable[DatedPage], acts: Container[str]) -> Iterator[_Line]:
    return (
        (block, i)
        for page in pages
        for block in page.blocks
        for i, act in enumerate(block.acts)
        if act in acts
    )


def keep_judged(journal: Journal, today: date, program: str, memory: MemoryOf) -> None:
    """Remember that every page of the last 400 days was judged."""
    mark = digest(journal.mark, program.encode())
    kept = mark + b"".join(page.digest for page in _of_late(journal.pages, today))
    if kept != memory.recall(REMEMBERED):
        memory.keep(REMEMBERED, kept)


def trees_with_lines(lines: Sequence[_Line], histories: Histories) -> tuple[str, ...]:
    """The handles of the trees that these works were done to, or are planned for."""
    blocks = {id(block) for block, _ in lines}
    origins = {block.event(i).origin for block, i in lines}
    return tuple(
        handle for handle, at in histories.trees.items() if at.lines.tell_of(blocks, origins)
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
