"""Lays the follow-ups of trees down in a file, tree by tree, and takes them up when they are asked
for: a large collection has more of them than there is room for in memory."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import overload

from backbud.collection.state import Entry
from backbud.journal.laid_down import LaidDown, Place
from backbud.plan.followups import FollowUp
from backbud.plan.sent_plan import CannotBeSent, sent_tree, tree_that_came
from backbud_grammar.forms import ActForm

# What becomes of the follow-ups of a tree.
ChangePlan = Callable[[Sequence[FollowUp]], Sequence[FollowUp]]


class LaidFollowUps(Sequence[FollowUp]):
    """The follow-ups of one tree, taken up anew whenever somebody looks at them."""

    __slots__ = ("_take",)

    def __init__(self, take: Callable[[], Sequence[FollowUp]]) -> None:
        self._take = take

    def __len__(self) -> int:
        return len(self._take())

    def __iter__(self) -> Iterator[FollowUp]:
        return iter(self._take())

    @overload
    def __getitem__(self, at: int) -> FollowUp: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[FollowUp]: ...
    def __getitem__(self, at: int | slice) -> FollowUp | Sequence[FollowUp]:
        return self._take()[at]


def once_asked(follow_ups: Sequence[FollowUp], change: ChangePlan) -> Sequence[FollowUp]:
    """What becomes of a tree's follow-ups: of what is laid down, once somebody looks at it."""
    if isinstance(follow_ups, LaidFollowUps):
        return LaidFollowUps(partial(change, follow_ups))
    return change(follow_ups)


class LaidPlans:
    """The follow-ups of trees that were laid down in one run."""

    def __init__(
        self,
        folder: str,
        entries_of: Callable[[str], Sequence[Entry]],
        acts: Mapping[str, ActForm],
    ) -> None:
        """`folder`: where a large file may lie. `entries_of`: finds a tree's history. `acts`: the
        journal's table of acts. OSError."""
        self._laid, self._entries_of, self._acts = LaidDown(folder), entries_of, acts
        self._by_tree: dict[str, Sequence[FollowUp]] = {}

    def put(self, handle: str, follow_ups: Sequence[FollowUp]) -> None:
        """Lay down what was planned of a tree; what cannot be written down is held."""
        try:
            data = sent_tree(handle, follow_ups, (), self._entries_of(handle), self._acts)
        except CannotBeSent:
            self.hold(handle, follow_ups)
        else:
            self.put_sent(handle, data)

    def hold(self, handle: str, follow_ups: Sequence[FollowUp]) -> None:
        """Hold what was planned of a tree as it is."""
        self._by_tree[handle] = follow_ups

    def put_sent(self, handle: str, data: bytes) -> None:
        """Lay down what another process has planned of a tree, as it was sent."""
        take = partial(self._taken, self._laid.put(data))
        self._by_tree[handle] = LaidFollowUps(take)

    def _taken(self, place: Place) -> Sequence[FollowUp]:
        return tree_that_came(self._laid.take(place), self._entries_of, self._acts)[1]

    @property
    def all(self) -> Mapping[str, Sequence[FollowUp]]:
        """All of them, by the handles of their trees."""
        return self._by_tree

    def in_order(self, handles: Iterable[str]) -> dict[str, Sequence[FollowUp]]:
        """All of them, as the trees stand."""
        return {handle: self._by_tree[handle] for handle in handles}
