"""Works out what of each material the open works of the next year will take.

What was done the last time is the best guide: the litres that went into the same pot, the wire of
the last wiring, the feed given at that time of the year. Else it is reckoned from the pot.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import cache, partial

from backbud.bench.anchors import mesh
from backbud.collection.on_tree import put_on_by
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.memo import Identical
from backbud.plan.followups import OPEN, FollowUp
from backbud.plan.run import Plan
from backbud.plan.stores.feed_dose import Untold
from backbud.plan.stores.metres import holes_of, metal_of, metres_on, staples, ties_of
from backbud.plan.stores.of_batch import is_potted_singly, potted
from backbud.plan.stores.soil import soil_of_potting
from backbud.plan.stores.spent import TakenByTrees
from backbud.plan.stores.values import Material, Want
from backbud.plan.stores.written_first import WEIGHED_WITHIN
from backbud.plan.vessels import Unknown
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord, as_act

AHEAD = timedelta(days=365)
WRITE_WIRE = "which wire, as: planned wire, 2 mm Al on left 1, to 2027-01"
WRITE_FEED = "which and how much the last time, as: fed 20 g with cakes"
WRITE_POT = "its pot and the size of that, as: inside 38 x 27 x 7 cm"
_Amounts = Iterator[tuple[Material, float, str]]
# The day of a dose, and how much of what it was.
_Given = tuple[date, tuple[Material, float]]


def wanted(plan: Plan, taken: TakenByTrees, today: date) -> Iterator[Want]:
    """What the open works whose best day lies within a year of today will take."""
    for handle, follow_ups in plan.follow_ups.items():
        work = partial(_of_tree, follow_ups, plan.trees[handle], taken, today)
        yield from taken.once("wants", handle, work, Identical(follow_ups))


def _of_tree(
    follow_ups: Iterable[FollowUp], tree: Tree, taken: TakenByTrees, today: date
) -> tuple[Want, ...]:
    doses = cache(partial(_doses, tree, taken))
    return tuple(
        Want(key, amount, one.id, tree.title, one.title, day, because)
        for one in follow_ups
        if one.outcome == "open" and _takes(one)
        for state, window in (one.stand_on(today),)
        if state in OPEN and (day := max(window.best, today)) <= today + AHEAD
        for (key, because), amount in _together(_of_work(one, tree, taken, day, doses))
    )


# Beside what fills a pot.
_TAKING: frozenset[ActWord] = frozenset(("wired", "tied", "guyed", "fed"))


def _takes(one: FollowUp) -> bool:
    """Whether a work takes anything: hardly any does, and each is asked about."""
    return one.act in _TAKING or "fills_pot" in one.row.traits


def _together(amounts: _Amounts) -> Iterable[tuple[tuple[str, str], float]]:
    """What a work takes of each material, by how that is known."""
    found: dict[tuple[str, str], float] = {}
    for material, amount, because in amounts:
        if amount > 0:
            found[material.key, because] = found.get((material.key, because), 0.0) + amount
    return found.items()


def _of_work(
    one: FollowUp, tree: Tree, taken: TakenByTrees, day: date, doses: Callable[[], Sequence[_Given]]
) -> _Amounts:
    said = _said(one, tree)
    if "fills_pot" in one.row.traits:
        yield from _soil(one, said, tree, taken)
        if not is_potted_singly(tree):
            yield from _ties(one, said, tree, taken)
    elif one.act == "wired":
        yield from _wire(one, said, tree, taken)
    elif one.act == "tied" or one.act == "guyed":
        yield from _as_said(one, said, tree, taken) if said is not None else ()
    elif one.act == "fed":
        yield from _feed(one, tree, taken, day, doses())


def _said(one: FollowUp, tree: Tree) -> Event | None:
    """The line in which the keeper planned the work, with its details."""
    for reason in one.because:
        if reason.sort == "plan" and reason.origin is not None:
            for entry in reversed(tree.history):
                if entry.event.origin == reason.origin and entry.event.named:
                    return entry.event
    return None


# ------------------------------------------------------------------ root work


def _soil(one: FollowUp, said: Event | None, tree: Tree, taken: TakenByTrees) -> _Amounts:
    mix = said.first("mix") if said is not None else None
    named = taken.things.find(mix.handle) if mix is not None and mix.handle else None
    handle = named.handle if named is not None else tree.mix
    if not handle:
        taken.cannot(one.title, phrase("its mix, as a line “mix” on its card"), tree.title)
        return
    if is_potted_singly(tree):
        yield from _batch(one, said, tree, handle, taken)
        return
    pot = _pot(said, tree, taken)
    if mix is not None and mix.measure is not None and mix.measure.sort == "volume":
        litres, because = mix.measure.within("L"), phrase("as planned")
    elif (last := _last_litres(tree)) is not None and pot == tree.pot:
        litres, because = last[0], phrase("as on {last}", last=last[1])
    else:
        found = soil_of_potting(None, tree, pot, handle, taken.things, taken.figures)
        if isinstance(found, Unknown):
            taken.cannot(one.title, found.to_write, tree.title)
            return
        litres, because = found.litres, phrase("reckoned: {because}", because=found.because)
    for material, amount in taken.ingredients(handle, litres):
        yield material, amount, because


def _batch(
    one: FollowUp, said: Event | None, tree: Tree, mix: str, taken: TakenByTrees
) -> _Amounts:
    """The pots and the mix for all of a batch, or for so many as are planned."""
    found = potted(said, None, tree, mix, taken.things, taken.figures)
    if isinstance(found, Unknown):
        taken.cannot(one.title, found.to_write, tree.title)
        return
    detail = said.first("mix") if said is not None else None
    litres, because = found.litres, phrase("reckoned: {because}", because=found.because)
    if detail is not None and detail.measure is not None and detail.measure.sort == "volume":
        each = found.number if detail.share == "each" else 1
        litres, because = detail.measure.within("L") * each, phrase("as planned")
    for material, amount in taken.ingredients(mix, litres):
        yield material, amount, because
    if found.across_cm is not None:
        yield taken.materials.pots(found.across_cm), float(found.number), phrase("one for each")


def _pot(said: Event | None, tree: Tree, taken: TakenByTrees) -> str:
    into = said.first("into") if said is not None else None
    card = taken.things.find(into.handle) if into is not None and into.handle else None
    return card.handle if card is not None else tree.pot


def _last_litres(tree: Tree) -> tuple[float, date | str] | None:
    """The litres that went in the last time, where the tree had stood in that pot before."""
    last = tree.last_with("fills_pot")
    if last is None or not last.has("same pot"):
        return None
    mix = last.first("mix")
    if mix is None or mix.measure is None or mix.measure.sort != "volume":
        return None
    return mix.measure.within("L"), last.when.day_or_text


def _ties(one: FollowUp, said: Event | None, tree: Tree, taken: TakenByTrees) -> _Amounts:
    """Ties as planned or as the pot asks for them, and mesh with its staples."""
    if said is not None and (said.has("tied") or said.has("mesh")):
        yield from _as_said(one, said, tree, taken)
        return
    pot = _pot(said, tree, taken)
    tied = ties_of(pot, taken.things, taken.figures)
    card = taken.things.find(pot) if pot else None
    if tied is None or card is None:
        taken.cannot(phrase("ties and mesh to {title}", title=one.title), WRITE_POT, tree.title)
        return
    wires, thickness_mm, metres = tied
    yield taken.materials.wire("Al", thickness_mm), wires * metres, phrase("reckoned from the pot")
    pieces = mesh(holes_of(card.measure("holes"))).pieces
    staple_mm, staple_m = staples(pieces)
    yield taken.materials.wire("Al", staple_mm), staple_m, phrase("reckoned from the pot's holes")
    over_holes = taken.materials.mesh()
    # Of a sheet nobody knows how many pieces it gives.
    if not over_holes.container or over_holes.sold_units != 1.0:
        yield over_holes, float(pieces), phrase("a piece for each hole")


# ------------------------------------------------------------------ wire


def _wire(one: FollowUp, said: Event | None, tree: Tree, taken: TakenByTrees) -> _Amounts:
    if said is not None and said.has("wire"):
        yield from _as_said(one, said, tree, taken)
        return
    spent = taken.by_tree.get(tree.handle, ())
    wired = [e.event.day for e in tree.history if e.event.act == "wired" and not e.undone]
    if not wired:
        taken.cannot(one.title, WRITE_WIRE, tree.title)  # fmt: skip
        return
    last = wired[-1]
    weighed = [
        s for s in spent
        if s.what == "used" and s.sort == "wire" and last <= s.day <= last + WEIGHED_WITHIN
    ]  # fmt: skip
    for item in weighed or [s for s in spent if s.sort == "wire" and s.day == last]:
        how = phrase("reckoned") if item.reckoned else phrase("weighed")
        yield (
            taken.materials.by_key[item.material],
            item.quantity,
            phrase("{how}, as on {last}", how=how, last=last),
        )


def _as_said(one: FollowUp, said: Event, tree: Tree, taken: TakenByTrees) -> _Amounts:
    """The wires, guys, ties and mesh that a plan names for the part that the work is about."""
    named = as_act(said.named)
    planned = Event(
        named, said.when, said.details, said.text, said.remark, "", said.subjects,
        said.file, said.line, said.column, row=said.named_row,
    )  # fmt: skip
    put_on = put_on_by(planned.row)
    for thing in put_on(planned).put if put_on is not None else ():
        if one.part and one.part != (thing.part or said.parts[0]):
            continue
        if thing.sort == "mesh":
            thickness_mm, metres = staples(max(thing.count, 1))
            yield taken.materials.wire("Al", thickness_mm), metres, phrase("as planned")
        elif thing.thickness_mm is not None:
            wire = taken.materials.wire(metal_of(thing.what), thing.thickness_mm)
            yield wire, metres_on(thing, tree, taken.things, taken.figures), phrase("as planned")


# ------------------------------------------------------------------ feed


def _doses(tree: Tree, taken: TakenByTrees) -> Sequence[_Given]:
    """Every dose that a tree was given, with its day."""
    return [
        (entry.event.day, dose)
        for entry in tree.history
        if entry.event.act == "fed"
        and not entry.undone
        and isinstance(dose := taken.dose(entry), tuple)
        and not isinstance(dose, Untold)
    ]


def _feed(
    one: FollowUp, tree: Tree, taken: TakenByTrees, day: date, doses: Sequence[_Given]
) -> _Amounts:
    """The dose last given at this time of the year."""
    if not doses:
        taken.cannot(one.title, WRITE_FEED, tree.title)
    else:
        given, (material, amount) = min(
            doses, key=lambda dose: (_apart(dose[0], day), -dose[0].toordinal())
        )
        yield material, amount, phrase("as on {given}", given=given)


def _apart(one: date, other: date) -> int:
    """How many days of the year lie between two dates, whatever their years."""
    days = abs(one.timetuple().tm_yday - other.timetuple().tm_yday)
    return min(days, 365 - days)
