"""Works out what one tree was on a day, from its card and as much of its history as lies before.

The replay settles whose history a line belongs to; all else a tree is, its sizes, strength and
wedges, is folded here and only when somebody asks.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, timedelta
from typing import Literal, get_args

from backbud.collection.attached import Attached
from backbud.collection.batch import ARRIVALS
from backbud.collection.on_tree import Effect, put_on_by, take_off
from backbud.collection.places import cover_of, is_winter_cover
from backbud.collection.stand import (
    DEPARTURES,
    Stand,
    canonical,
    is_its_beginning,
    part_off,
    stands_after,
    start_on_card,
)
from backbud.collection.state import ChangeOfPlace, Entry, LeftBehind, Tree, Zone
from backbud.collection.told_on_card import told_on_card
from backbud.collection.wedges import Opening, opened, openings, root_map, turned
from backbud.collection.whereabouts import Histories, Whereabouts
from backbud.collection.zones import WHOLE_TREE, zone_scores
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud_grammar.act_words import ActWord, DetailName, as_act
from backbud_grammar.by_row import by_row
from backbud_grammar.dates import in_extended_format
from backbud_grammar.forms import ActForm
from backbud_grammar.measures import Measure

# Said on a card, and measured in the diary.
_SizeName = Literal["trunk", "height", "root ball", "spread", "nebari", "girth"]
SIZES: tuple[_SizeName, ...] = get_args(_SizeName)
FRESH: tuple[DetailName, ...] = ("imported", "bare-rooted", "weak")
# How long a zone's vigour still speaks for the tree: ours, no source.
VIGOUR_COUNTS = timedelta(days=365)


class _Draft(Stand, kw_only=True):
    """A tree while its history is folded; frozen into a `Tree` when asked."""

    at: Whereabouts
    things: Things
    kind: str
    cultivar: str
    name: str
    mix: str
    strength: str
    quarantined: bool = False
    wanted: str
    outside: str = ""
    stood: str = ""
    move: ChangeOfPlace | None = None
    left_behind: list[LeftBehind]
    sizes: dict[str, Measure]
    facts: dict[str, str]
    zones: dict[str, Zone]
    opened: tuple[Opening, ...] = ()
    # What was opened when the tree was last frozen, and the map of it.
    mapped: tuple[tuple[Opening, ...], tuple[tuple[str, date], ...]] = ((), ())
    on_tree: Attached
    last: dict[ActWord, Event]

    def freeze(self, history: tuple[Entry, ...]) -> Tree:
        """The tree after these first entries of its history."""
        at = self.at
        if self.mapped[0] is not self.opened:
            self.mapped = self.opened, root_map(self.opened)
        return Tree(
            at.handle,
            at.first_handle,
            self.name,
            self.kind,
            self.cultivar,
            self.standing,
            self.standing_since,
            self.owner,
            self.place,
            self.pot,
            self.mix,
            self.strength,
            self.planted_out,
            self.quarantined,
            self.wanted,
            dict(self.sizes),
            dict(self.facts),
            tuple(self.zones.values()),
            self.mapped[1],
            self.on_tree.things,
            dict(self.last),
            history,
            at.since.first if at.since else None,
            self.outside,
            self.batch,
            at.parted_from,
            self.move,
            tuple(self.left_behind),
        )


def tree_on(histories: Histories, things: Things, handle: str, day: date) -> Tree:
    """Return the tree as it was at the end of a day. KeyError where no tree is so called."""
    count = entries_until(histories, handle, day)
    return dict(each_after(histories, things, handle, (count,)))[count]


def tree_on_card(histories: Histories, things: Things, handle: str) -> Tree:
    """Return the tree as its card has it, whatever the diary says, standing where it stands now."""
    at, card = histories.trees[handle], things.by_handle.get(handle)
    kind, _, cultivar = at.kind.partition("'")
    return Tree(
        at.handle, at.first_handle, card.text("name") if card else "", kind.strip(),
        cultivar.rstrip("' "), at.standing, at.standing_since, at.owner, at.place, at.pot, "", "",
        at.planted_out, False, "", {}, {}, (), (), (), {}, (),
    )  # fmt: skip


def entries_until(histories: Histories, handle: str, day: date) -> int:
    """Return how many entries of a tree's history lie on or before a day.

    Before a tree was parted off a batch, its history is the batch's.
    """
    at = histories.trees[handle]
    if at.parted is not None and day < at.parted:
        return 0
    return bisect_right(at.entries, day, key=lambda entry: entry.event.day)


def each_after(
    histories: Histories,
    things: Things,
    handle: str,
    counts: Iterable[int],
    *,
    only_vessel: bool = False,
) -> Iterator[tuple[int, Tree]]:
    """Each of the counts, rising, and the tree as it was after so many entries of its history.

    The history is folded once, however many states are asked for. Thousands of states of a tree
    with thousands of acts are more than a machine remembers, so each may be let go. `only_vessel`:
    with its pot, its mix, its sizes and how many there are, and little else of it.
    """
    at = histories.trees[handle]
    draft = _begin(at, things)
    done, tree, entries = 0, None, at.entries
    for count in sorted(set(counts)):
        if not only_vessel:
            _apply(draft, entries[done:count])
        else:
            changing = list(filter(_may_change_vessel, entries[done:count]))
            if changing:
                _apply(draft, changing)
                tree = None
        done = count
        if tree is None or not only_vessel:
            tree = draft.freeze(() if only_vessel else entries[:count])
        yield count, tree


def _may_change_vessel(entry: Entry) -> bool:
    if entry.batch is not None or entry.of is not None:
        return True
    stands, _, effects = _changes_by(entry.event.row)
    return stands is not None or not _OF_VESSEL.isdisjoint(effects)


def _begin(at: Whereabouts, things: Things) -> _Draft:
    card = things.by_handle.get(at.handle)
    start = at.start
    kind, _, cultivar = at.kind.partition("'")
    wanted = card.detail("wanted") if card else None
    draft = _Draft(
        start,
        start.owner,
        start.place,
        start.pot,
        start.standing,
        at=at,
        things=things,
        kind=kind.strip(),
        cultivar=cultivar.rstrip("' "),
        name=card.text("name") if card else "",
        mix=canonical(things, card.text("mix")) if card else "",
        strength=card.text("strength") if card else "",
        wanted=in_extended_format(wanted.date) if wanted else "",
        left_behind=[],
        sizes={},
        facts=told_on_card(card) if card else {},
        zones={},
        on_tree=Attached(),
        last={},
        batch=start.batch,
    )
    for label in SIZES if card else ():
        measure = card.measure(label) if card else None
        if measure is not None:
            draft.sizes[label] = measure
    _see_place(draft)
    return draft


def _apply(draft: _Draft, entries: Iterable[Entry]) -> None:
    last, things, on_tree = draft.last, draft.things, draft.on_tree
    for entry in entries:
        event = entry.event
        if event.held or (entry.corrected_by is not None and entry.undone):
            continue
        act = event.act
        if entry.batch is not None and not entry.within:
            draft.batch = entry.batch
        if entry.of is not None:
            # What was done to some of a batch changes nothing of all the others.
            if act not in DEPARTURES and not entry.within:
                last[act] = event
            continue
        stands, put_on, effects = _changes_by(event.row)
        begins = not effects or is_its_beginning(draft, act)
        if stands is not None:
            stands(draft, event, things)
        if put_on is not None:
            on_tree.change(put_on(event))
        for effect in effects if begins else ():
            effect(draft, event)
        last[act] = event


_Effects = tuple[Callable[[_Draft, Event], None], ...]
_Changes = tuple[Callable[[Stand, Event, Things], None] | None, Effect | None, _Effects]


@by_row
def _changes_by(row: ActForm) -> _Changes:
    """What an act changes of where a tree stands, of what is on it, and of the rest of it.

    Most of a diary changes nothing, and it is folded twice for each tree.
    """
    return stands_after(row), put_on_by(row), _effects_of(row)


# ------------------------------------------------------------------ effects, one act each


_FROM_ELSEWHERE: frozenset[ActWord] = frozenset({*ARRIVALS, "returned"})


def _see_place(draft: _Draft, event: Event | None = None) -> None:
    """Where it stands outside is where it goes back to in spring; and from where it came."""
    came = event is not None and event.act in _FROM_ELSEWHERE
    if event is not None and draft.standing == "here" and (came or draft.place != draft.stood):
        draft.move = ChangeOfPlace(event, None if came else draft.stood, draft.place)
    if event is not None and draft.place != draft.stood:
        _lifted_out(draft, event)
    draft.stood = draft.place
    place = draft.things.find(draft.place) if draft.place else None
    if place is not None and not is_winter_cover(cover_of(place, draft.things)):
        draft.outside = place.handle


def _lifted_out(draft: _Draft, event: Event) -> None:
    """What lay on the ground round it, or on its soil, stays there."""
    draft.left_behind += [LeftBehind(thing, event) for thing in draft.on_tree.lift_out()]


def _went(draft: _Draft, event: Event) -> None:
    if draft.standing != "here":
        _lifted_out(draft, event)


def _arrived(draft: _Draft, event: Event) -> None:
    if any(event.has(word) for word in FRESH):
        draft.strength = "weak"


def _left(draft: _Draft, event: Event) -> None:
    if draft.standing == "returned":
        draft.wanted = ""


def _into_mix(draft: _Draft, event: Event) -> None:
    mix = event.first("mix")
    if mix is not None and mix.handle:
        draft.mix = canonical(draft.things, mix.handle) or draft.mix


def _opened(draft: _Draft, event: Event) -> None:
    now = [one for detail in event.all("wedges") for one in openings(detail.words, event.day)]
    if event.has("off below") or (event.act == "opened" and event.says("underside")):
        now.append(Opening("underside", event.day))
    draft.opened = opened(draft.opened, now)


def _refronted(draft: _Draft, event: Event) -> None:
    angle = event.first("angle")
    if angle is None or angle.measure is None:
        return
    degrees = angle.measure.within("degrees")
    draft.opened = turned(draft.opened, degrees if angle.words in ("", "clockwise") else -degrees)
    # What the card says of the front was said of the old one.
    draft.facts["front"] = event.remark or f"{event.text} on {event.when.text}"


def _separated(draft: _Draft, event: Event) -> None:
    """On the new tree it is an arrival; on the old one the layer or graft comes off."""
    new = event.first("as")
    child = canonical(draft.things, new.words) or new.words if new is not None else ""
    if child == draft.at.handle:
        draft.standing, draft.standing_since = "here", event.day
    else:
        draft.on_tree.change(take_off("layer", "graft")(event))


def _parted(draft: _Draft, event: Event) -> None:
    """Of the one that is parted off; the batch is only fewer."""
    new = event.first("as")
    child = canonical(draft.things, new.words) or new.words if new is not None else ""
    if child == draft.at.handle:
        card = draft.things.by_handle.get(child)
        part_off(draft, start_on_card(card, draft.things, "here"), event, draft.things)
        _into_mix(draft, event)
        _see_place(draft, event)


def _quarantined(draft: _Draft, event: Event) -> None:
    draft.quarantined = event.act == "quarantined"


def _measured(draft: _Draft, event: Event) -> None:
    for label in SIZES:
        measure = event.measure(label)
        if measure is not None:
            draft.sizes[label] = measure


def _valued(draft: _Draft, event: Event) -> None:
    draft.facts["value"] = str(event.measure("amount") or "")


def _vigour(draft: _Draft, event: Event) -> None:
    for zone, score in zone_scores(event):
        draft.zones[zone] = Zone(zone, score, event.day)
        if zone in (WHOLE_TREE, "all", "whole"):
            draft.zones = {zone: draft.zones[zone]}
    scores = [z.score for z in draft.zones.values() if event.day - z.day <= VIGOUR_COUNTS]
    if scores:
        middle = sum(scores) / len(scores)
        draft.strength = "weak" if middle < 2.5 else "strong" if middle >= 4 else "fair"


def _agreed(draft: _Draft, event: Event) -> None:
    wanted = event.first("wanted")
    if wanted is not None:
        draft.wanted = in_extended_format(wanted.date)


_OF_VESSEL = frozenset((_into_mix, _measured, _separated, _parted))
# Beyond where a tree stands (stand.py) and what is on it (on_tree.py).
_POTTING = (_into_mix, _opened, _measured, _lifted_out)
EFFECTS: Mapping[ActWord, _Effects] = {
    **dict.fromkeys(ARRIVALS, (_arrived, _into_mix, _see_place, _agreed)),
    **dict.fromkeys(DEPARTURES, (_went,)),
    "returned": (_left, _went, _see_place),
    "moved": (_see_place,),
    "planted-out": (_lifted_out, _see_place),
    "lifted": (*_POTTING, _see_place),
    "quarantined": (_quarantined, _see_place),
    "released": (_quarantined,),
    "opened": (_opened,),
    "root-pruned": (_opened, _measured),
    "refronted": (_refronted,),
    "separated": (_separated,),
    "parted-off": (_parted,),
    "measured": (_measured,),
    "valued": (_valued,),
    "vigour": (_vigour,),
    "checked": (_vigour,),
    "agreed": (_agreed,),
}


def _effects_of(act: ActForm) -> _Effects:
    return EFFECTS.get(as_act(act.word)) or (_POTTING if "fills_pot" in act.traits else ())
