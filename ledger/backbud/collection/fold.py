"""A tree's card and history go in; what the tree was on a day comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date

from msgspec import Struct

from backbud.collection.state import Entry, OnTree, Standing, Tree, Zone
from backbud.collection.whereabouts import ARRIVALS, DEPARTURES, Histories, Whereabouts
from backbud.journal.events import Event
from backbud.journal.things import Thing, Things
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

SIZES = ("trunk", "height", "root ball", "spread")
FACTS = ("front", "style", "origin", "passport", "note")
SCORES = {"weak": 1, "fair": 3, "strong": 5}
FRESH = ("imported", "bare-rooted", "weak")
ROOT_WORK = frozenset({"repotted", "potted-on", "slipped"})


class _Draft(Struct):
    """A tree while its history is folded; frozen into a `Tree` when asked."""

    card: Thing | None
    at: Whereabouts
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
    sizes: dict[str, Measure]
    zones: dict[str, Zone]
    opened: dict[str, date]
    on_tree: list[OnTree]
    last: dict[str, Event]
    seen: list[Entry]

    def freeze(self) -> Tree:
        card, at = self.card, self.at
        kind, _, cultivar = (card.text("kind") if card else at.kind).partition("'")
        return Tree(
            at.handle, at.first_handle, card.text("name") if card else "", kind.strip(),
            cultivar.rstrip("' "), self.standing, self.standing_since, self.owner, self.place,
            self.pot, self.mix, self.strength, self.planted_out, self.quarantined, self.wanted,
            dict(self.sizes), {f: card.text(f) for f in FACTS if card and card.text(f)},
            tuple(self.zones.values()), tuple(self.opened.items()), tuple(self.on_tree),
            dict(self.last), tuple(self.seen), at.since.first if at.since else None,
        )


def tree_on(histories: Histories, things: Things, handle: str, day: date) -> Tree:
    """Return the tree as it was at the end of a day. KeyError where no tree is so called."""
    at = histories.trees[handle]
    draft = _begin(at, things)
    for entry in at.entries:
        if entry.event.day > day:
            break
        _apply(draft, entry, things)
    return draft.freeze()


def trees_on(histories: Histories, things: Things, day: date) -> dict[str, Tree]:
    """Return every tree as it was at the end of a day, in the order of the cards."""
    return {handle: tree_on(histories, things, handle, day) for handle in histories.trees}


def steps(
    histories: Histories, things: Things, handle: str, wanted: Callable[[Event], bool]
) -> Iterator[tuple[Entry, Tree]]:
    """Yield each wanted entry with the tree as it was just after it."""
    at = histories.trees[handle]
    draft = _begin(at, things)
    for entry in at.entries:
        _apply(draft, entry, things)
        if wanted(entry.event):
            yield entry, draft.freeze()


def _begin(at: Whereabouts, things: Things) -> _Draft:
    card = things.by_handle.get(at.handle)
    draft = _Draft(
        card, at, at.began, None, "", "", "", "", "", False, False, "", {}, {}, {}, [], {}, [],
    )
    if card is None:
        draft.owner, draft.place = at.owner, at.place
        return draft
    draft.owner, draft.place, draft.pot, draft.mix = (
        _canonical(things, card.text(label)) for label in ("owner", "place", "pot", "mix")
    )
    draft.strength = card.text("strength")
    wanted = card.detail("wanted")
    draft.wanted = wanted.date if wanted else ""
    for label in SIZES:
        measure = card.measure(label)
        if measure is not None:
            draft.sizes[label] = measure
    return draft


def _canonical(things: Things, written: str) -> str:
    found = things.find(written) if written else None
    return found.handle if found else ""


def _apply(draft: _Draft, entry: Entry, things: Things) -> None:
    event = entry.event
    draft.seen.append(entry)
    if event.has("not done"):
        return
    effect = EFFECTS.get(event.act)
    if effect is not None:
        effect(draft, event, things)
    draft.last[event.act] = event


# ------------------------------------------------------------------ effects, one act each


def _arrived(draft: _Draft, event: Event, things: Things) -> None:
    draft.standing, draft.standing_since = "here", event.day
    if any(event.has(word) for word in FRESH):
        draft.strength = "weak"
    _potted(draft, event, things)


def _left(draft: _Draft, event: Event, things: Things) -> None:
    to = event.first("to")
    if event.act == "sold" and to is not None:
        draft.owner = _canonical(things, to.handle)
    if not event.says("stays"):
        draft.standing, draft.standing_since = DEPARTURES[event.act], event.day


def _moved(draft: _Draft, event: Event, things: Things) -> None:
    to = event.first("to")
    if to is not None:
        draft.place = _canonical(things, to.handle) or draft.place
    if event.act == "planted-out":
        draft.planted_out = True
    if event.act == "quarantined":
        draft.quarantined = True


def _potted(draft: _Draft, event: Event, things: Things) -> None:
    into = event.first("into")
    if into is not None:
        draft.pot = _canonical(things, into.handle)
        draft.planted_out = False
    mix = event.first("mix")
    if mix is not None and mix.handle:
        draft.mix = _canonical(things, mix.handle) or draft.mix


def _repotted(draft: _Draft, event: Event, things: Things) -> None:
    _potted(draft, event, things)
    # What was anchored before must have been cut to lift the ball; what is not said to be out
    # may still be in it.
    kept: list[OnTree] = []
    for thing in draft.on_tree:
        if thing.sort == "tie":
            if not event.has("old ties out"):
                kept.append(_from_before(thing))
        elif thing.sort != "mesh":
            kept.append(thing)
    draft.on_tree = kept
    _opened(draft, event, things)
    for detail in event.all("tied"):
        draft.on_tree.append(_thing("tie", detail, event))
    for detail in event.all("mesh"):
        count = int(detail.measure.number) if detail.measure else 1
        draft.on_tree.append(OnTree("mesh", "mesh", "", count, event.day, event))


def _from_before(thing: OnTree) -> OnTree:
    return OnTree(thing.sort, thing.what, thing.part, thing.count, thing.since, thing.event,
                  thing.thickness_mm, True)


def _thing(sort: str, detail: Detail, event: Event) -> OnTree:
    measure = detail.measure
    words = " ".join(filter(None, (_size(measure), detail.words)))
    return OnTree(sort, words or sort, detail.part, measure.count if measure else 1, event.day,
                  event, measure.within("mm") if measure and measure.sort == "length" else None)


def _size(measure: Measure | None) -> str:
    if measure is None:
        return ""
    return str(Measure(measure.numbers, measure.unit, measure.sort, measure.upper, measure.per))


def _opened(draft: _Draft, event: Event, things: Things) -> None:
    for detail in event.all("wedges"):
        for wedge in detail.words.split():
            draft.opened[wedge] = event.day
    if event.has("off below"):
        draft.opened["underside"] = event.day


def _separated(draft: _Draft, event: Event, things: Things) -> None:
    """On the new tree it is an arrival; on the old one the layer or graft comes off."""
    new = event.first("as")
    if new is not None and (_canonical(things, new.words) or new.words) == draft.at.handle:
        draft.standing, draft.standing_since = "here", event.day
    else:
        _take_off("layer", "graft")(draft, event, things)


def _put_on(sort: str, *names: str) -> Callable[[_Draft, Event, Things], None]:
    def effect(draft: _Draft, event: Event, things: Things) -> None:
        found = [d for d in event.details if d.name in names]
        for detail in found or [Detail(sort)]:
            draft.on_tree.append(_thing(sort, detail, event))

    return effect


def _wired(draft: _Draft, event: Event, things: Things) -> None:
    wires = event.all("wire")
    rest = [d for d in event.details if d.name in ("how", "part")]
    for detail in wires or rest or [Detail("wire")]:
        draft.on_tree.append(_thing("wire", detail, event))


def _take_off(*sorts: str) -> Callable[[_Draft, Event, Things], None]:
    """Off comes every thing of these sorts whose part holds the words named, or all of them."""

    def effect(draft: _Draft, event: Event, things: Things) -> None:
        if event.says("partly"):
            return
        parts = [part.casefold() for part in event.parts]
        draft.on_tree = [
            thing for thing in draft.on_tree
            if thing.sort not in sorts
            or (parts and not any(_holds(thing.part.casefold(), part) for part in parts))
        ]

    return effect


def _holds(part: str, words: str) -> bool:
    return f" {words} " in f" {part} "


def _shaded(draft: _Draft, event: Event, things: Things) -> None:
    share = event.measure("share")
    draft.on_tree.append(OnTree("shade", f"shade {share}" if share else "shade", "", 1, event.day,
                                event))


def _protected(draft: _Draft, event: Event, things: Things) -> None:
    words = [d.words for d in event.details if d.name in ("with", "how") and d.words]
    draft.on_tree.append(OnTree("protection", ", ".join(words) or "protection", "", 1, event.day,
                                event))


def _measured(draft: _Draft, event: Event, things: Things) -> None:
    for label in SIZES:
        measure = event.measure(label)
        if measure is not None:
            draft.sizes[label] = measure


def _vigour(draft: _Draft, event: Event, things: Things) -> None:
    for detail in event.all("zone"):
        words = detail.words.split()
        if detail.measure is not None:
            score = int(detail.measure.number)
        elif words and words[-1].casefold() in SCORES:
            score = SCORES[words.pop().casefold()]
        else:
            continue
        zone = " ".join(words).casefold() or "whole tree"
        draft.zones[zone] = Zone(zone, min(max(score, 1), 5), event.day)
        if zone in ("whole tree", "all", "whole"):
            draft.zones = {zone: draft.zones[zone]}
    if draft.zones:
        scores = [zone.score for zone in draft.zones.values()]
        middle = sum(scores) / len(scores)
        draft.strength = "weak" if middle < 2.5 else "strong" if middle >= 4 else "fair"


def _released(draft: _Draft, event: Event, things: Things) -> None:
    draft.quarantined = False


def _agreed(draft: _Draft, event: Event, things: Things) -> None:
    wanted = event.first("wanted")
    if wanted is not None:
        draft.wanted = wanted.date


EFFECTS: Mapping[str, Callable[[_Draft, Event, Things], None]] = {
    **dict.fromkeys(ARRIVALS, _arrived),
    **dict.fromkeys(DEPARTURES, _left),
    **dict.fromkeys(("moved", "planted-out", "quarantined"), _moved),
    **dict.fromkeys(ROOT_WORK, _repotted),
    "opened": _opened,
    "root-pruned": _opened,
    "wired": _wired,
    "unwired": _take_off("wire"),
    "guyed": _put_on("guy", "guy", "part"),
    "unguyed": _take_off("guy"),
    "wrapped": _put_on("wrap", "with", "part"),
    "unwrapped": _take_off("wrap"),
    "grafted": _put_on("graft", "way", "part"),
    "layered": _put_on("layer", "way", "ring", "part"),
    "separated": _separated,
    "tied": _put_on("tie", "tied"),
    "untied": _take_off("tie"),
    "shaded": _shaded,
    "unshaded": _take_off("shade"),
    "protected": _protected,
    "unprotected": _take_off("protection"),
    "measured": _measured,
    "vigour": _vigour,
    "released": _released,
    "agreed": _agreed,
}
