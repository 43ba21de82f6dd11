"""Finds which trees and other things a subject line means, as they stand just before it.

`all in tunnel` means other trees each time, so this is asked in the midst of the replay.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from datetime import date

from msgspec.structs import replace

from backbud.collection.here import TreesHere, has_kind
from backbud.collection.places import places_inside
from backbud.collection.stand import Stand, canonical
from backbud.collection.state import Entry
from backbud.collection.taken_down import Lines
from backbud.journal.dated import DatedBlock, DatedPage
from backbud.journal.handles_meant import handles_meant
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.things import Thing, Things, members
from backbud_grammar.dates import WrittenDate
from backbud_grammar.handles import fold
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Selection, Subjects


class Placed(Stand, gc=False, kw_only=True):
    """What a subject line can ask for of a tree. `kind`: as written, cultivar and all.

    `before`: what was first done to it before the day of its coming, "" where nothing was.
    `parted`, `parted_from`: when it was parted off, and of which batch.
    """

    handle: str
    first_handle: str
    kind: str
    since: WrittenDate | None
    before: str = ""
    parted: date | None = None
    parted_from: str = ""


class Whereabouts(Placed, gc=False, kw_only=True):
    """A tree as the replay goes on: where it is now, and all that was written of it so far.

    `entries` are for when the replay is done.
    """

    lines: Lines

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Its history, oldest first."""
        return self.lines.entries


class Chooser:
    """Says what a subject line means. `here`: who is here, as it is told after each change."""

    def __init__(self, trees: Mapping[str, Whereabouts], things: Things, keeper: str) -> None:
        self.trees, self.things, self.keeper = trees, things, keeper
        self.inside = places_inside(things)
        self.here = TreesHere()
        # The handles of trees that came by `separated … as` and have no card.
        self.uncarded: dict[str, str] = {}
        # The species, as written, that some card has: of thousands of cards only trees have one.
        self._known_kinds: set[str] = set()

    def chosen(
        self, subjects: Subjects, page: DatedPage, block: DatedBlock
    ) -> WithFlaws[dict[str, bool]]:
        """The handles that are meant, each once, in the order written.

        The value is whether it was named outright, and not by its group. Nobody is meant where
        nobody can tell who is left out.
        """
        out: dict[str, bool] = {}
        flaws: list[PlacedFlaw] = []
        for item in subjects.chosen:
            flaw = self._flaw(item, block)
            if flaw is not None:
                flaws.append(PlacedFlaw(page.file, block.line - 1, flaw))
                continue
            meant = list(self._resolve(item))
            if not meant:
                flaws.append(PlacedFlaw(page.file, block.line - 1, _nobody(item)))
            for handle, outright in meant:
                out[handle] = out.get(handle, False) or outright
        held = False
        for item in subjects.left_out:
            flaw = flaw_of_exception(item, block, self.things, self.uncarded)
            if flaw is not None:
                flaws.append(PlacedFlaw(page.file, block.line - 1, flaw))
                held = True
                continue
            for handle, _ in self._resolve(item):
                out.pop(handle, None)
        return WithFlaws({} if held else out, tuple(flaws))

    def _flaw(self, item: Selection, block: DatedBlock) -> Flaw | None:
        """What is wrong with a choice."""
        if item.by != "kind" or not block.head.when.exact:
            return flaw_of_choice(item, block, self.things, self.uncarded)
        if item.words in self._known_kinds:
            return None
        flaw = flaw_of_choice(item, block, self.things)
        if flaw is None:
            self._known_kinds.add(item.words)
        return flaw

    def _resolve(self, item: Selection) -> Iterable[tuple[str, bool]]:
        """Whom a choice without a flaw means, each named outright or by its group."""
        if item.by != "handle":
            return [(handle, True) for handle in self._all(item)]
        if item.words in self.trees:
            return [(item.words, True)]
        thing = self.things.find(item.words)
        if thing is None:
            return [(self.uncarded[fold(item.words)], True)]
        if thing.kind != "group":
            return [(thing.handle, True)]
        found = (self.things.find(member) for member in members(thing))
        return [(one.handle, False) for one in found if one is not None and one.kind == "tree"]

    def _all(self, item: Selection) -> list[str]:
        if item.by == "all":
            return self.here.every()
        if item.by == "kind":
            return self.here.of_kind(item.words)
        handle = canonical(self.things, item.words)
        if item.by == "of":
            # The keeper's own trees have no owner.
            return self.here.of_owners({handle, ""} if handle == self.keeper else {handle})
        return self.here.in_places(self.inside[handle])


def flaw_of_choice(
    item: Selection, block: DatedBlock, things: Things, uncarded: Container[str] = ()
) -> Flaw | None:
    """What is wrong with one of those that a subject line names, in its place on that line.

    `uncarded`: the folded handles of trees without a card.
    """

    def flaw(code: str, message: str, hint: str) -> Flaw:
        return Flaw(code, 0, item.offset + 1, max(len(item.words), 3), message, hint)

    if item.by != "handle" and not block.head.when.exact:
        return flaw(
            "rough-all",
            "“all” needs an exact day",
            "Write the date as 2027-03-06, or name the trees.",
        )
    if item.by == "all":
        return None
    if item.by == "kind":
        # One is enough: of thousands of trees the first few tell it.
        trees = (thing for thing in things.by_handle.values() if thing.kind == "tree")
        if any(has_kind(tree.text("kind"), item.words) for tree in trees):
            return None
        meant = handles_meant(f"all {item.words}", things)
        return flaw(
            "unknown-kind",
            f"no tree is of the kind “{item.words}”",
            f"Did you mean “{meant}”?"
            if meant
            else "Write the words as they stand on the cards: all trident maple.",
        )
    thing = things.find(item.words)
    if item.by == "handle":
        if thing is not None or fold(item.words) in uncarded:
            return None
        hint = _WHOSE if item.words in NOBODYS else things.nearest(item.words)
        return flaw("unknown-handle", f"nothing is called “{item.words}”", hint)
    kind = "place" if item.by == "in" else "person"
    if thing is None:
        return flaw(
            "unknown-handle",
            f"no {kind} is called “{item.words}”",
            things.nearest(item.words, kind),
        )
    if thing.kind != kind:
        return flaw(
            "wrong-kind", f"“{item.words}” is a {thing.kind}, not a {kind}", _how_chosen(thing)
        )
    return None


# Below these stand jotted lines of which nobody could tell whose they are.
NOBODYS = ("whose", "whose-is-it", "nobody-knows-whose")
_WHOSE = "A jotted line did not say whose it is: put the handle of its tree in the place of this."


def _nobody(item: Selection) -> Flaw:
    """That a choice means no tree on its day: what stands below would be lost in silence."""
    said, hint = {
        "in": (
            f"no tree stands in “{item.words}” just before this line",
            "They stand where they were moved last; name the trees, or that place.",
        ),
        "of": (f"no tree of “{item.words}” is here just before this line", "Name the trees."),
        "handle": (f"no tree stands on the card of “{item.words}”", "Name the trees."),
    }.get(item.by, ("no such tree is here just before this line", "Name the trees."))
    length = max(len(item.words), 3)
    message = f"{said}, so it means nobody"
    return Flaw("nobody-meant", 0, item.offset + 1, length, message, hint, "warning")


def flaw_of_exception(
    item: Selection, block: DatedBlock, things: Things, uncarded: Container[str] = ()
) -> Flaw | None:
    """What is wrong with one of those that a subject line leaves out: then all of it is held back.

    A handle there is of a tree or a group, or of what the line itself names.
    """
    if item.by == "handle" and any(
        one.by == "handle" and fold(one.words) == fold(item.words) for one in block.subjects.chosen
    ):
        return None
    flaw = flaw_of_choice(item, block, things, uncarded)
    if flaw is None and item.by == "handle":
        thing = things.find(item.words)
        if thing is not None and thing.kind not in ("tree", "group"):
            flaw = Flaw(
                "wrong-kind",
                0,
                item.offset + 1,
                len(item.words),
                f"“{item.words}” is a {thing.kind}, not a tree or a group",
                _how_chosen(thing),
            )
    return flaw and replace(flaw, message=f"{flaw.message}, {HOLDS_BLOCK}")


HOLDS_BLOCK = "so all below this line is held back and changes nothing"
# How a subject line names a thing of each kind.
_CHOSEN = {"tree": "", "group": "", "place": "all in ", "person": "all of "}


def _how_chosen(thing: Thing) -> str:
    if thing.kind in _CHOSEN:
        return f"Write {_CHOSEN[thing.kind]}{thing.handle}."
    return f"Its card stands in {thing.origin}."
