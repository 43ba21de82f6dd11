"""Finds who is meant by a name of a list, and makes handles for what has no card yet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from backbud.bring.matched import OpenQuestion
from backbud.journal.things import Things
from backbud_grammar.datelines import heads_a_page
from backbud_grammar.handles import flaw_of, fold, handle_of
from backbud_grammar.problems import nearest

# A name must be this near to a known one to be asked after: a slip, not another word.
_NEAR = 0.8


class CalledThings:
    """Everything that has a handle: the journal's, and what this list adds.

    It grows while the rows of one list are read, from the first to the last.
    """

    def __init__(
        self, things: Things, uncarded: Iterable[str], acts: frozenset[str], told: Mapping[str, str]
    ) -> None:
        """`uncarded`: trees without a card. `acts`: words that an act may begin with, which are no
        good handles. `told`: what the mapping says of names."""
        self._things, self._acts, self._told = things, acts, told
        self._taken = {*things.spellings, *map(fold, uncarded)}
        self._uncarded = {fold(handle): handle for handle in uncarded}
        self._titles: dict[tuple[str, str], list[str]] = {}
        for thing in things.by_handle.values():
            self._called(thing.kind, thing.title, thing.handle)
        self._new: dict[tuple[str, str], str] = {}
        self.asks: list[OpenQuestion] = []

    def told(self, text: str) -> tuple[str, ...]:
        """The handles that the mapping says are meant by a name."""
        said = self._told.get(text, "")
        return tuple(one.strip() for one in said.split(",") if one.strip())

    def find(self, kind: str, text: str) -> str:
        """The handle of the one of that kind so named, "" where nobody is."""
        said = self.told(text)
        for written in (*said[:1], text, handle_of(text)):
            thing = self._things.find(written) if written else None
            if thing is not None and thing.kind == kind:
                return thing.handle
            if kind == "tree" and fold(written) in self._uncarded:
                return self._uncarded[fold(written)]
        new = self._new.get((kind, fold(said[0] if said else text)), "")
        titled = self._titles.get((kind, fold(text)), [])
        return new or (titled[0] if len(titled) == 1 else "")

    def any_of(self, text: str) -> str:
        """The handle of anything so named, a tree before all else."""
        kinds = ("tree", "group", "place", "pot", "person", "material", "mix")
        return next((found for kind in kinds if (found := self.find(kind, text))), "")

    def asked(self, kind: str, text: str) -> bool:
        """Whether a name that is new is so near to a known one, or stands for several, that the
        keeper must say who is meant."""
        if self.told(text):
            return False
        titled = self._titles.get((kind, fold(text)), [])
        if len(titled) > 1:
            self._ask(text, f"“{text}” is what {' and '.join(titled)} are called", titled[0])
            return True
        handle = handle_of(text)
        known = [t.handle for t in self._things.of_kind(kind)]
        known += list(self._uncarded.values()) if kind == "tree" else []
        # Names that differ by their numbers are of different things.
        words = [one for one in known if _digits(one) == _digits(handle)]
        near = nearest(handle, words, _NEAR) if handle else ""
        if near and near != handle:
            self._ask(text, f"no {kind} is called “{text}”, but one is called {near}", near)
            return True
        return False

    def _ask(self, text: str, message: str, handle: str) -> None:
        answer = f'below [names] in the mapping: "{text}" = "{handle}", or a handle that is new'
        self.ask(OpenQuestion(message, answer))

    def ask(self, question: OpenQuestion) -> None:
        """Ask something once."""
        if question not in self.asks:
            self.asks.append(question)

    def new(self, kind: str, text: str, also: str = "") -> str:
        """A handle of its own for something new. `also`: another name that finds it from now on."""
        said = self.told(text)
        base = said[0] if said and not flaw_of(said[0]) else handle_of(text)
        if not base or base in self._acts or heads_a_page(base):
            base = handle_of(f"{kind} {text}") or f"{kind}-new"
        base = base[:60].rstrip("-")
        handle, count = base, 2
        while fold(handle) in self._taken:
            handle, count = f"{base}-{count}", count + 1
        self._taken.add(fold(handle))
        for name in {text, also, handle} - {""}:
            self._new.setdefault((kind, fold(name)), handle)
        return handle

    def is_new(self, kind: str, handle: str) -> bool:
        """Whether a handle was made here."""
        return self._new.get((kind, fold(handle))) == handle

    def number(self, kind: str, text: str) -> str:
        """A number or tag as an older handle, which finds the thing too; "" where it is taken."""
        handle = handle_of(text) or handle_of(f"{kind} {text}")
        if not handle or fold(handle) in self._taken or handle in self._acts:
            return ""
        self._taken.add(fold(handle))
        return "" if heads_a_page(handle) else handle

    def _called(self, kind: str, title: str, handle: str) -> None:
        self._titles.setdefault((kind, fold(title)), []).append(handle)


def _digits(text: str) -> str:
    return "".join(sign for sign in text if sign.isdigit())
