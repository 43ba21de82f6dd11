"""Who reads what: the one place where it is decided what anybody but the keeper is shown."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.plan.followups import ReasonSort
from backbud.views.grounds import Grounds
from backbud.views.history import EntryView
from backbud.views.people import PersonView
from backbud.views.shelf import BuyView, OnHandView, ShelfView
from backbud.views.tree import ThingView, TreeView
from backbud.views.work import ReasonView, SettledView, WorkView
from backbud_grammar.handles import fold

# Apart at hyphens too: the handle of a place may hold a person's name.
_WORDS = re.compile(r"[^\W_]+")
# What the programme says of its own accord names nobody, but that a season is told with its place.
_OWN_WORDS: tuple[ReasonSort, ...] = ("rule", "season")

Words = tuple[str, ...]


class Eyes(Struct, frozen=True):
    """Whose eyes something is for.

    `keeper` reads all. `helper` reads every work and every tree, but neither money nor what is
    private. `owner`, the `person` of that handle, reads of the own trees alone, and of nobody
    else; no price, no free text, and no line of the diary. `public` reads of trees whose card says
    `public yes`: what they are and what was done when, with no name, place, price or word of it.
    """

    sort: Literal["keeper", "helper", "owner", "public"] = "keeper"
    person: str = ""


KEEPER, HELPER, PUBLIC = Eyes(), Eyes("helper"), Eyes("public")


def eyes_of(owner: str) -> Eyes:
    """The eyes of an owner, by their handle; of the keeper for ""."""
    return Eyes("owner", owner) if owner else KEEPER


class Audience:
    """What some eyes are shown of a collection. Whatever is shown to nobody else than the keeper
    passes through here last, and comes out without what these eyes are not to read; None where
    nothing of it is left."""

    def __init__(self, eyes: Eyes, grounds: Grounds) -> None:
        self._eyes, self._grounds = eyes, grounds
        is_owner = eyes.sort == "owner"
        self._others = _HiddenNames(_others(eyes.person, grounds) if is_owner else ())
        places = _places(grounds) if is_owner else ()
        self._places = _HiddenNames(filter(self._others.named_in, places))

    def sees(self, tree: Tree) -> bool:
        """Whether they are shown the tree at all."""
        match self._eyes.sort:
            case "owner":
                return self._grounds.owner_of(tree) == self._eyes.person
            case "public":
                return tree.facts.get("public", "").strip().casefold() == "yes"
        return True

    def work(self, work: WorkView) -> WorkView | None:
        """A work as they may read it."""
        if not self.sees(self._grounds.trees[work.tree]) or self._eyes.sort == "public":
            return None
        return self._owners_work(work) if self._eyes.sort == "owner" else work

    def people(self, people: tuple[PersonView, ...]) -> tuple[PersonView, ...]:
        """Of people nobody reads but the keeper."""
        return people if self._eyes.sort == "keeper" else ()

    def tree(self, tree: TreeView) -> TreeView | None:
        """A tree as they may read of it."""
        if not self.sees(self._grounds.trees[tree.tree]):
            return None
        if self._eyes.sort == "keeper":
            return tree
        entries = tuple(filter(None, map(self._entry, tree.history)))
        acts = {entry.act for entry in entries}
        shown = replace(
            tree,
            facts=tuple(fact for fact in tree.facts if not fact.private),
            history=entries,
            last={act: date for act, date in tree.last.items() if act in acts},
            due=tuple(filter(None, map(self.work, tree.due))),
            settled=tuple(filter(None, map(self.work, tree.settled))),
        )
        match self._eyes.sort:
            case "owner":
                return self._owners_tree(shown)
            case "public":
                return _nameless(shown)
        return shown

    def shelf(self, shelf: ShelfView) -> ShelfView | None:
        """The shelf as they may read of it: a helper how much there is, and no price."""
        match self._eyes.sort:
            case "keeper":
                return shelf
            case "helper":
                return _unpriced(shelf)
        return None

    # ------------------------------------------------------------------ a line of the diary

    def _entry(self, entry: EntryView) -> EntryView | None:
        if entry.private:
            return None
        match self._eyes.sort:
            case "helper":
                return entry
            case "owner":
                # Whatever words are not the language's own may say anything.
                free = entry.free_words or entry.held_back or entry.kept
                if free or self._others.named_in(entry.text):
                    return None
                return _without_origin(entry)
        return replace(_without_origin(entry), details="", text="")

    # ------------------------------------------------------------------ an owner's

    def _owners_work(self, work: WorkView) -> WorkView:
        """A reason that names others is left out, and of a title that does its act is left. No line
        of the diary is pointed to: its file may be named for somebody."""
        title = work.title
        reasons = tuple(self._owners_reasons(work))
        return replace(
            work,
            title=title.split()[0] if self._others.named_in(title) else title,
            part=self._nobodys(work.part),
            place=self._nobodys(work.place),
            place_name=self._nobodys(work.place_name),
            reasons=reasons,
            because=tuple(reason.told for reason in reasons),
            settled=SettledView(work.settled.day, "", "", "", 0) if work.settled else None,
        )

    def _owners_reasons(self, work: WorkView) -> Iterator[ReasonView]:
        for reason in work.reasons:
            hidden = self._places if reason.sort in _OWN_WORDS else self._others
            if not hidden.named_in(reason.text):
                yield replace(reason, file="", line=0)

    def _owners_tree(self, tree: TreeView) -> TreeView:
        return replace(
            tree,
            place=self._nobodys(tree.place),
            place_name=self._nobodys(tree.place_name),
            pot=self._nobodys(tree.pot),
            pot_name=self._nobodys(tree.pot_name),
            mix=self._nobodys(tree.mix),
            mix_name=self._nobodys(tree.mix_name),
            facts=tuple(fact for fact in tree.facts if not self._others.named_in(fact.value)),
            on_it=tuple(map(self._owners_thing, tree.on_it)),
            wires=tuple(replace(one, part=self._nobodys(one.part)) for one in tree.wires),
            photographs=tuple(replace(one, at="") for one in tree.photographs),
        )

    def _owners_thing(self, thing: ThingView) -> ThingView:
        what, part = self._nobodys(thing.what), self._nobodys(thing.part)
        return replace(_unsigned(thing), what=what, part=part)

    def _nobodys(self, text: str) -> str:
        """The text, where it names none of the others."""
        return "" if self._others.named_in(text) else text


def _without_origin(entry: EntryView) -> EntryView:
    """A line with neither its remark, its file nor what it first read."""
    return replace(
        entry,
        remark="",
        at="",
        corrected_at=None,
        first_written=None,
        correction=None,
        kept=(),
        own_words="",
    )


def _unsigned(thing: ThingView) -> ThingView:
    return replace(thing, file="", line=0)


def _nameless(tree: TreeView) -> TreeView:
    """A tree that nobody can be told by."""
    empty = dict.fromkeys(
        ("tree", "owner", "owner_name", "place", "place_name", "pot", "pot_name", "mix", "mix_name",
         "wanted"), ""
    )  # fmt: skip
    kind = f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind
    things = tuple(replace(_unsigned(thing), what="", part="") for thing in tree.on_it)
    wires = tuple(replace(one, part="") for one in tree.wires)
    # A picture may show anybody, so nobody is shown one until the keeper chooses it.
    return replace(tree, **empty, name=kind, wanted_by=None, facts=(), on_it=things, wires=wires,
                   photographs=())  # fmt: skip


def _unpriced(shelf: ShelfView) -> ShelfView:
    nothing = type(shelf.value)(0)
    return replace(
        shelf,
        currency="",
        value=nothing,
        value_is_at_least=False,
        value_is_at_most=False,
        cost=nothing,
        cost_is_at_least=False,
        shelf=tuple(map(_unpriced_on_hand, shelf.shelf)),
        buy=tuple(map(_unpriced_to_buy, shelf.buy)),
        # What to write down gives prices, and is the keeper's to write.
        missing=(),
    )


def _unpriced_on_hand(one: OnHandView) -> OnHandView:
    return replace(one, price=None, value=None)


def _unpriced_to_buy(one: BuyView) -> BuyView:
    return replace(one, cost=None)


class _HiddenNames:
    """Names that somebody is not to read."""

    def __init__(self, names: Iterable[str]) -> None:
        self._by_first: dict[str, set[Words]] = {}
        for name in names:
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


def _others(owner: str, grounds: Grounds) -> Iterator[str]:
    """The names of everybody, and of every tree, that one owner is not to read."""
    yield from _persons(owner, grounds)
    yield from _trees(owner, grounds)


def _places(grounds: Grounds) -> Iterator[str]:
    for handle in grounds.inside:
        yield from (handle, grounds.first_handles.get(handle, handle), grounds.name_of(handle))


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
