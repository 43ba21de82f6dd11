"""A journal goes in; each thing's own history comes out, replayed from its first page or, where an
earlier run of this process left a moment to go on from, from a little before what changed."""

from __future__ import annotations

from operator import is_
from typing import NamedTuple

from msgspec.structs import replace

from backbud.collection.whereabouts import (
    Histories,
    Meant,
    Replay,
    Whereabouts,
    arrived_in,
    first_comings,
    turns_of,
)
from backbud.journal.dated import DatedPage
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.kept import KEEP_NOTHING, Each, Is, Kept

# So many pages before a change, one is likely to be changed next.
PAGES_BEFORE = 30


def replay(journal: Journal, kept: Kept = KEEP_NOTHING) -> Histories:
    """Replay the whole journal; what cannot have been so is noted.

    `kept`: what an earlier run of this process left. Then only the pages from the first one that
    changed are replayed, if nothing before them was worth a note.
    """
    pages, noted = journal.pages, len(journal.notes)
    turns = turns_of(pages)
    replay = Replay(journal, pages, turns)
    arrived = arrived_in(first_comings(turns, journal.things, {}))
    around = (
        Is(journal.things),
        replay.chooser.keeper,
        replay.totals,
        arrived,
        # Lines, blocks and corrections are known by which very ones they are.
        {line: Each(by) for line, by in replay.corrections.by_line.items()},
        replay.corrected,
    )
    before = kept.once("replay", (), _Before)
    begin = before.go_on(replay, pages, around)
    if not begin:
        replay.begin(arrived)
    # Who writes today writes on about there.
    next_moment = max(before.unchanged(pages) - PAGES_BEFORE, 0)
    for n in range(begin, len(pages)):
        if n == next_moment and n - begin > PAGES_BEFORE and len(journal.notes) == noted:
            before.moment = _moment_of(replay, pages[:n], around)
        replay.page(pages[n])
    before.pages = pages
    return replay.histories()


class _Moment(NamedTuple):
    """How all stood when some pages had been replayed without a note.

    `around`: what else that hangs on.
    """

    pages: tuple[DatedPage, ...]
    around: tuple[object, ...]
    trees: dict[str, Whereabouts]
    others: dict[str, tuple[Event, ...]]
    used: dict[str, tuple[str, ...]]
    plain: dict[str, tuple[list[str], list[bool], list[str]]]
    uncarded: dict[str, str]
    met: frozenset[tuple[str, int]]


def _moment_of(replay: Replay, pages: tuple[DatedPage, ...], around: tuple[object, ...]) -> _Moment:
    return _Moment(
        pages,
        around,
        {handle: _copied(tree) for handle, tree in replay.trees.items()},
        {handle: tuple(events) for handle, events in replay.others.items()},
        {pot: tuple(trees) for pot, trees in replay.used.items()},
        {
            text: ([tree.handle for tree in meant.trees], meant.outright, meant.others)
            for text, meant in replay.plain.items()
        },
        dict(replay.chooser.uncarded),
        frozenset(replay.corrections.met),
    )


def _copied(tree: Whereabouts) -> Whereabouts:
    return replace(tree, lines=tree.lines.copied())


def _go_on_from(moment: _Moment, replay: Replay) -> None:
    trees = replay.trees
    trees.update((handle, _copied(tree)) for handle, tree in moment.trees.items())
    replay.others.update((handle, list(events)) for handle, events in moment.others.items())
    replay.used.update(
        (pot, {handle: trees[handle] for handle in handles}) for pot, handles in moment.used.items()
    )
    replay.plain.update(
        (text, Meant([trees[handle] for handle in handles], outright, others))
        for text, (handles, outright, others) in moment.plain.items()
    )
    replay.chooser.uncarded.update(moment.uncarded)
    replay.corrections.met.update(moment.met)


class _Before:
    """The pages of the last replay in this process, and a moment from which the next can go on."""

    def __init__(self) -> None:
        self.pages: tuple[DatedPage, ...] = ()
        self.moment: _Moment | None = None

    def unchanged(self, pages: tuple[DatedPage, ...]) -> int:
        """How many pages from the first on are the very same; all where there were none before."""
        if not self.pages:
            return len(pages)
        pairs = zip(pages, self.pages, strict=False)
        differ = (n for n, (one, other) in enumerate(pairs) if one is not other)
        return next(differ, min(len(pages), len(self.pages)))

    def go_on(
        self, replay: Replay, pages: tuple[DatedPage, ...], around: tuple[object, ...]
    ) -> int:
        """Put the replay at the moment, if it may go on from there. Returns how many pages that
        is behind the first."""
        moment = self.moment
        if (
            moment is None
            or len(moment.pages) > len(pages)
            or moment.around != around
            or not all(map(is_, moment.pages, pages))
        ):
            return 0
        _go_on_from(moment, replay)
        return len(moment.pages)
