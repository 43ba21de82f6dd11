"""The frozen values that tell of a tree on one day: its history, its zones and what is on it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping
from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.collection.batch import Batch
from backbud.journal.events import Event
from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.forms import Trait
from backbud_grammar.handles import fold
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

Standing = Literal["not yet", "here", "sold", "lent", "returned", "died", "lost"]


class Entry(Struct, frozen=True, gc=False):
    """An event in one tree's history.

    `among`: how many trees share what is a total in it, 1 where every measure is for each tree.
    `corrected_by`: the later line that changed it; the event is as corrected, and `as_written`
    is what first stood there. `totals`: a measure counts for all trees together unless it says
    `each`; else for each tree unless it says `together`. `batch`: how many there are after it, of a
    batch, where it counted them; `of`: to how many of it the line was done, None where to all.
    `within`: the handle of the batch that the tree was one of then.
    """

    event: Event
    among: int = 1
    corrected_by: Event | None = None
    as_written: Event | None = None
    totals: bool = False
    batch: Batch | None = None
    of: int | None = None
    within: str = ""

    @property
    def undone(self) -> bool:
        """Whether a later line says that it never happened."""
        return self.corrected_by is not None and self.event.has("not done")

    def divided_by(self, detail: Detail) -> int:
        """By how many a measure of this entry is divided to have this tree's part of it."""
        together = detail.share == "together" or (self.totals and detail.share != "each")
        return self.among if together else 1


class OnTree(Struct, frozen=True, gc=False):
    """Something that was put on the tree or into its pot and is still there.

    `sort`: wire, guy, wrap, tie, mesh, protection (against weather), guard
    (against animals), shade, layer, graft. `what`: as a person says
    it ("2.5 mm Al"). `from_before`: it was there before the last potting, so it should be out.
    `lies`: it lies on the ground or the soil, and stays there when the tree is lifted out of it.
    """

    sort: str
    what: str
    part: str
    count: int
    since: date
    event: Event
    thickness_mm: float | None = None
    from_before: bool = False
    lies: bool = False


class Zone(Struct, frozen=True, gc=False):
    """How a zone of the tree grows: 1 (weakest) to 5, and the day that was seen."""

    name: str
    score: int
    day: date


class LeftBehind(Struct, frozen=True, gc=False):
    """A shelter that lay where a tree stood, and the act that lifted the tree out of it."""

    thing: OnTree
    by: Event


class ChangeOfPlace(Struct, frozen=True, gc=False):
    """That a tree went from one place to another, by an act; handles of places, "" for home.

    `came_from`: None where it came from elsewhere: from its owner, out of a nursery.
    """

    event: Event
    came_from: str | None
    to: str


class Tree(Struct, frozen=True):
    """A tree on a day, after everything that was done up to and on it.

    `handle`: as its card has it now; `first_handle`: its oldest, from which ids are made.
    `kind`: the species as written, without the cultivar. `owner` "": the keeper's own;
    "?": somebody's whom its card does not name so that he is found.
    Sizes are measures as written. `last`: the last event of each act. `history`: oldest first.
    `opened`: root wedges, by the front it has now, with the day each was last opened.
    `outside`: the place with no winter cover where it last stood, "" where there was none.
    `batch`: how many there are, where the handle stands for more than one; `parted_from`: the
    handle of the batch that it was one of. `move`: the last that brought it to where it stands.
    `left_behind`: what lay on the ground or its soil, and is no more on it.
    """

    handle: str
    first_handle: str
    name: str
    kind: str
    cultivar: str
    standing: Standing
    standing_since: date | None
    owner: str
    place: str
    pot: str
    mix: str
    strength: str
    planted_out: bool
    quarantined: bool
    wanted: str
    sizes: Mapping[str, Measure]
    facts: Mapping[str, str]
    zones: tuple[Zone, ...]
    opened: tuple[tuple[str, date], ...]
    on_tree: tuple[OnTree, ...]
    last: Mapping[ActWord, Event]
    history: tuple[Entry, ...]
    since: date | None = None
    outside: str = ""
    batch: Batch | None = None
    parted_from: str = ""
    move: ChangeOfPlace | None = None
    left_behind: tuple[LeftBehind, ...] = ()

    def moved_by(self, done: Event) -> ChangeOfPlace | None:
        """From where to where an act took it, if that was the last to do so; None where it took
        nothing away: only some of a batch, or to where it stood already."""
        return self.move if self.move is not None and self.move.event is done else None

    @property
    def count(self) -> int:
        """How many trees stand under the handle; 1 where nobody has counted them, and for trays."""
        if self.batch is None or self.batch.in_containers:
            return 1
        return self.batch.count or 1

    @property
    def is_batch(self) -> bool:
        """Whether the handle stands for more than one tree, or for seed, on that day."""
        batch = self.batch
        return batch is not None and (batch.count != 1 or batch.in_containers)

    @property
    def counted(self) -> str:
        """`50 cuttings`; "" for one tree, and for what is not here."""
        return self.batch.said if self.batch is not None and self.is_batch and self.here else ""

    @property
    def here(self) -> bool:
        return self.standing == "here"

    @property
    def title(self) -> str:
        """The name a person reads: the card's name, or the handle."""
        return self.name or self.handle

    @property
    def weak(self) -> bool:
        return self.strength == "weak"

    def on(self, *sorts: str) -> tuple[OnTree, ...]:
        """What of these sorts is on the tree."""
        return tuple(thing for thing in self.on_tree if thing.sort in sorts)

    def last_of(self, *acts: ActWord) -> Event | None:
        """The latest event of any of these acts."""
        found = [self.last[act] for act in acts if act in self.last]
        return max(found, key=lambda e: e.order, default=None)

    def last_with(self, *traits: Trait) -> Event | None:
        """The latest event of any act that has one of these traits, a plugin's too."""
        wanted = set(traits)
        found = (as_act(act) for act, e in self.last.items() if not wanted.isdisjoint(e.row.traits))
        return self.last_of(*found)

    def began_another(self, event: Event) -> bool:
        """Whether cuttings or seed of this tree began another, under a handle of its own."""
        if "raised" not in event.row.traits:
            return False
        new = event.first("as")
        mine = (fold(self.handle), fold(self.first_handle))
        return new is not None and fold(new.words) not in mine

    def done_between(self, first: date, last: date) -> tuple[Entry, ...]:
        """The entries of a span of days, both included: a history is in the order of days."""
        begin = bisect_left(self.history, first, key=_day_of)
        return self.history[begin : bisect_right(self.history, last, begin, key=_day_of)]

    def done_since(self, day: date, *acts: ActWord) -> bool:
        """Whether any of these acts was done on or after the day."""
        last = self.last_of(*acts)
        return last is not None and last.day >= day


def _day_of(entry: Entry) -> date:
    return entry.event.when.first
