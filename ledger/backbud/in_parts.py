"""Plans the trees of a run that ends some at a time, and makes at once what is made of each alone:
its pages, its calendar entries, and what it brings to the pages of all.

So no more than a part of the plans is ever held. Where a copy of this process may help, it makes
every other part.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from contextlib import suppress
from itertools import chain
from math import ceil
from typing import NamedTuple

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from backbud.calendar.around_feeds import AroundFeeds
from backbud.calendar.feeds import EntriesSlot, FeedWriter
from backbud.calendar.which_feeds import is_of_no_kind, shown_in_feeds
from backbud.collection.stand import UNKNOWN_OWNER
from backbud.collection.state import Entry, Tree
from backbud.journal.by_turns import by_turns
from backbud.made_ahead import MadeAhead, Note, Noting
from backbud.memo import NO_MEMO
from backbud.pages.find_page import found_tree
from backbud.pages.render import (
    around_pages,
    pages_of_trees,
    rows_of_tree,
    shared_by_pages,
    tree_standing_there,
)
from backbud.pages.tree_lists import listed_tree
from backbud.papers.gather import AT_HOME, elsewhere_of, going_home
from backbud.plan.cautions import cautions_of_tree
from backbud.plan.each_tree import MANY_TREES, EachTree
from backbud.plan.followups import FollowUp
from backbud.plan.hang import Bites
from backbud.plan.laid_plans import LaidPlans
from backbud.plan.run import Plan
from backbud.plan.sent_plan import CannotBeSent, sent_tree
from backbud.plan.states import states_of_tree
from backbud.plan.stores.materials import Materials
from backbud.plan.stores.run import taken_by_trees
from backbud.plan.world import ByTree
from backbud.publish.disk import memory_folder
from backbud.publish.files import Files
from backbud.session import Session
from backbud.views.grounds import Grounds, grounds_of
from backbud.views.nursery import Nursery
from backbud.views.year import best_works
from backbud.views.year_back import back_of_tree, year_back_begins

# So many trees are made by a copy at a time. The lines of a tree lie all over memory, and whatever
# either process looks at both have then for themselves: 100 took a fifth more memory, together.
PART = 50
# Of trees that are shared the first process makes so many to each of a copy's: it also takes over,
# and stages, what that made.
OURS = 0.9
# The plans of so many trees, and what was made of them, are held: no more than a part of all takes.
HELD = 4 * PART


class RuleFailed(Exception):
    """A rule failed for a tree: of which first, and of how many, a plan of all of them tells."""


class _SentPart(Struct, array_like=True, gc=False):
    """What a part has beside its pages. `left`: the trees that only the first process can make;
    `plans`: of each other its handle, its follow-ups as they are sent, and when what is on it
    bites; `at_home`: of some, what they will ask for where they go home to, likewise."""

    left: list[str]
    plans: list[tuple[str, bytes, Bites]]
    notes: list[Note]
    at_home: list[tuple[str, bytes]]


_SENT_PART = msgspec.msgpack.Decoder(_SentPart)
_FILE = msgspec.msgpack.Decoder(tuple[str, bytes])
_PIECES = msgspec.msgpack.Decoder(list[memoryview])


class _PartPlanned(NamedTuple):
    """The plans of some trees, and what their pages are made from. `at_home`: what those that go
    home will ask for there."""

    plans: Mapping[str, tuple[FollowUp, ...]]
    bites: Mapping[str, Bites]
    view: Nursery
    trees: Sequence[Tree]
    at_home: Mapping[str, tuple[FollowUp, ...]]

    def pages(self) -> Iterator[tuple[str, bytes]]:
        return pages_of_trees(self.view, self.trees)

    def only(self, handles: Container[str]) -> _PartPlanned:
        """The same of these trees alone."""
        return self._replace(
            plans={handle: those for handle, those in self.plans.items() if handle in handles},
            trees=[tree for tree in self.trees if tree.handle in handles],
            at_home={one: those for one, those in self.at_home.items() if one in handles},
        )


def may_go_in_parts(session: Session) -> bool:
    """Whether trees may be planned some at a time: nothing is kept for another run, and no code
    but this program's own runs."""
    return session.kept is NO_MEMO and not (session.asks_others or session.plugins.mark)


def bare_plan(each: EachTree) -> Plan:
    """Every tree as it stands, with no follow-up yet."""
    trees = {handle: each.tree(handle) for handle in each.histories.trees}
    species = {handle: each.find_species(tree.kind) for handle, tree in trees.items()}
    return Plan(trees, dict.fromkeys(trees, ()), species)


def made_in_parts(session: Session, each: EachTree, bare: Plan, view: Nursery) -> Files[None]:
    """The pages of all trees; afterwards the session has their plan, and what was made of each.

    `bare`: with no follow-ups; `view`: what the pages of trees are made from, likewise. RuleFailed
    where a rule failed, at whichever tree.
    """
    journal = session.journal
    folder = memory_folder(journal.folder)

    def entries_of(handle: str) -> Sequence[Entry]:
        return each.histories.trees[handle].entries

    laid = LaidPlans(folder, entries_of, journal.acts)
    laid_at_home = LaidPlans(folder, entries_of, journal.acts)
    ahead = MadeAhead(folder)
    maker = _Maker(session, each, view)
    handles = list(bare.trees)
    others = handles[PART:]
    bites: dict[str, Bites] = {}

    def made_here(part: Sequence[str]) -> Iterator[tuple[str, bytes]]:
        made = maker.planned(part)
        is_held = len(bites) < HELD
        for handle, follow_ups in made.plans.items():
            (laid.hold if is_held else laid.put)(handle, follow_ups)
        bites.update(made.bites)
        for handle, follow_ups in made.at_home.items():
            (laid_at_home.hold if is_held else laid_at_home.put)(handle, follow_ups)
        noted = maker.noted(made)
        if is_held:
            ahead.hold(noted.made)
        else:
            ahead.take(noted.notes)
        yield from made.pages()

    def made_there(data: bytes) -> Iterator[tuple[str, bytes]]:
        pieces = iter(_PIECES.decode(data))
        sent = _SENT_PART.decode(next(pieces))
        for handle, octets, of_tree in sent.plans:
            laid.put_sent(handle, octets)
            bites[handle] = of_tree
        for handle, octets in sent.at_home:
            laid_at_home.put_sent(handle, octets)
        ahead.take(sent.notes)
        yield from map(_FILE.decode, pieces)
        yield from made_here(sent.left)

    # What one part needs is there for all the others then.
    yield from chain.from_iterable(map(made_here, _parts(handles[:PART], PART)))
    if others and session.may_be_shared and len(handles) >= MANY_TREES:
        yield from by_turns(_shared(others), made_here, maker.sent, made_there)
    else:
        yield from chain.from_iterable(map(made_here, _parts(others, PART)))
    follow_ups = laid.in_order(handles)
    plan = replace(bare, follow_ups=follow_ups, bites={handle: bites[handle] for handle in handles})
    ahead.hold({(AT_HOME, handle): those for handle, those in laid_at_home.all.items()})
    session.go_on_with(plan, ahead)


def _parts(handles: Sequence[str], most: int) -> Iterator[Sequence[str]]:
    """Some of them after another."""
    return (handles[at : at + most] for at in range(0, len(handles), most))


def _shared(handles: Sequence[str]) -> list[Sequence[str]]:
    """The trees in parts for this process and a copy of it in turn, so that both end together."""
    ours = max(round(OURS * PART), 1)
    pair = ceil(len(handles) / ceil(len(handles) / (PART + ours)))
    theirs = ceil(pair * PART / (PART + ours))
    ours = max(pair - theirs, 1)
    parts: list[Sequence[str]] = []
    for some in _parts(handles, ours + theirs):
        parts += [some[:ours], some[ours:]] if len(some) > ours else [some]
    return parts


class _Maker:
    """Makes parts; what all trees share is made once."""

    def __init__(self, session: Session, each: EachTree, view: Nursery) -> None:
        self._session, self._each, self._view = session, each, view
        self._trees = {tree.handle: tree for tree in view.trees}
        journal = session.journal
        self._grounds = grounds_of(
            self._trees, journal.things, session.names(), journal.settings.keeper
        )
        # To gather these a process looks at every card and tree; a copy would then hold them, too.
        self._around_feeds = AroundFeeds(self._grounds, journal.settings)
        self._materials = Materials(journal.things)
        self._first_day_back = year_back_begins(view.trees, session.today)
        self._go_home, self._elsewhere = going_home(session), elsewhere_of(session)

    def sent(self, part: Sequence[str]) -> bytes:
        """A part as it is sent to another process."""
        made = self.planned(part)
        sent = self._sent_plans(made.plans)
        left = [handle for handle in made.plans if handle not in sent]
        made = made.only(sent)
        plans = [(handle, data, made.bites[handle]) for handle, data in sent.items()]
        at_home = list(self._sent_plans(made.at_home).items())
        first = msgspec.msgpack.encode(_SentPart(left, plans, self.noted(made).notes, at_home))
        return msgspec.msgpack.encode([first, *map(msgspec.msgpack.encode, made.pages())])

    def _sent_plans(self, plans: Mapping[str, Sequence[FollowUp]]) -> dict[str, bytes]:
        """Those of them that can be sent, as they are."""
        acts, trees = self._session.journal.acts, self._each.histories.trees
        sent: dict[str, bytes] = {}
        for handle, those in plans.items():
            with suppress(CannotBeSent):
                sent[handle] = sent_tree(handle, those, (), trees[handle].entries, acts)
        return sent

    def planned(self, part: Sequence[str]) -> _PartPlanned:
        """Plan some trees."""
        # What they say alike is held once only while they are held.
        each = self._each._replace(parts=None)
        trees = [self._trees[handle] for handle in part]
        plans: dict[str, tuple[FollowUp, ...]] = {}
        bites: dict[str, Bites] = {}
        for tree in trees:
            one = each.planned_tree(tree)
            plans[tree.handle], bites[tree.handle] = each.with_minutes(one), one.bites
        if each.hanger.asker.flaws():
            raise RuleFailed
        view = replace(self._view, plans=plans, bites=bites)
        at_home = {
            tree.handle: self._elsewhere.planned_tree(tree, self._go_home[tree.handle])
            for tree in trees
            if tree.handle in self._go_home
        }
        return _PartPlanned(plans, bites, view, trees, at_home)

    def noted(self, part: _PartPlanned) -> Noting:
        """What is made ahead of its trees (made_ahead.py), by asking for it once."""
        view = part.view
        session, today, noting = self._session, self._session.today, Noting()
        settings = session.journal.settings
        around = around_pages(view, shared_by_pages(view), noting)
        shown = shown_in_feeds(view.plans, today, settings.settled)
        taken = taken_by_trees(
            session.journal, self._each.histories, today, ByTree(noting), self._materials
        )
        writer = FeedWriter(
            shown, self._grounds, today, settings, {}, noting, around=self._around_feeds
        )
        # One thing of all trees after another: each goes through much code of its own.
        making: tuple[Callable[[Tree], object], ...] = (
            lambda tree: rows_of_tree(view, tree, around, noting),
            lambda tree: tree.here and tree_standing_there(view, tree, around, noting),
            lambda tree: listed_tree(view, tree, around, noting),
            lambda tree: best_works(view, tree.handle, noting),
            lambda tree: back_of_tree(view, tree, self._first_day_back, noting),
            lambda tree: states_of_tree(tree.handle, view.plans[tree.handle], today, noting),
            lambda tree: cautions_of_tree(tree.handle, view.plans[tree.handle], today, noting),
            lambda tree: is_of_no_kind(tree.handle, shown, noting),
            lambda tree: [writer.entries(slot) for slot in _slots(tree, self._grounds)],
            lambda tree: found_tree(view, tree, view.names, noting),
            lambda tree: taken.take_alone(tree.handle),
        )
        for make in making:
            for tree in part.trees:
                make(tree)
        return noting


def _slots(tree: Tree, grounds: Grounds) -> Iterator[EntriesSlot]:
    """For whose eyes there are entries of a tree: the keeper's, as events and as tasks, and its
    owner's."""
    yield tree.handle, False, ""
    yield tree.handle, True, ""
    owner = grounds.owner_of(tree)
    if owner and owner != UNKNOWN_OWNER:
        yield tree.handle, False, owner
