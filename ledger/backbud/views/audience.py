"""A follow-up and its tree's owner go in; it comes out without anyone else's tree or person."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from backbud.plan.followups import FollowUp, Reason
from backbud.views.grounds import Grounds
from backbud_grammar.handles import fold

# Apart at hyphens too: the handle of a place may hold a person's name.
_WORDS = re.compile(r"[^\W_]+")
# What the programme says of its own accord names nobody.
_OWN_WORDS = ("rule", "season")

Words = tuple[str, ...]


class Others:
    """The names of everybody, and of every tree, that one owner is not to read."""

    def __init__(self, owner: str, grounds: Grounds) -> None:
        self._by_first: dict[str, set[Words]] = {}
        for name in (*_persons(owner, grounds), *_trees(owner, grounds)):
            words = _words(name)
            if words:
                self._by_first.setdefault(words[0], set()).add(words)

    def named_in(self, text: str) -> bool:
        """Whether the text names any of them."""
        words = _words(text)
        return any(
            words[at : at + len(name)] == name
            for at, word in enumerate(words)
            for name in self._by_first.get(word, ())
        )

    def left_out(self, follow_up: FollowUp) -> FollowUp:
        """Return the follow-up as the owner may read it.

        A reason that names others is left out, and of a title that does its act is left. No line
        of the diary is pointed to: its file may be named for somebody.
        """
        title = follow_up.title
        return replace(
            follow_up,
            title=title.split()[0] if self.named_in(title) else title,
            because=tuple(self._reasons(follow_up.because)),
        )

    def _reasons(self, because: Iterable[Reason]) -> Iterator[Reason]:
        for reason in because:
            if reason.sort in _OWN_WORDS or not self.named_in(reason.text):
                yield replace(reason, origin=None)


def _persons(owner: str, grounds: Grounds) -> Iterator[str]:
    """Every name of everybody else: the handles, and each word of what they are called."""
    for handle in grounds.persons - {owner}:
        yield from (handle, grounds.first_handles.get(handle, handle))
        yield from grounds.name_of(handle).split()


def _trees(owner: str, grounds: Grounds) -> Iterator[str]:
    for tree in grounds.trees.values():
        if tree.owner != owner:
            yield from (tree.handle, tree.first_handle, tree.title)


def _words(text: str) -> Words:
    return tuple(fold(word) for word in _WORDS.findall(text))
