"""A subject line goes in, with the trees as they stand just before it; what it means comes out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from backbud.collection.places import places_inside
from backbud.collection.stand import Stand
from backbud.collection.state import Entry
from backbud.collection.taken_down import Lines
from backbud.journal.dated import DatedBlock, DatedPage
from backbud.journal.notes import Notes
from backbud.journal.things import Thing, Things, members
from backbud_grammar.dates import WrittenDate
from backbud_grammar.handles import fold
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Selection, Subjects


class Placed(Stand, gc=False, kw_only=True):
    """What a subject line can ask for of a tree. `kind`: as written, cultivar and all."""

    handle: str
    first_handle: str
    kind: str
    since: WrittenDate | None


class Whereabouts(Placed, gc=False, kw_only=True):
    """A tree as the replay goes on: where it is now, and all that was written of it so far.

    `kind_words`: the species alone, to be asked for. `entries` are for when the replay is done.
    """

    lines: Lines

    @property
    def entries(self) -> list[Entry]:
        """Its history, oldest first."""
        return self.lines.entries

    @property
    def kind_words(self) -> str:
        return kind_words(self.kind)


class Chooser:
    """Says what a subject line means; what it cannot mean is noted."""

    def __init__(
        self, trees: Mapping[str, Whereabouts], things: Things, keeper: str, notes: Notes
    ) -> None:
        self.trees, self.things, self.keeper, self.notes = trees, things, keeper, notes
        self.inside = places_inside(things)
        # The handles of trees that came by `separated … as` and have no card.
        self.uncarded: dict[str, str] = {}

    def chosen(self, subjects: Subjects, page: DatedPage, block: DatedBlock) -> dict[str, bool]:
        """The handles that are meant, each once, in the order written.

        The value is whether it was named outright, and not by its group.
        """
        out = self._resolve(subjects.chosen, page, block)
        if subjects.left_out:
            for handle in self._resolve(subjects.left_out, page, block):
                out.pop(handle, None)
        return out

    def _resolve(
        self, selections: Iterable[Selection], page: DatedPage, block: DatedBlock
    ) -> dict[str, bool]:
        out: dict[str, bool] = {}
        for item in selections:
            if item.by == "handle":
                for handle, outright in self._one(item, page, block):
                    out[handle] = out.get(handle, False) or outright
            elif not page.when.exact:
                self._note(
                    page,
                    block,
                    item,
                    "rough-all",
                    "“all” needs an exact day",
                    "Write the date as 2027-03-06, or name the trees.",
                )
            else:
                out.update(dict.fromkeys(self._all(item, page, block), True))
        return out

    def _one(
        self, item: Selection, page: DatedPage, block: DatedBlock
    ) -> Iterable[tuple[str, bool]]:
        if item.words in self.trees:
            return [(item.words, True)]
        thing = self.things.find(item.words)
        if thing is None:
            handle = self.uncarded.get(fold(item.words))
            if handle is not None:
                return [(handle, True)]
            self._note(
                page,
                block,
                item,
                "unknown-handle",
                f"nothing is called “{item.words}”",
                self.things.nearest(item.words),
            )
            return []
        if thing.kind != "group":
            return [(thing.handle, True)]
        found = (self.things.find(member) for member in members(thing))
        return [(one.handle, False) for one in found if one is not None and one.kind == "tree"]

    def _all(self, item: Selection, page: DatedPage, block: DatedBlock) -> list[str]:
        here = [tree for tree in self.trees.values() if tree.standing == "here"]
        if item.by == "all":
            return [tree.handle for tree in here]
        if item.by == "kind":
            return self._of_kind(item, here, page, block)
        kind = "place" if item.by == "in" else "person"
        thing = self.things.find(item.words)
        if thing is not None and thing.kind != kind:
            self._note(
                page,
                block,
                item,
                "wrong-kind",
                f"“{item.words}” is a {thing.kind}, not a {kind}",
                _how_chosen(thing),
            )
            return []
        if thing is None:
            self._note(
                page,
                block,
                item,
                "unknown-handle",
                f"no {kind} is called “{item.words}”",
                self.things.nearest(item.words, kind),
            )
            return []
        if kind == "person":
            # The keeper's own trees have no owner.
            owners = (thing.handle, "") if thing.handle == self.keeper else (thing.handle,)
            return [tree.handle for tree in here if tree.owner in owners]
        inside = self.inside[thing.handle]
        return [tree.handle for tree in here if tree.place in inside]

    def _of_kind(
        self, item: Selection, here: Iterable[Whereabouts], page: DatedPage, block: DatedBlock
    ) -> list[str]:
        words = kind_words(item.words)
        if not any(_has(tree, words) for tree in self.trees.values()):
            self._note(
                page,
                block,
                item,
                "unknown-kind",
                f"no tree is of the kind “{item.words}”",
                "Write the words as they stand on the cards: all trident maple.",
            )
        return [tree.handle for tree in here if _has(tree, words)]

    def _note(
        self,
        page: DatedPage,
        block: DatedBlock,
        item: Selection,
        code: str,
        message: str,
        hint: str,
    ) -> None:
        self.notes.add(
            page.file,
            block.line - 1,
            Flaw(code, 0, item.offset + 1, max(len(item.words), 3), message, hint),
        )


# How a subject line names a thing of each kind.
_CHOSEN = {"tree": "", "group": "", "place": "all in ", "person": "all of "}


def _how_chosen(thing: Thing) -> str:
    if thing.kind in _CHOSEN:
        return f"Write {_CHOSEN[thing.kind]}{thing.handle}."
    return f"Its card stands in {thing.origin}."


def _has(tree: Whereabouts, words: str) -> bool:
    return f" {words} " in f" {tree.kind_words} "


@cache
def kind_words(kind: str) -> str:
    """The species of a kind, folded, without its cultivar."""
    return " ".join(kind.split("'")[0].casefold().split())
