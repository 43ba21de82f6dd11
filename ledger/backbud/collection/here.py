"""Keeps which trees are here, by where they stand, whose they are and of which species.

So a subject line like `all in tunnel` asks for no tree but those that it names.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache
from itertools import chain
from typing import Protocol


class TreeStanding(Protocol):
    """What is kept of a tree. `kind`: as written, cultivar and all."""

    @property
    def handle(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def owner(self) -> str: ...
    @property
    def place(self) -> str: ...
    @property
    def standing(self) -> str: ...


class TreesHere:
    """The trees that are here, by number: in the order in which they were first put."""

    def __init__(self) -> None:
        self._handles: list[str] = []
        self._numbers: dict[str, int] = {}
        # Where each that is here is kept: place, owner and species.
        self._kept: dict[int, tuple[str, str, str]] = {}
        self._by_place: dict[str, set[int]] = {}
        self._by_owner: dict[str, set[int]] = {}
        self._by_kind: dict[str, set[int]] = {}
        # What was put since anybody asked: many move again before.
        self._put: dict[str, TreeStanding] = {}

    def put(self, tree: TreeStanding) -> None:
        """Keep how a tree stands; to be called whenever that has changed."""
        self._put[tree.handle] = tree

    def _catch_up(self) -> None:
        """Keep how each stands now of which that was told since anybody asked."""
        for tree in self._put.values():
            self._keep(tree)
        self._put.clear()

    def _keep(self, tree: TreeStanding) -> None:
        number = self._numbers.setdefault(tree.handle, len(self._handles))
        if number == len(self._handles):
            self._handles.append(tree.handle)
        here = tree.standing == "here"
        now = (tree.place, tree.owner, kind_words(tree.kind)) if here else None
        before = self._kept.pop(number, None)
        if now is not None:
            self._kept[number] = now
        if now == before:
            return
        kept = (self._by_place, self._by_owner, self._by_kind)
        for by, name in zip(kept, before or (), strict=False):
            by[name].discard(number)
        for by, name in zip(kept, now or (), strict=False):
            by.setdefault(name, set()).add(number)

    def every(self) -> list[str]:
        """All that are here."""
        self._catch_up()
        return self._named(self._kept)

    def in_places(self, places: Iterable[str]) -> list[str]:
        """Those that stand in any of these places."""
        self._catch_up()
        return self._named(chain.from_iterable(self._by_place.get(one, ()) for one in places))

    def of_owners(self, owners: Iterable[str]) -> list[str]:
        """Those of any of these people."""
        self._catch_up()
        return self._named(chain.from_iterable(self._by_owner.get(one, ()) for one in owners))

    def of_kind(self, words: str) -> list[str]:
        """Those in the name of whose species these whole words stand."""
        self._catch_up()
        wanted = whole_words(words)
        return self._named(
            chain.from_iterable(those for kind, those in self._by_kind.items() if wanted(kind))
        )

    def _named(self, numbers: Iterable[int]) -> list[str]:
        return [self._handles[number] for number in sorted(numbers)]


def has_kind(kind: str, words: str) -> bool:
    """Whether these whole words stand in the name of a tree's species."""
    return whole_words(words)(kind_words(kind))


def whole_words(words: str) -> Callable[[str], bool]:
    """Asks whether these whole words stand in the words of a species."""
    wanted = f" {kind_words(words)} "
    return lambda kind: wanted in f" {kind} "


@cache
def kind_words(kind: str) -> str:
    """The species of a kind, folded, without its cultivar."""
    return " ".join(kind.split("'")[0].casefold().split())
