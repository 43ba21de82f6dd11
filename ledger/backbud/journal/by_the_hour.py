"""Puts the lines of a day of which hours are written in the order in which they were done.

A line with an hour comes at that hour, a line without one no earlier than what stands above it in
its file on that day: an hour behind the date is that of the page's lines, one beside an act that
act's alone. What comes at the same minute, or at none, stays in the order of file and line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import groupby
from typing import NamedTuple

from backbud.journal.dated import DatedBlock, DatedPage
from backbud.journal.line_order import sorted_as
from backbud.memo import Identical, Memo
from backbud_grammar.digest import digest
from backbud_grammar.written_hours import minutes_of

# Below a subject line nothing was done.
_NO_ACT = -1


class _ActInTurn(NamedTuple):
    """An act's minute of the day, -1 for none; its page among the day's, its block in the page, and
    its place in the block."""

    turn: int
    page: int
    block: int
    act: int


def by_the_hour(pages: Sequence[DatedPage], kept: Memo) -> tuple[DatedPage, ...]:
    """The pages of all days, in order, each day with hours in the order of these.

    There a page may come in parts, each as if it were a page. `kept`: what an earlier run of this
    process left.
    """
    if not any(page.hour or page.has_hours for page in pages):
        return tuple(pages)
    ordered: list[DatedPage] = []
    for day, of_day in groupby(pages, key=lambda page: page.when.first):
        here = tuple(of_day)
        if any((page.hour or page.has_hours) and page.when.exact for page in here):
            here = kept.once(("hours", day), (Identical(*here),), partial(_in_turn, here))
        ordered += here
    return tuple(ordered)


def _in_turn(pages: tuple[DatedPage, ...]) -> tuple[DatedPage, ...]:
    """The parts of one day's pages, in the order of their hours."""
    acts = sorted(_turns(pages))
    parts = [
        _part(pages[n], turn, list(some))
        for (turn, n), some in groupby(acts, key=lambda one: (one.turn, one.page))
    ]
    # A page without a subject line stands for its weather and its problems alone.
    return (*(page for page in pages if not page.blocks), *parts)


def _turns(pages: tuple[DatedPage, ...]) -> Iterator[_ActInTurn]:
    reached: dict[str, int] = {}
    for n, page in enumerate(pages):
        file, _ = sorted_as(page.file)
        so_far = minutes_of(page.hour) if page.hour else reached.get(file, -1)
        for b, block in enumerate(page.blocks):
            if not block.acts:
                yield _ActInTurn(so_far, n, b, _NO_ACT)
                continue
            hours = block.hours() if page.has_hours else ("",) * len(block.acts)
            for a, hour in enumerate(hours):
                own = minutes_of(hour)
                so_far = max(so_far, own)
                yield _ActInTurn(own if hour else so_far, n, b, a)
        reached[file] = max(reached.get(file, -1), so_far)


def _part(page: DatedPage, turn: int, acts: Sequence[_ActInTurn]) -> DatedPage:
    """A page with these of its acts alone."""
    blocks: list[DatedBlock] = []
    for b, some in groupby(acts, key=lambda one: one.block):
        places = [one.act for one in some]
        block = page.blocks[b]
        if places == [_NO_ACT]:
            blocks.append(block)
            continue
        # What stands between two of them comes at another minute.
        runs = [n for n, at in enumerate(places) if not n or at != places[n - 1] + 1]
        for begin, end in zip(runs, [*runs[1:], len(places)], strict=True):
            blocks.append(block.part(places[begin], places[end - 1] + 1, turn))
    where = f"{turn} {[one[2:] for one in acts]}".encode()
    done = sum(len(block.acts) for block in blocks)
    mark = digest(page.digest, where)
    return DatedPage(page.when, page.file, page.line, done, tuple(blocks), mark)
