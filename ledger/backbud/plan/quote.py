"""Quotes a line of the diary as a reason, without what its tree's owner is not to read."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import lru_cache

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.things import Things
from backbud.tongue import full_day
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.handles import fold
from backbud_grammar.measures import is_money
from backbud_grammar.syntax import Detail

_WORDS = re.compile(r"[\w-]+")


# The names of each tree and person, as the words they are made of, by the first of them; with each
# the handle of whose it is.
Names = Mapping[str, Collection[tuple[tuple[str, ...], str]]]


def names_of(things: Things, trees: Iterable[str]) -> Names:
    """The names of all trees and people. `trees`: the handles of those without a card too."""
    names: dict[str, dict[tuple[tuple[str, ...], str], None]] = {}

    def know(name: str, handle: str) -> None:
        if words := _words(name):
            names.setdefault(words[0], {})[words, handle] = None

    for thing in things.by_handle.values():
        if thing.kind in ("tree", "person"):
            # A person is known by each name alone; a tree's may be a word like any other.
            alone = thing.title.split() if thing.kind == "person" else ()
            for name in (thing.handle, thing.first_handle, thing.title, *alone):
                know(name, thing.handle)
    for number, hidden in things.hidden.items():
        for name in (*hidden, *hidden[0].split()):
            know(name, number)
    for handle in trees:
        know(handle, handle)
    return names


class Quoter:
    """Quotes lines without other trees, other people, and money."""

    def __init__(self, journal: Journal, names: Names) -> None:
        self.journal, self._names = journal, names
        self._free = {
            act.word: {f.name for f in act.forms if f.words == ANY_WORDS or f.prose}
            for act in journal.acts.values()
        }

    def reason(self, event: Event, tree: Tree, *, remark: bool = False) -> str:
        """The line as one sentence; the remark only where it is asked for."""
        said = self.remark(event, tree) if remark else ""
        written = f"{event.act} {self.text(event, tree)}".rstrip()
        return f"{full_day(event.day)}: {written}{f' – {said}' if said else ''}."

    def text(self, event: Event, tree: Tree) -> str:
        """The details as written, without those that speak of others."""
        if all(self._open(detail, event, tree) for detail in event.details):
            return event.text
        return ", ".join(piece for piece in self.pieces(event, tree) if piece)

    def pieces(self, event: Event, tree: Tree) -> Iterator[str]:
        """The pieces between the commas, "" for one that speaks of others and of nothing else.

        The first piece of a plan begins with the act that is planned.
        """
        reading = self.journal.details.of(self.journal.acts[event.act], event.text)
        details = list(zip(reading.details, reading.starts, strict=True))
        for start, piece in part_at_commas(event.text):
            end = start + len(piece)
            here = [(d, at + d.offset) for d, at in details if start <= at + d.offset < end]
            if all(self._open(d, event, tree) for d, _ in here):
                yield piece
                continue
            said = [event.text[at : at + d.length] for d, at in here if self._open(d, event, tree)]
            yield " ".join([*piece.split()[: 1 if event.named and start == 0 else 0], *said])

    def remark(self, event: Event, tree: Tree) -> str:
        """The remark, or "" where it names another tree or a person."""
        return "" if self._names_others(event.remark, tree) else event.remark.rstrip(".")

    def _open(self, detail: Detail, event: Event, tree: Tree) -> bool:
        if detail.measure is not None and is_money(detail.measure.sort):
            return False
        if detail.handle:
            thing = self.journal.things.find(detail.handle)
            return (
                thing is None
                or thing.handle == tree.handle
                or (thing.kind not in ("tree", "person"))
            )
        free = self._free.get(event.named or event.act, set())
        return detail.name not in free or not self._names_others(detail.words, tree)

    def _names_others(self, text: str, tree: Tree) -> bool:
        words = _words(text)
        for n, word in enumerate(words):
            for name, handle in self._names.get(word, ()):
                if handle != tree.handle and words[n : n + len(name)] == name:
                    return True
        return False


# What is written of one tree is written of others.
@lru_cache(maxsize=4096)
def _words(text: str) -> tuple[str, ...]:
    return tuple(fold(word) for word in _WORDS.findall(text))
