"""A tree as it is shown: what it is, what is on it, how it grows, what is due and what was done."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from types import MappingProxyType

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.state import Entry, OnTree, Standing, Tree
from backbud.collection.zones import WHOLE_TREE, zone_scores
from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan
from backbud.tongue import phrase
from backbud.views.day import FAR, due, open_works_of, settled_works, told_works_of
from backbud.views.for_keeper import is_fact_for_keeper
from backbud.views.history import (
    DateView,
    EntryView,
    LateView,
    ToldHistory,
    date_view,
    told_history,
)
from backbud.views.life import WireView, wires_of
from backbud.views.photograph import PhotographView
from backbud.views.work import WorkView
from backbud_grammar.dates import read_span
from backbud_grammar.problems import Misread

# Labels of a card that are shown apart from its other facts, or that only the compiler needs.
_APART = frozenset(
    {"kind", "name", "since", "formerly", "owner", "place", "pot", "mix", "strength", "wanted",
     "trunk", "height", "spread", "root ball", "wedges"}
)  # fmt: skip
NONE_LATE: Mapping[str, LateView] = MappingProxyType({})


class FactView(Struct, frozen=True, gc=False):
    """A label of a tree's card and its value; `private`: for the keeper's eyes only."""

    label: str
    value: str
    private: bool


class BatchView(Struct, frozen=True):
    """How many stand under one handle.

    `count`: null where nobody has counted; `of`: what is counted (cuttings, seedlings, trays), ""
    where nobody said; `said`: both, as a person says it. `rooted`, `potted_on`: how many had roots,
    or were potted on, by the day beside it; null where nobody told. `at_least`: there may be more
    of those potted on.
    """

    count: int | None
    of: str
    said: str
    rooted: int | None
    rooted_on: date | None
    potted_on: int | None
    potted_on_day: date | None
    at_least: bool

    def parts(self) -> tuple[tuple[str, date], ...]:
        """How many of them have got how far, each as a person says it, and by which day."""
        least = phrase("at least ") if self.at_least else ""
        told = (
            (phrase("{rooted} rooted", rooted=self.rooted), self.rooted, self.rooted_on),
            (
                phrase("{least}{potted_on} potted on", least=least, potted_on=self.potted_on),
                self.potted_on,
                self.potted_on_day,
            ),
        )
        return tuple((words, day) for words, number, day in told if number and day is not None)


class ThingView(Struct, frozen=True, gc=False):
    """Something that is on the tree or in its pot.

    `sort`: wire, guy, wrap, tie, mesh, protection, shade, layer, graft. `what`: as a person says it
    (`2.5 mm Al`); `part`: where on the tree, "" where it is for all of it. `from_before`: a tie
    from before the last potting that is not said to be out. `bites`: the day it is reckoned to
    bite, null for what does not. `file`, `line`: the line of the diary that put it there.
    """

    sort: str
    what: str
    part: str
    count: int
    thickness_mm: float | None
    since: date
    from_before: bool
    bites: date | None
    file: str
    line: int

    @property
    def at(self) -> str:
        """`diary/2027.txt:12`, "" where it is not to be told."""
        return f"{self.file}:{self.line}" if self.file else ""


class TreeView(Struct, frozen=True, kw_only=True):
    """A tree on a day.

    `tree`: its handle; `name`: what people call it. `kind`: the species as written, `botanical` its
    botanical name, "" where no species is known. `standing_since`: since when it is gone. `owner`,
    `place`, `pot`, `mix`: handles ("" for none; an owner "" is the keeper), with the `_name` of
    each. `since`: the day it came; `since_written`: as the card has it, where that is rougher.
    `wanted`: by when its owner wants it back, as written, and `wanted_by` the days that can mean.
    `sizes`: as written, with their units. `vigour`: of each zone, 1 (weakest) to 5, and
    `vigour_seen` when it was looked at; `looks`: the same of every look, where zones were told
    apart. `opened`: the wedges of the root ball, each with the day it was last opened;
    `wedges_next`: those that the next work on the roots opens; `wedges`: how many the ball is told
    apart in, null where nobody said. `facts`: what else its card says. `last`: of each act the
    date as written. `history`, `photographs`: oldest first. `wires`: each time for which wire
    was on it. `batch`: how many there are, where the handle stands for more than one tree;
    `parted_from`: the handle of the batch that it was one of. `due`: what still wants doing, what
    stands first first; `settled`: what was done or skipped within a year, the latest first.
    """

    tree: str
    name: str
    kind: str
    cultivar: str
    botanical: str
    standing: Standing
    standing_since: date | None
    since: date | None
    since_written: DateView | None
    owner: str
    owner_name: str
    place: str
    place_name: str
    pot: str
    pot_name: str
    mix: str
    mix_name: str
    strength: str
    planted_out: bool
    quarantined: bool
    wanted: str
    wanted_by: DateView | None
    sizes: dict[str, str]
    vigour: dict[str, int]
    vigour_seen: dict[str, date]
    looks: dict[date, dict[str, int]]
    opened: dict[str, date]
    wedges_next: tuple[str, ...]
    wedges: int | None
    facts: tuple[FactView, ...]
    on_it: tuple[ThingView, ...]
    last: dict[str, str]
    history: tuple[EntryView, ...]
    photographs: tuple[PhotographView, ...]
    due: tuple[WorkView, ...]
    settled: tuple[WorkView, ...]
    wires: tuple[WireView, ...] = ()
    batch: BatchView | None = None
    parted_from: str = ""

    @property
    def here(self) -> bool:
        return self.standing == "here"

    @property
    def weak(self) -> bool:
        return self.strength == "weak"


class ListedView(Struct, frozen=True, kw_only=True):
    """A tree's line among all trees; `next`: the work that stands first among what it wants;
    `counted`: how many there are (`44 seedlings`), "" for one tree."""

    tree: str
    name: str
    kind: str
    cultivar: str
    standing: Standing
    standing_since: date | None
    since: date | None
    since_written: DateView | None
    owner_name: str
    place_name: str
    next: WorkView | None
    counted: str = ""

    @property
    def here(self) -> bool:
        return self.standing == "here"


class TreesView(Struct, frozen=True):
    """All trees in three parts, each by name: the keeper's `own`, those of `others` by their
    owner's name first, and those that are `gone`."""

    own: tuple[Tree, ...]
    others: tuple[Tree, ...]
    gone: tuple[Tree, ...]


def trees_view(trees: Iterable[Tree], names: Mapping[str, str]) -> TreesView:
    """All trees as they are listed."""
    in_order = sorted(trees, key=lambda tree: (tree.title.casefold(), tree.handle))
    here = [tree for tree in in_order if tree.here]
    return TreesView(
        tuple(tree for tree in here if not tree.owner),
        tuple(
            sorted(
                (tree for tree in here if tree.owner),
                key=lambda tree: _name(names, tree.owner).casefold(),
            )
        ),
        tuple(tree for tree in in_order if not tree.here),
    )


def tree_view(
    tree: Tree,
    plans: Sequence[FollowUp],
    names: Mapping[str, str],
    today: date,
    *,
    botanical: str = "",
    bites: Sequence[date | None] = (),
    photographs: tuple[PhotographView, ...] = (),
    late: Mapping[str, LateView] = NONE_LATE,
    told: ToldHistory | None = None,
) -> TreeView:
    """A tree as it is shown on a day. `names`: what people call each person, place, pot and mix, by
    handle. `bites`: for each thing on it the day it is reckoned to bite. `late`: by where they
    stand the lines that were written long after their day, of whichever tree. `told`: its history,
    where somebody has gone through it already."""
    told = told or told_history(tree.history)
    works = told_works_of(plans, tree, names, today)
    said = tree.facts.get("wedges", "")
    count = int(said) if said.isdecimal() else 0
    return TreeView(
        tree=tree.handle,
        name=tree.title,
        kind=tree.kind,
        cultivar=tree.cultivar,
        botanical=botanical,
        standing=tree.standing,
        standing_since=tree.standing_since,
        since=tree.since,
        since_written=_days_of(tree.facts.get("since", "")),
        owner=tree.owner,
        owner_name=_name(names, tree.owner),
        place=tree.place,
        place_name=_name(names, tree.place),
        pot=tree.pot,
        pot_name=_name(names, tree.pot),
        mix=tree.mix,
        mix_name=_name(names, tree.mix),
        strength=tree.strength,
        planted_out=tree.planted_out,
        quarantined=tree.quarantined,
        wanted=tree.wanted,
        wanted_by=_days_of(tree.wanted),
        sizes={label: str(measure) for label, measure in tree.sizes.items()},
        vigour={zone.name: zone.score for zone in tree.zones},
        vigour_seen={zone.name: zone.day for zone in tree.zones},
        looks=_looks(told.of_zones),
        opened=dict(tree.opened),
        wedges_next=next((one.wedges for one in works if one.wedges and one.is_open), ()),
        wedges=count if count >= 2 else None,
        facts=tuple(
            FactView(label, tree.facts[label], is_fact_for_keeper(label))
            for label in sorted(tree.facts)
            if label not in _APART and tree.facts[label]
        ),
        on_it=tuple(
            _thing(thing, bite)
            for thing, bite in zip(tree.on_tree, bites or (None,) * len(tree.on_tree), strict=True)
        ),
        last={act: event.when.text for act, event in tree.last.items()},
        history=_with_late(told.lines, late),
        photographs=photographs,
        due=due(works, today, FAR),
        settled=settled_works(works, today),
        wires=wires_of(told.of_wire),
        batch=_batch(tree),
        parted_from=tree.parted_from,
    )


def _with_late(lines: tuple[EntryView, ...], late: Mapping[str, LateView]) -> tuple[EntryView, ...]:
    if not late:
        return lines
    return tuple(replace(one, late=late[one.at]) if one.at in late else one for one in lines)


def planned_tree_view(
    plan: Plan,
    handle: str,
    names: Mapping[str, str],
    today: date,
    photographs: tuple[PhotographView, ...] = (),
    late: Mapping[str, LateView] = NONE_LATE,
) -> TreeView:
    """A tree of a plan as it is shown on a day."""
    species = plan.species[handle]
    return tree_view(
        plan.trees[handle],
        plan.follow_ups[handle],
        names,
        today,
        botanical=species.botanical if species else "",
        bites=plan.bites.get(handle, ()),
        photographs=photographs,
        late=late,
    )


def listed_view(
    tree: Tree, plans: Iterable[FollowUp], names: Mapping[str, str], today: date
) -> ListedView:
    """A tree as it is shown among all trees, with the work that stands first on its own page."""
    found = due(open_works_of(plans, tree, names, today), today, FAR)
    return ListedView(
        tree=tree.handle,
        name=tree.title,
        kind=tree.kind,
        cultivar=tree.cultivar,
        standing=tree.standing,
        standing_since=tree.standing_since,
        since=tree.since,
        since_written=_days_of(tree.facts.get("since", "")),
        owner_name=_name(names, tree.owner),
        place_name=_name(names, tree.place),
        next=found[0] if found else None,
        counted=tree.counted,
    )


def _name(names: Mapping[str, str], handle: str) -> str:
    return names.get(handle) or handle


def _days_of(text: str) -> DateView | None:
    """A date or span as written on a card; None where it is none."""
    try:
        return date_view(read_span(text)) if text else None
    except Misread:
        return None


def _batch(tree: Tree) -> BatchView | None:
    """How many there are; None for one tree, and for what is not here."""
    batch = tree.batch
    if batch is None or not tree.here or not tree.is_batch:
        return None
    return BatchView(
        batch.count,
        batch.of,
        batch.said,
        batch.rooted,
        batch.rooted_on,
        batch.potted_on,
        batch.potted_on_day,
        batch.at_least,
    )


def _thing(thing: OnTree, bites: date | None) -> ThingView:
    event = thing.event
    return ThingView(
        thing.sort,
        thing.what,
        thing.part,
        thing.count,
        thing.thickness_mm,
        thing.since,
        # Mesh stays in its pot.
        thing.from_before and thing.sort == "tie",
        bites,
        event.file,
        event.line,
    )


def _looks(of_zones: Iterable[Entry]) -> dict[date, dict[str, int]]:
    """How each zone grew at every look, by the lines that may tell; nothing where it was only
    looked at as a whole."""
    looks: dict[date, dict[str, int]] = {}
    for entry in of_zones:
        when = entry.event.when
        if not when.exact or (entry.corrected_by is not None and entry.undone):
            continue
        if scores := zone_scores(entry.event):
            looks.setdefault(when.first, {}).update(scores)
    named = {zone for scores in looks.values() for zone in scores} - {WHOLE_TREE}
    return looks if named else {}
