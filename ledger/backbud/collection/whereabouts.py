"""Dated pages go in; each thing's own history comes out, with every subject line made plain.

The replay runs in the order of the pages and keeps only what a subject line can ask for: where
each tree stands, whose it is, whether it is here, and which pot it is in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import partial

from msgspec import Struct

from backbud.collection.state import Entry, Standing
from backbud.journal.events import Event
from backbud.journal.notes import Notes
from backbud.journal.read import DatedBlock, DatedPage, Journal
from backbud.journal.things import Thing, Things, members
from backbud_grammar.dates import WrittenDate, read_date
from backbud_grammar.handles import flaw_of, fold
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Selection

ARRIVALS = frozenset({"received", "bought", "collected", "sown", "struck"})
DEPARTURES: Mapping[str, Standing] = {
    "sold": "sold", "lent": "lent", "returned": "returned", "died": "died", "lost": "lost",
}
# What may be written of a tree that is not here.
ANYWHERE = ARRIVALS | {
    "noted", "private", "agreed", "billed", "paid", "planned", "skipped", "put-off", "corrected",
    "valued", "returned", "died", "lost", "sold",
}


class Whereabouts(Struct, gc=False):
    """Where a tree is, as the replay goes on; only this module changes it.

    `began`: how it stood before the first line of the diary.
    """

    handle: str
    first_handle: str
    kind: str
    owner: str
    place: str
    pot: str
    standing: Standing
    standing_since: date | None
    since: WrittenDate | None
    entries: list[Entry]
    began: Standing = "here"


class Histories(Struct, frozen=True):
    """Every tree's history and last whereabouts, by handle; and what was done to other things."""

    trees: Mapping[str, Whereabouts]
    others: Mapping[str, tuple[Event, ...]]


def replay(journal: Journal) -> Histories:
    """Replay the whole journal; what cannot have been so is noted."""
    return _Replay(journal).run()


class _Replay:
    def __init__(self, journal: Journal) -> None:
        self.journal = journal
        self.things: Things = journal.things
        self.notes: Notes = journal.notes
        self.trees: dict[str, Whereabouts] = {}
        self.others: dict[str, list[Event]] = {}
        self.spellings: dict[str, str] = {}
        self.corrections = _corrections(journal)
        self.inside = _places_inside(self.things)
        self.handlers: dict[str, Callable[[Whereabouts, Event], None]] = {
            "moved": self._moved, "planted-out": self._moved, "quarantined": self._moved,
            "repotted": self._potted, "potted-on": self._potted, "slipped": self._potted,
            "sown": self._arrived, "struck": self._arrived,
            "received": self._arrived, "bought": self._arrived, "collected": self._arrived,
            "separated": self._separated,
            **{act: partial(self._left, standing) for act, standing in DEPARTURES.items()},
        }

    def run(self) -> Histories:
        arrived = _first_comings(self.journal)
        for thing in self.things.of_kind("tree"):
            standing: Standing = "not yet" if thing.handle in arrived else "here"
            self.trees[thing.handle] = Whereabouts(
                thing.handle, thing.first_handle, _kind_words(thing.text("kind")),
                self._named(thing, "owner"), self._named(thing, "place"),
                self._named(thing, "pot"), standing, None, thing.since, [], standing)
        self._check_pots_on_cards()
        for page in self.journal.pages:
            for block in page.blocks:
                self._block(page, block)
        return Histories(self.trees, {h: tuple(events) for h, events in self.others.items()})

    def _named(self, thing: Thing, label: str) -> str:
        """The canonical handle of what a card's label refers to."""
        written = thing.text(label)
        found = self.things.find(written) if written else None
        return found.handle if found else ""

    def _canonical(self, written: str) -> str:
        found = self.things.find(written)
        return found.handle if found else ""

    # -------------------------------------------------------------- a block

    def _block(self, page: DatedPage, block: DatedBlock) -> None:
        chosen = self._resolve(block.subjects.chosen, page, block)
        if block.subjects.left_out:
            left_out = set(self._resolve(block.subjects.left_out, page, block))
            chosen = [handle for handle in chosen if handle not in left_out]
        trees: list[Whereabouts] = []
        for handle in chosen:
            tree = self.trees.get(handle)
            if tree is not None:
                trees.append(tree)
        for event in block.events:
            if len(trees) != len(chosen):
                self._on_others(event, chosen)
            if trees and "tree" in self.journal.acts[event.act].on:
                self._on_trees(event, trees)
            elif trees:
                self._wrong_subject(event, trees[0].handle, "tree")

    def _on_trees(self, event: Event, trees: list[Whereabouts]) -> None:
        act = event.act
        handler = self.handlers.get(act)
        among = len(trees)
        for tree in trees:
            if tree.standing != "here" and act not in ANYWHERE:
                self._not_here(event, tree)
            elif tree.since is not None and event.when.last < tree.since.first and (
                act not in ARRIVALS
            ):
                self._too_early(event, tree)
            meant = event
            entry: Entry | None = None
            if self.corrections:
                correction = self.corrections.get((tree.handle, act, event.when.first))
                if correction is not None and act != "corrected":
                    entry = _as_corrected(event, correction, among)
                    self.corrections[(tree.handle, act, event.when.first)] = None
                    meant = entry.event
            tree.entries.append(entry or Entry(event, among))
            if handler is not None and not meant.has("not done"):
                handler(tree, meant)
        if act == "corrected":
            self._check_correction(event, trees)

    def _on_others(self, event: Event, chosen: list[str]) -> None:
        for handle in chosen:
            if handle in self.trees:
                continue
            thing = self.things.by_handle[handle]
            if thing.kind not in self.journal.acts[event.act].on:
                self._wrong_subject(event, handle, thing.kind)
            else:
                self.others.setdefault(handle, []).append(event)

    # -------------------------------------------------------------- a subject line

    def _resolve(
        self, selections: Iterable[Selection], page: DatedPage, block: DatedBlock
    ) -> list[str]:
        """The canonical handles that are meant, each once, in the order written."""
        out: dict[str, None] = {}
        for item in selections:
            if item.by == "handle":
                self._one(item, page, block, out)
            elif not page.when.exact:
                self._note(page, block, item, "rough-all", "“all” needs an exact day",
                           "Write the date as 2027-03-06, or name the trees.")
            else:
                out.update(dict.fromkeys(self._all(item, page, block)))
        return list(out)

    def _one(
        self, item: Selection, page: DatedPage, block: DatedBlock, out: dict[str, None]
    ) -> None:
        if item.words in self.trees:
            out[item.words] = None
            return
        thing = self.things.find(item.words)
        if thing is not None and thing.kind == "group":
            for member in members(thing):
                found = self.things.find(member)
                if found is not None and found.kind == "tree":
                    out[found.handle] = None
        elif thing is not None:
            out[thing.handle] = None
        elif fold(item.words) in self.spellings:
            out[self.spellings[fold(item.words)]] = None
        else:
            self._note(page, block, item, "unknown-handle",
                       f"nothing is called “{item.words}”", self.things.nearest(item.words))

    def _all(self, item: Selection, page: DatedPage, block: DatedBlock) -> list[str]:
        here = [tree for tree in self.trees.values() if tree.standing == "here"]
        if item.by == "all":
            return [tree.handle for tree in here]
        if item.by == "kind":
            words = _kind_words(item.words)
            found = [t.handle for t in here if f" {words} " in f" {t.kind} "]
            if not found and not any(f" {words} " in f" {t.kind} " for t in self.trees.values()):
                self._note(page, block, item, "unknown-kind",
                           f"no tree is of the kind “{item.words}”",
                           "Write the words as they stand on the cards: all trident maple.")
            return found
        kind = "place" if item.by == "in" else "person"
        thing = self.things.find(item.words)
        if thing is None or thing.kind != kind:
            self._note(page, block, item, "unknown-handle", f"no {kind} is called “{item.words}”",
                       self.things.nearest(item.words, kind))
            return []
        if kind == "person":
            return [tree.handle for tree in here if tree.owner == thing.handle]
        inside = self.inside[thing.handle]
        return [tree.handle for tree in here if tree.place in inside]

    def _note(
        self, page: DatedPage, block: DatedBlock, item: Selection, code: str, message: str,
        hint: str,
    ) -> None:
        self.notes.add(page.file, block.line - 1,
                       Flaw(code, 0, item.offset + 1, max(len(item.words), 3), message, hint))

    # -------------------------------------------------------------- what an act does

    def _moved(self, tree: Whereabouts, event: Event) -> None:
        to = event.first("to")
        if to is not None:
            tree.place = self._canonical(to.handle) or tree.place

    def _potted(self, tree: Whereabouts, event: Event) -> None:
        into = event.first("into")
        if into is None:
            return
        pot = self._canonical(into.handle)
        if pot:
            self._check_pot(tree, pot, event)
            tree.pot = pot

    def _check_pot(self, tree: Whereabouts, pot: str, event: Event) -> None:
        for other in self.trees.values():
            if other.pot == pot and other is not tree and other.standing == "here":
                self.notes.at(event.origin, "pot-taken",
                              f"“{other.handle}” stands in “{pot}”",
                              f"Repot {other.handle} first, or name another pot.", 0,
                              len(event.act))

    def _arrived(self, tree: Whereabouts, event: Event) -> None:
        tree.standing, tree.standing_since = "here", event.day
        self._potted(tree, event)

    def _left(self, standing: Standing, tree: Whereabouts, event: Event) -> None:
        to = event.first("to")
        if standing == "sold" and to is not None:
            tree.owner = self._canonical(to.handle) or tree.owner
        if event.says("stays"):
            return
        tree.standing, tree.standing_since = standing, event.day

    def _separated(self, tree: Whereabouts, event: Event) -> None:
        new = event.first("as")
        if new is None:
            return
        handle = new.words
        carded = self.things.find(handle)
        if carded is not None and carded.kind == "tree":
            child = self.trees[carded.handle]
            child.standing, child.standing_since = "here", event.day
            child.entries.append(Entry(event))
            return
        wrong = flaw_of(handle)
        if wrong or carded is not None or fold(handle) in self.spellings:
            self.notes.at(event.origin, "bad-handle", wrong or f"“{handle}” is taken",
                          "Choose another handle for the new tree.", 0, len(event.act))
            return
        self.spellings[fold(handle)] = handle
        self.trees[handle] = Whereabouts(
            handle, handle, tree.kind, tree.owner, tree.place, "", "here", event.day, event.when,
            [Entry(event)], "not yet")

    # -------------------------------------------------------------- what cannot be

    def _check_pots_on_cards(self) -> None:
        taken: dict[str, str] = {}
        for thing in self.things.of_kind("tree"):
            tree = self.trees[thing.handle]
            if tree.pot and tree.standing == "here":
                first = taken.setdefault(tree.pot, tree.handle)
                if first != tree.handle:
                    self.notes.at(thing.origin, "pot-taken",
                                  f"“{first}” stands in “{tree.pot}” too",
                                  "A pot holds one tree; write the later one in the diary.", 0,
                                  len(thing.kind))

    def _not_here(self, event: Event, tree: Whereabouts) -> None:
        if tree.standing == "not yet":
            message = f"“{tree.handle}” is not here yet"
            hint = "Its first coming is written later in the diary."
        else:
            message = f"“{tree.handle}” is not here: {tree.standing} on {tree.standing_since}"
            hint = "If it came back, write received first."
        self.notes.at(event.origin, "not-here", message, hint, 0, len(event.act))

    def _too_early(self, event: Event, tree: Whereabouts) -> None:
        assert tree.since is not None
        self.notes.at(event.origin, "before-since",
                      f"“{tree.handle}” is on its card since {tree.since.text}, after this day",
                      "Mend the date here, or “since” on the card.", 0, len(event.act))

    def _wrong_subject(self, event: Event, handle: str, kind: str) -> None:
        on = self.journal.acts[event.act].on
        self.notes.at(event.origin, "wrong-subject",
                      f"“{handle}” is a {kind}, and “{event.act}” is done to a "
                      f"{' or a '.join(on)}", "", 0, len(event.act))

    def _check_correction(self, event: Event, trees: list[Whereabouts]) -> None:
        date_detail = event.first("date")
        for tree in trees:
            key = (tree.handle, event.named, _day_of(event, self.journal.southern))
            if self.corrections.get(key, event) is not None:
                shown = date_detail.date if date_detail else "?"
                self.notes.at(event.origin, "nothing-to-correct",
                              f"“{tree.handle}” has no {event.named} on {shown}",
                              "Write it as: corrected repotted 2027-03-06, 1 cm off below", 0,
                              len(event.act))


Corrections = dict[tuple[str, str, date], Event | None]


def _corrections(journal: Journal) -> Corrections:
    """Every correction by tree, act and day; the later one counts."""
    found: Corrections = {}
    for page in journal.pages:
        for block in page.blocks:
            for event in block.events:
                if event.act != "corrected":
                    continue
                day = _day_of(event, journal.southern)
                for handle in _plain_handles(block, journal.things):
                    found[(handle, event.named, day)] = event
    return found


def _day_of(event: Event, southern: bool) -> date:
    detail = event.first("date")
    if detail is None:
        return date.min
    try:
        return read_date(detail.date, southern).first
    except Misread:
        return date.min


def _plain_handles(block: DatedBlock, things: Things) -> list[str]:
    """The trees a subject line names outright or by a group, canonical."""
    out: list[str] = []
    for item in block.subjects.chosen:
        thing = things.find(item.words) if item.by == "handle" else None
        if thing is None:
            if item.by == "handle":
                out.append(item.words)
            continue
        names = members(thing) if thing.kind == "group" else [thing.handle]
        out += [found.handle for name in names if (found := things.find(name)) is not None]
    return out


def _as_corrected(event: Event, correction: Event, among: int) -> Entry:
    """The event with the details that the correction names replaced, and both kept."""
    named = tuple(d for d in correction.details if d.name != "date")
    names = {d.name for d in named}
    details = (*(d for d in event.details if d.name not in names), *named)
    meant = Event(event.act, event.when, details, event.text, event.remark, event.named,
                  event.subjects, event.file, event.line, event.column)
    return Entry(meant, among, correction, event)


def _first_comings(journal: Journal) -> set[str]:
    """The trees whose first coming or going in the diary is a coming: not here before it."""
    first: dict[str, bool] = {}
    for page in journal.pages:
        for block in page.blocks:
            for event in block.events:
                arrives = event.act in ARRIVALS
                if arrives or event.act in DEPARTURES:
                    for handle in _plain_handles(block, journal.things):
                        first.setdefault(handle, arrives)
                elif event.act == "separated":
                    new = event.first("as")
                    found = journal.things.find(new.words) if new is not None else None
                    if found is not None:
                        first.setdefault(found.handle, True)
    return {handle for handle, arrives in first.items() if arrives}


def _places_inside(things: Things) -> dict[str, frozenset[str]]:
    """For each place the places within it, itself included."""
    outer: dict[str, str] = {}
    for place in things.of_kind("place"):
        within = things.find(place.text("within")) if place.text("within") else None
        outer[place.handle] = within.handle if within else ""
    inside: dict[str, set[str]] = {handle: {handle} for handle in outer}
    for handle in outer:
        at, steps = outer[handle], 0
        while at in inside and steps <= len(outer):
            inside[at].add(handle)
            at, steps = outer[at], steps + 1
    return {handle: frozenset(names) for handle, names in inside.items()}


def _kind_words(kind: str) -> str:
    return " ".join(kind.split("'")[0].casefold().split())
