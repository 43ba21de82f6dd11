"""Names that somebody is not to read: of everybody else, of their trees, and of places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import chain

from backbud.views.grounds import Grounds
from backbud_grammar.handles import folded_words

Words = tuple[str, ...]
# Who asked to be forgotten: no handle is so written.
_OF_NO_OWNER = "\0"
_NOBODY: Mapping[Words, set[str]] = {}


class HiddenNames:
    """Names that somebody is not to read."""

    def __init__(self, names: Iterable[str]) -> None:
        self._by_first: dict[str, set[Words]] = {}
        for name in names:
            words = _words(name)
            for form in _forms(words) if words else ():
                self._by_first.setdefault(form[0], set()).add(form)

    def named_in(self, text: str) -> bool:
        """Whether the text names any of them."""
        words = _words(text)
        return any(
            words[at : at + len(name)] == name
            for at, word in enumerate(words)
            for name in self._by_first.get(word, ())
        )


class EverybodysNames:
    """The names of everybody and of every tree, and whose each is: gathered once for all owners,
    since each of hundreds is to read none of thousands but their own."""

    def __init__(self, grounds: Grounds) -> None:
        # By its first word each name, and whose it is: a handle, or that of no owner.
        self._by_first: dict[str, dict[Words, set[str]]] = {}
        for whose, name in chain(_persons(grounds), _trees(grounds)):
            words = _words(name)
            for form in _forms(words) if words else ():
                by_name = self._by_first.setdefault(form[0], {})
                by_name.setdefault(form, set()).add(whose)

    def named_to(self, owner: str, text: str) -> bool:
        """Whether the text names anybody, or any tree, that this owner is not to read."""
        words = _words(text)
        return any(
            words[at : at + len(name)] == name and not whose <= {owner}
            for at, word in enumerate(words)
            for name, whose in self._by_first.get(word, _NOBODY).items()
        )


def places(grounds: Grounds) -> Iterator[str]:
    for handle in grounds.inside:
        yield from (handle, grounds.first_handles.get(handle, handle), grounds.name_of(handle))


def _persons(grounds: Grounds) -> Iterator[tuple[str, str]]:
    """Every name of everybody: the handles, and each word of what they are called."""
    for handle in grounds.persons:
        yield from ((handle, name) for name in (handle, grounds.first_handles.get(handle, handle)))
        yield from ((handle, word) for word in grounds.name_of(handle).split())
    for names in grounds.hidden.values():
        yield from ((_OF_NO_OWNER, name) for name in (*names, *names[0].split()))


def _trees(grounds: Grounds) -> Iterator[tuple[str, str]]:
    for tree in grounds.trees.values():
        yield from ((tree.owner, name) for name in (tree.handle, tree.first_handle, tree.title))


def _forms(words: Words) -> tuple[Words, Words]:
    """A name, and what is somebody's where no apostrophe says so: pells tray, Pells Schale."""
    return words, (*words[:-1], f"{words[-1]}s")


@lru_cache(maxsize=1 << 15)
def _words(text: str) -> Words:
    return tuple(folded_words(text))
