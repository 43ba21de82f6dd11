"""Replays a whole journal, so that each tree, pot and other thing has its own history.

How a page is replayed stands in whereabouts.py. In a process that reads one journal again and
again, the replay goes on from a moment that an earlier run left, a little before what changed.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from operator import is_
from typing import NamedTuple

from msgspec.structs import replace

from backbud.collection.comings import (
    FirstComings,
    Turn,
    first_comings,
    not_here_at_first,
    turns_of,
)
from backbud.collection.corrections import Corrections
from backbud.collection.whereabouts import (
    Histories,
    Replay,
    Whereabouts,
)
from backbud.journal.dated import DatedPage
from backbud.journal.events import Event
from backbud.journal.events_again import same_so_far
from backbud.journal.problems import PlacedFlaws, WithFlaws
from backbud.journal.read import Journal
from backbud.journal.things import Things
from backbud.memo import NO_MEMO, Identical, Memo

# So many pages before a change, one is likely to be changed next.
PAGES_BEFORE = 30


def replay(
    journal: Journal, kept: Memo = NO_MEMO, between: Callable[[], None] | None = None
) -> WithFlaws[Histories]:
    """Replay the whole journal; what cannot have been so is told.

    `kept`: what an earlier run of this process left. Then only the pages from the first one that
    changed are replayed. `between`: is called before each page; what it raises ends the replay.
    """
    pages = journal.pages
    before = kept.once("replay", (), _Before)
    moment = before.moment_for(pages, journal.things)
    begin = len(moment.pages) if moment is not None else 0
    rest = turns_of(pages[begin:])
    turns = [*moment.turns, *rest] if moment is not None else rest
    first = first_comings(rest, journal.things, pages, moment.first if moment is not None else {})
    arrived = not_here_at_first(first, journal)
    same = before.unchanged(pages)
    corrections = before.corrections_in(journal, pages, turns, same)
    replay = Replay(journal, pages, turns, corrections=corrections)
    around = (
        replay.chooser.keeper,
        replay.totals,
        arrived,
        # Lines, blocks and corrections are known by which very ones they are.
        {line: Identical(*by) for line, by in replay.corrections.by_line.items()},
        replay.corrected,
    )
    if moment is not None and moment.around == around:
        _go_on_from(moment, replay)
    else:
        begin = 0
        replay.begin(arrived)
    # Who writes today writes on about there.
    next_moment = max(same - PAGES_BEFORE, 0)
    for n in range(begin, len(pages)):
        if between is not None:
            between()
        if n == next_moment and n - begin > PAGES_BEFORE and kept is not NO_MEMO:
            before.moment = _moment_of(replay, pages[:n], around)
        replay.page(pages[n])
    before.pages, before.turns, before.corrections = pages, turns, replay.corrections
    return replay.histories()


def _correcting(turns: list[Turn]) -> list[Event]:
    return [event for _, event in turns if event.act == "corrected"]


class _Moment(NamedTuple):
    """How all stood when some pages had been replayed, and what was wrong with them.

    `turns`, `first`: those of these pages. `things`, `around`: what else it hangs on.
    """

    pages: tuple[DatedPage, ...]
    turns: list[Turn]
    first: FirstComings
    things: Things
    around: tuple[object, ...]
    trees: dict[str, Whereabouts]
    others: dict[str, tuple[Event, ...]]
    used: dict[str, tuple[str, ...]]
    uncarded: dict[str, str]
    met: frozenset[tuple[str, int]]
    flaws: PlacedFlaws


def _moment_of(replay: Replay, pages: tuple[DatedPage, ...], around: tuple[object, ...]) -> _Moment:
    turns = turns_of(pages)
    return _Moment(
        pages,
        turns,
        first_comings(turns, replay.things, pages, {}),
        replay.things,
        around,
        {handle: _copied(tree) for handle, tree in replay.trees.items()},
        {handle: tuple(events) for handle, events in replay.others.items()},
        {pot: tuple(trees) for pot, trees in replay.pots.by_pot.items()},
        dict(replay.chooser.uncarded),
        frozenset(replay.corrections.met),
        tuple(replay.flaws),
    )


def _copied(tree: Whereabouts) -> Whereabouts:
    return replace(tree, lines=tree.lines.copied())


def _go_on_from(moment: _Moment, replay: Replay) -> None:
    trees = {handle: _copied(tree) for handle, tree in moment.trees.items()}
    replay.go_on_from(trees, moment.used, moment.uncarded)
    replay.others.update((handle, list(events)) for handle, events in moment.others.items())
    replay.corrections.met.update(moment.met)
    replay.flaws += moment.flaws


class _Before:
    """The pages of the last replay in this process, with their turns and corrections, and a moment
    from which the next can go on."""

    def __init__(self) -> None:
        self.pages: tuple[DatedPage, ...] = ()
        self.turns: list[Turn] = []
        self.corrections: Corrections | None = None
        self.moment: _Moment | None = None

    def corrections_in(
        self, journal: Journal, pages: tuple[DatedPage, ...], turns: list[Turn], same: int
    ) -> Corrections | None:
        """The corrections among the turns, as they were found last time; None where they are not
        the very same, or a page that changed is of a day that one of them may speak of. `same`: how
        many pages from the first on are the very same."""
        known = self.corrections
        if known is None or known.things is not journal.things:
            return None
        changed = [*pages[same : same + 1], *self.pages[same : same + 1]]
        last = max((day for _, day in known.wanted), default=date.min)
        if changed and min(page.when.first for page in changed) <= last:
            return None
        now, then = _correcting(turns), _correcting(self.turns)
        if len(now) != len(then) or not all(map(is_, now, then)):
            return None
        return replace(known, met=set())

    def unchanged(self, pages: tuple[DatedPage, ...]) -> int:
        """How many pages from the first on are the very same; all where there were none before."""
        if not self.pages:
            return len(pages)
        return same_so_far(pages, self.pages)

    def moment_for(self, pages: tuple[DatedPage, ...], things: Things) -> _Moment | None:
        """The moment, if its pages are the very first of these, and read by the same cards."""
        moment = self.moment
        if (
            moment is None
            or moment.things is not things
            or len(moment.pages) > len(pages)
            or not all(map(is_, moment.pages, pages))
        ):
            return None
        return moment
