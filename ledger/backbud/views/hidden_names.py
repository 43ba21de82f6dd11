"""Names that somebody is not to read: of everybody else, of their trees, and of places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from backbud.views.grounds import Grounds
from backbud_grammar.handles import folded_words

Words = tuple[str, ...]


class HiddenNames:
    """Names that somebody is not to read."""

    def __init__(self, names: Iterable[str]) -> None:
        self._by_first: dict[str, set[Words]] = {}
        for name in names:
            words = _words(name)
            if words:
                self._add(words)
                # What is somebody's, where no apostrophe says so: pells tray, Pells Schale.
                self._add((*words[:-1], f"{words[-1]}s"))

    def _add(self, words: Words) -> None:
        self._by_first.setdefault(words[0], set()).add(words)

    def named_in(self, text: str) -> bool:
        """Whether the text names any of them."""
        words = _words(text)
        return any(
            words[at : at + len(name)] == name
            for at, word in enumerate(words)
            for name in self._by_first.get(word, ())
        )


def others(owner: str, grounds: Grounds) -> Iterator[str]:
    """The names of everybody, and of every tree, that one owner is not to read."""
    yield from _persons(owner, grounds)
    yield from _trees(owner, grounds)


def places(grounds: Grounds) -> Iterator[str]:
    for handle in grounds.inside:
        yield from (handle, grounds.first_handles.get(handle, handle), grounds.name_of(handle))


def _persons(owner: str, grounds: Grounds) -> Iterator[str]:
    """Every name of everybody else: the handles, and each word of what they are called."""
    for handle in grounds.persons - {owner}:
        yield from (handle, grounds.first_handles.get(handle, handle))
        yield from grounds.name_of(handle).split()
    for names in grounds.hidden.values():
        yield from (*names, *names[0].split())


def _trees(owner: str, grounds: Grounds) -> Iterator[str]:
    for tree in grounds.trees.values():
        if tree.owner != owner:
            yield from (tree.handle, tree.first_handle, tree.title)


@lru_cache(maxsize=1 << 15)
def _words(text: str) -> Words:
    return tuple(folded_words(text))
