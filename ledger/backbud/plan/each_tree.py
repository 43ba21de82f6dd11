"""Plans one tree after another, here or for another process of the same run."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import NamedTuple

import msgspec

from backbud.bench.hours import ActOfSize
from backbud.collection.fold import tree_on
from backbud.collection.open_bills import BillState
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.plan.followups import FollowUp
from backbud.plan.hang import Bites, Hanger
from backbud.plan.hours import timed
from backbud.plan.sent_plan import CannotBeSent, sent_tree, tree_that_came
from backbud.plan.shared import SharedParts
from backbud.species import Species

# So many trees are planned at a time.
TREES = 100
# Of fewer trees it takes no longer to plan all than to begin a process and take over its answer.
MANY_TREES = 400

SpeciesFinder = Callable[[str], Species | None]
# What falls due on a tree, with no minutes learned yet.
FollowUpsOf = Callable[[Tree, Species | None, Hanger, Sequence[BillState]], tuple[FollowUp, ...]]


class TreeWithPlan(NamedTuple):
    """What was planned of one tree."""

    tree: Tree
    species: Species | None
    due: tuple[FollowUp, ...]
    bites: Bites


class EachTree(NamedTuple):
    """What the plan of any tree is made from. `minutes`: as they were learned of each act. `parts`:
    of follow-ups that are held together; None where they are let go of soon."""

    journal: Journal
    histories: Histories
    find_species: SpeciesFinder
    today: date
    hanger: Hanger
    bills: Mapping[str, Sequence[BillState]]
    follow_ups_of: FollowUpsOf
    minutes: Mapping[ActOfSize, float]
    parts: SharedParts | None

    def tree(self, handle: str) -> Tree:
        """A tree as it stands, with no plan."""
        return tree_on(self.histories, self.journal.things, handle, self.today)

    def planned(self, handle: str) -> TreeWithPlan:
        """Plan a tree, with no minutes learned yet."""
        return self.planned_tree(self.tree(handle))

    def planned_tree(self, tree: Tree) -> TreeWithPlan:
        """The same of one that is known as it stands."""
        handle, found = tree.handle, self.find_species(tree.kind)
        due = self.follow_ups_of(tree, found, self.hanger, self.bills.get(handle, ()))
        bites = self.hanger.bites(tree, found) if tree.here else ()
        return TreeWithPlan(tree, found, self._shared(due), bites)

    def with_minutes(self, one: TreeWithPlan) -> tuple[FollowUp, ...]:
        """What is planned of a tree, with the minutes that were learned."""
        return timed(one.tree, one.due, self.minutes)

    def sent(self, handles: Iterable[str]) -> bytes:
        """Plan trees for another process; those that only that one can, or must, are left."""
        sent, left = list[bytes](), list[str]()
        for handle in handles:
            one, entries = self.planned(handle), self.histories.trees[handle].entries
            try:
                if self.hanger.asker.failed_for(handle):
                    raise CannotBeSent(handle)
                sent.append(sent_tree(handle, one.due, one.bites, entries, self.journal.acts))
            except CannotBeSent:
                left.append(handle)
        return msgspec.msgpack.encode((sent, left))

    def came(self, data: bytes) -> tuple[Iterator[tuple[str, TreeWithPlan]], list[str]]:
        """What another process planned of trees, by their handles, and which it left."""
        sent, left = _SENT.decode(data)
        return map(self._came, sent), left

    def _came(self, data: bytes) -> tuple[str, TreeWithPlan]:
        trees = self.histories.trees
        handle, due, bites = tree_that_came(data, lambda one: trees[one].entries, self.journal.acts)
        tree = self.tree(handle)
        return handle, TreeWithPlan(tree, self.find_species(tree.kind), self._shared(due), bites)

    def _shared(self, due: tuple[FollowUp, ...]) -> tuple[FollowUp, ...]:
        return due if self.parts is None else self.parts.of(due)


_SENT = msgspec.msgpack.Decoder(tuple[list[bytes], list[str]])
