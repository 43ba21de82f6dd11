"""Keeps what is on a tree while its acts are gone through: wire, guys, ties, covers and the like.

What one act changes stands in on_tree.py. Some trees bear thousands of wires, so what an act is
done to is sought by the words of its part, and not one by one.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import lru_cache

from msgspec.structs import replace

from backbud.collection.on_tree import Change, is_meant
from backbud.collection.state import OnTree


class Attached:
    """What is on a tree at some moment, in the order in which it was put on."""

    def __init__(self, things: Iterable[OnTree] = ()) -> None:
        self._all: dict[int, OnTree] = {}
        self._count = 0
        # Of each sort, the places of all; of what is not from before; of what stands on a part that
        # holds a word, and on a whole part; and how many there are on parts of so many words.
        self._of_sort: defaultdict[str, dict[int, None]] = defaultdict(dict)
        self._newer: defaultdict[str, dict[int, None]] = defaultdict(dict)
        self._with_word: defaultdict[tuple[str, str], dict[int, None]] = defaultdict(dict)
        self._on_part: defaultdict[tuple[str, str], dict[int, None]] = defaultdict(dict)
        self._sizes: defaultdict[tuple[str, int], int] = defaultdict(int)
        self._frozen: tuple[OnTree, ...] | None = None
        for thing in things:
            self._put(thing)

    @property
    def things(self) -> tuple[OnTree, ...]:
        """All that is on it."""
        if self._frozen is None:
            self._frozen = tuple(self._all.values())
        return self._frozen

    def of(self, *sorts: str) -> list[OnTree]:
        """What of these sorts is on it."""
        return [self._all[at] for sort in sorts for at in self._of_sort.get(sort, ())]

    def has(self, sort: str, part: str) -> bool:
        """Whether something of a sort is on a part of it, or anywhere where none is named."""
        return bool(self._meant(sort, (part,) if part else ()))

    def change(self, change: Change) -> None:
        """Go on by an act."""
        for sort in change.off if not change.stays else ():
            for at in self._meant(sort, change.parts):
                self._take(at)
        for sort in change.older:
            for at in self._newer.pop(sort, ()):
                self._all[at] = replace(self._all[at], from_before=True)
                self._frozen = None
        for thing in change.put:
            self._put(thing)

    def lift_out(self) -> list[OnTree]:
        """Take off all that lies on the ground or the soil, and stays there; what that was."""
        lying = [at for at in self._of_sort.get("protection", ()) if self._all[at].lies]
        left = [self._all[at] for at in lying]
        for at in lying:
            self._take(at)
        return left

    def without(self, change: Change) -> str:
        """The first part named of which nothing can come off, though something is on elsewhere.

        "" where there is none, or nothing of these sorts is on it at all: what came on before
        the diary began is written nowhere. What names no part is on every part.
        """
        sorts = [sort for sort in change.off if self._of_sort.get(sort)]
        if not sorts or any(self._on_part.get((sort, "")) for sort in sorts):
            return ""
        return next(
            (part for part in change.parts if not any(self._is_on(sort, part) for sort in sorts)),
            "",
        )

    def _is_on(self, sort: str, part: str) -> bool:
        """Whether something is on a part, or on more than it, of which some came off: of what is
        on `left 2`, that on `left 2 tip`; but `left 2 3` may be two branches."""
        if self._meant(sort, (part,)):
            return True
        words = _words(part)
        numbers = _numbers(words)
        sizes = [size for (of, size), count in self._sizes.items() if of == sort and count]
        wider = (words[at : at + n] for n in sizes for at in range(len(words) - n + 1))
        return any(
            self._on_part.get((sort, " ".join(some))) and _numbers(some) in ([], numbers)
            for some in wider
        )

    def _meant(self, sort: str, parts: tuple[str, ...]) -> list[int]:
        """The places of what an act on these parts is done to, in order."""
        if not parts:
            return list(self._of_sort.get(sort, ()))
        found: set[int] = set()
        for part in parts:
            with_words = [self._with_word.get((sort, word), {}) for word in _words(part)]
            fewest: dict[int, None] = min(with_words, key=len, default={})
            found.update(at for at in fewest if is_meant(self._all[at].part, (part,)))
        return sorted(found)

    def _put(self, thing: OnTree) -> None:
        at, sort = self._count, thing.sort
        on_part, with_words, size = _kept_by(sort, thing.part)
        self._count += 1
        self._all[at], self._frozen = thing, None
        if not thing.from_before:
            self._newer[sort][at] = None
        self._of_sort[sort][at] = self._on_part[on_part][at] = None
        for word in with_words:
            self._with_word[word][at] = None
        self._sizes[size] += 1

    def _take(self, at: int) -> None:
        thing, self._frozen = self._all.pop(at), None
        sort = thing.sort
        on_part, with_words, size = _kept_by(sort, thing.part)
        self._newer[sort].pop(at, None)
        del self._of_sort[sort][at], self._on_part[on_part][at]
        for word in with_words:
            self._with_word[word].pop(at, None)
        self._sizes[size] -= 1


@lru_cache(maxsize=4096)
def _words(part: str) -> tuple[str, ...]:
    return tuple(part.casefold().split())


@lru_cache(maxsize=4096)
def _kept_by(
    sort: str, part: str
) -> tuple[tuple[str, str], tuple[tuple[str, str], ...], tuple[str, int]]:
    """By what a thing of a sort on a part is kept: the part, each of its words, and how many."""
    words = _words(part)
    return (sort, " ".join(words)), tuple([(sort, word) for word in words]), (sort, len(words))


def _numbers(words: Iterable[str]) -> list[str]:
    return [word for word in words if word.isdecimal()]
