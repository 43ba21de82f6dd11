"""Puts the sorted lists of all trees into one order, quickly where few of them changed.

Where an earlier run put nearly the same lists together, only what differs is taken out of its
order and put in: the rest of thousands of items need not be looked at.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Hashable, Mapping, Sequence
from itertools import chain
from typing import Any, Generic, NamedTuple, TypeVar

from backbud.kept import Each, Kept

# With more lists than this to put in anew, to sort everything is quicker.
MOST_SPLICED = 50

Item = TypeVar("Item", bound=tuple[Any, ...])
Lists = Mapping[str, Sequence[Item]]


class InOrder(NamedTuple, Generic[Item]):
    """The items in their order, and the lists that they come from."""

    items: Sequence[Item]
    lists: Lists[Item]


def in_order(lists: Lists[Item], before: InOrder[Item] | None = None) -> InOrder[Item]:
    """All items in their order. `before`: an earlier order, the lists of which were not changed.

    The items are told apart by what they are sorted by: a tuple compares them.
    """
    if before is not None:
        changed = _changed(lists, before.lists)
        if len(changed) <= MOST_SPLICED:
            return InOrder(_spliced(before, lists, changed), lists)
    return InOrder(sorted(chain.from_iterable(lists.values())), lists)


def kept_in_order(kept: Kept, slot: Hashable, lists: Lists[Item]) -> Sequence[Item]:
    """All items in their order; the very same object while the lists are the same."""
    before: InOrder[Item] | None = kept.last(slot)
    inputs = (tuple(lists), Each(lists.values()))
    return kept.once(slot, inputs, lambda: in_order(lists, before)).items


def _changed(lists: Lists[Item], before: Lists[Item]) -> list[str]:
    """The names of the lists that are not the very same as before."""
    changed = [name for name, items in lists.items() if before.get(name) is not items]
    return changed + [name for name in before if name not in lists]


def _spliced(before: InOrder[Item], lists: Lists[Item], changed: Sequence[str]) -> list[Item]:
    items = list(before.items)
    for name in changed:
        for item in before.lists.get(name, ()):
            del items[bisect_left(items, item)]
    for name in changed:
        for item in lists.get(name, ()):
            insort(items, item)
    return items
