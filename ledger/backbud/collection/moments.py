"""Counts the trees that are here and finds what cannot have been so, for a check.

A check asks for no history. So where an earlier run remembered in a file how all stood before a
page, and nothing before that page has changed, the replay goes on from there. The file may be
deleted at any time; a torn or foreign one is as good as none. It holds values only, never code.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from operator import attrgetter, is_

import msgspec
from msgspec import Raw, Struct
from msgspec.structs import asdict

from backbud.collection.batch import RAISED
from backbud.collection.comings import (
    FirstComings,
    Turn,
    arrived_in,
    first_comings,
    not_here_at_first,
    turns_of,
)
from backbud.collection.corrections import corrected_day
from backbud.collection.on_tree import remembered
from backbud.collection.subjects import Placed
from backbud.collection.taken_down import Lines
from backbud.collection.whereabouts import (
    Replay,
    Whereabouts,
)
from backbud.journal.dated import DatedPage
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.read import Journal
from backbud.journal.remember import read_memory, write_memory
from backbud_grammar.digest import digest

MOMENTS_FILE = "moments.msgpack"
# To replay fewer pages takes no time that anyone would notice.
FEW_PAGES = 200
# Of a journal with more, a check need not be quick.
MOST_FLAWS = 500
# Most is written at the end: there the moments stand close, and ever further apart before it.
PAGES_BEFORE_END = 30
FURTHER_APART = 24


class _KeptMoment(Struct, frozen=True, array_like=True, gc=False):
    """That so many pages had been replayed.

    `digest`: of these pages. `day`: of the next one, later than all before it. `state`: a `_State`.
    `flaws`: what was found in these pages. They tell lines of files, so where there are any,
    `lines` is the digest of where each page and card stands; else it is empty.
    """

    pages: int
    digest: bytes
    day: date
    state: Raw
    flaws: tuple[PlacedFlaw, ...] = ()
    lines: bytes = b""


class _State(Struct, frozen=True, gc=False):
    """How all stood. `on`: by tree the sort and the part of all that is on it. `used`: by pot the
    trees that ever stood in it."""

    trees: list[Placed]
    on: dict[str, list[tuple[str, str]]]
    used: dict[str, list[str]]
    uncarded: dict[str, str]


class _Moments(Struct, frozen=True, gc=False):
    """`mark`: of all that a replay hangs on but the pages. `first`: of the whole journal."""

    mark: bytes
    first: FirstComings
    moments: list[_KeptMoment]


def trees_here(
    journal: Journal, program: str, ahead: FromBeginning | None = None
) -> WithFlaws[int]:
    """How many trees are here at the end, and what cannot have been so.

    `program`: a mark that changes with any file of the program. `ahead`: a replay that was begun
    while the journal was read.
    """
    mark = digest(journal.mark, program.encode())
    resumed = _resumed(journal, mark)
    if resumed is None:
        replay = _whole(journal, mark, ahead)
    else:
        replay, pages = resumed
        for page in pages:
            replay.page(page)
    here = sum(1 for tree in replay.trees.values() if tree.standing == "here")
    return WithFlaws(here, tuple(replay.flaws))


# ------------------------------------------------------------------ go on


def _resumed(journal: Journal, mark: bytes) -> tuple[Replay, Sequence[DatedPage]] | None:
    """A replay put at the last moment that still holds, and the pages that come after it."""
    # Where so much is new that the syntax was remembered anew, so are the moments.
    is_as_now = journal.remembered and journal.seen_on is None
    known = read_memory(journal.memory, MOMENTS_FILE, _Moments) if is_as_now else None
    if known is None or known.mark != mark:
        return None
    for moment in reversed(list(_unchanged(known.moments, journal.pages))):
        if moment.flaws and moment.lines != _lines(journal, journal.pages[: moment.pages]):
            continue
        pages = journal.pages[moment.pages :]
        turns = turns_of(pages)
        if _speaks_of_before(moment.day, turns, journal):
            continue
        before = {handle: came for handle, came in known.first.items() if came[0] < moment.day}
        first = first_comings(turns, journal.things, journal.pages, before)
        if arrived_in(first) != arrived_in(known.first):
            continue
        replay = Replay(journal, pages, turns, only_stands=True)
        if _put_at(replay, moment.state):
            replay.flaws += moment.flaws
            return replay, pages
    return None


def _unchanged(moments: Sequence[_KeptMoment], pages: Sequence[DatedPage]) -> Iterator[_KeptMoment]:
    """The moments before which no page has changed, oldest first."""
    so_far, begin = b"", 0
    for moment in moments:
        if not begin < moment.pages <= len(pages):
            return
        so_far = _digest(so_far, pages[begin : moment.pages])
        begin = moment.pages
        if so_far != moment.digest:
            return
        # A page of the same day may have come in before those after the moment, or behind them.
        if begin == len(pages) or pages[begin].when.first > pages[begin - 1].when.first:
            yield moment


def _lines(journal: Journal, pages: Iterable[DatedPage]) -> bytes:
    """Where each of these pages, and every card, stands."""
    stand = [f"{page.file}:{page.line}" for page in pages]
    stand += [str(thing.origin) for thing in journal.things.by_handle.values()]
    return digest("\n".join(stand).encode())


def _digest(before: bytes, pages: Sequence[DatedPage]) -> bytes:
    return digest(before, b"".join([page.digest for page in pages]))


def _speaks_of_before(day: date, turns: Sequence[Turn], journal: Journal) -> bool:
    """Whether any correction among the turns is of a line before the day."""
    return any(
        event.act == "corrected" and corrected_day(event, journal.southern) < day
        for _, event in turns
    )


def _put_at(replay: Replay, raw: Raw) -> bool:
    """Put a replay at a moment, unless the memory of it is not one of ours."""
    try:
        state = _STATE.decode(raw)
    except (msgspec.MsgspecError, UnicodeDecodeError):
        return False
    trees = {
        one.handle: Whereabouts(
            **asdict(one),
            lines=Lines([remembered(*known) for known in state.on.get(one.handle, ())]),
        )
        for one in state.trees
    }
    carded = {thing.handle for thing in replay.things.of_kind("tree")}
    mentioned = {handle for handles in state.used.values() for handle in handles}
    if not trees.keys() >= carded | mentioned | set(state.uncarded.values()):
        return False
    replay.go_on_from(trees, state.used, state.uncarded)
    return True


_STATE = msgspec.msgpack.Decoder(_State)


# ------------------------------------------------------------------ from the beginning


class FromBeginning:
    """A replay of every page; how all stands at some of them is kept, to be remembered.

    `pages`, `turns`: those that are known; among these turns every one of any page. `so_many`: how
    many pages there will be, or nearly.
    """

    def __init__(
        self, journal: Journal, pages: Sequence[DatedPage], turns: Sequence[Turn], so_many: int
    ) -> None:
        self._first = first_comings(turns, journal.things, pages, {})
        self.turns = turns
        self.replay = Replay(journal, (), turns, only_stands=True)
        self.replay.begin(not_here_at_first(self._first, journal))
        self.pages: list[DatedPage] = []
        self._journal, self._wanted = journal, _wanted(so_many)
        self._moments: list[_KeptMoment] = []
        self._so_far, self._digested = b"", 0

    def go_on(self, pages: Sequence[DatedPage]) -> None:
        """Replay the next pages: all of some days."""
        replay = self.replay
        replay.corrections.seek(pages)
        for page in pages:
            if (
                self._wanted
                and len(self.pages) >= self._wanted[0]
                and page.when.first > self.pages[-1].when.first
                and len(replay.flaws) <= MOST_FLAWS
            ):
                self._keep_moment(page.when.first)
            replay.page(page)
            self.pages.append(page)

    def _keep_moment(self, day: date) -> None:
        so_many, flaws = len(self.pages), tuple(self.replay.flaws)
        self._wanted = [later for later in self._wanted if later > so_many]
        self._so_far = _digest(self._so_far, self.pages[self._digested :])
        self._digested = so_many
        lines = _lines(self._journal, self.pages) if flaws else b""
        state = _state(self.replay)
        self._moments.append(_KeptMoment(so_many, self._so_far, day, state, flaws, lines))

    def is_of(self, journal: Journal) -> bool:
        """Whether it went through every page of a journal, and began as it should have."""
        pages = journal.pages
        if len(pages) != len(self.pages) or not all(map(is_, pages, self.pages)):
            return False
        if not any(event.act in RAISED for _, event in self.turns):
            return True
        # Who was a mother is asked of every page.
        before = arrived_in(self._first)
        self._first = first_comings(self.turns, journal.things, pages, {})
        return arrived_in(self._first) == before

    def remember(self, journal: Journal, mark: bytes) -> None:
        """Remember how all stood."""
        if self._moments:
            moments = _Moments(mark, self._first, self._moments)
            write_memory(journal.memory, MOMENTS_FILE, moments)


def _whole(journal: Journal, mark: bytes, ahead: FromBeginning | None) -> Replay:
    """A replay of every page; how all stood at some of them is remembered."""
    # What was begun while the journal was read knew nothing of later pages.
    if ahead is None or journal.seen_on is not None or not ahead.is_of(journal):
        pages = journal.pages
        ahead = FromBeginning(journal, pages, turns_of(pages), len(pages))
        ahead.go_on(pages)
    if journal.seen_on is None:
        ahead.remember(journal, mark)
    return ahead.replay


def _wanted(pages: int) -> list[int]:
    """The places where to remember how all stands, by the number of pages before them."""
    back, wanted = PAGES_BEFORE_END, list[int]()
    while pages >= FEW_PAGES and back < pages:
        wanted.insert(0, pages - back)
        back *= FURTHER_APART
    return wanted


def _state(replay: Replay) -> Raw:
    state = _State(
        [_placed(tree) for tree in replay.trees.values()],
        {
            tree.handle: [(thing.sort, thing.part) for thing in things]
            for tree in replay.trees.values()
            if (things := tree.lines.on_tree.things)
        },
        {pot: list(trees) for pot, trees in replay.pots.by_pot.items()},
        replay.chooser.uncarded,
    )
    return Raw(msgspec.msgpack.encode(state))


def _placed(tree: Whereabouts) -> Placed:
    return Placed(**dict(zip(_FIELDS, _FIELDS_OF(tree), strict=True)))


_FIELDS = Placed.__struct_fields__
_FIELDS_OF = attrgetter(*_FIELDS)
