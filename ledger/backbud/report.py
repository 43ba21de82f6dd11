"""Trees and follow-ups go in; the lines that a terminal prints come out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from backbud.collection.state import Entry, OnTree, Tree
from backbud.plan.followups import FollowUp, State
from backbud.plan.rounds import rounds
from backbud.plan.waits import WAITS, waits_on_weather
from backbud.say import Heading
from backbud.species import Species
from backbud.words import beside, between, day, full_day, minutes, number

HEADINGS: tuple[tuple[State, str], ...] = (
    ("overdue", "Overdue"),
    ("now", "Now"),
    ("coming", "Coming"),
)
OPEN: tuple[State, ...] = ("overdue", "now", "coming")
LAST_LINES = 12


def due_lines(
    found: Sequence[FollowUp], trees: Mapping[str, Tree], today: date, within: timedelta
) -> Iterator[str]:
    """What wants doing: overdue, now, coming; what one line of the diary asks of several trees
    stands there once, with the trees below it."""
    if not found:
        yield f"Nothing is due until {day(today + within, today.year)}."
        return
    for state, heading in HEADINGS:
        some = [f for f in found if f.state(today) == state]
        if not some:
            continue
        yield Heading(f"{heading} ({len(some)})")
        some_rounds = rounds(some, lambda one: one)
        wide = max(len(_whose(those)) for those in some_rounds)
        for those in some_rounds:
            follow_up = those[0]
            window = follow_up.window
            if state == "coming":
                when = between(window.opens, window.closes, today.year)
            else:
                when = f"until {day(window.closes, today.year)}"
            yield (
                f"  {_whose(those):<{wide}}  {follow_up.title}  –  {when}"
                f"  ({minutes(sum(f.minutes for f in those))})"
                f"{f' · {WAITS}' if waits_on_weather(follow_up, today) else ''}"
            )
            if len(those) > 1:
                yield f"  {'':<{wide}}    {', '.join(f.tree for f in those)}"
            # What comes later is looked at closely later.
            for caution in follow_up.cautions if state != "coming" else ():
                yield f"  {'':<{wide}}    ! {caution}"
        yield ""
    yield "Why: backbud why TREE/RULE/CAUSE (the ids: backbud due --json)"


def _whose(those: Sequence[FollowUp]) -> str:
    return those[0].tree if len(those) == 1 else number(len(those), "tree")


def why_lines(follow_up: FollowUp, tree: Tree, today: date) -> Iterator[str]:
    """The chain of reasons of one follow-up."""
    window = follow_up.window
    title = follow_up.title
    yield Heading(f"{title} – {beside(title, tree.title, tree.handle)}")
    yield f"  id      {follow_up.id}"
    yield f"  state   {follow_up.state(today)}"
    yield (
        f"  when    {between(window.opens, window.closes, today.year)}, "
        f"best {day(window.best, today.year)}"
    )
    if follow_up.moved_from is not None:
        was = follow_up.moved_from
        yield f"  was     {between(was.opens, was.closes, today.year)}"
    yield f"  takes   {minutes(follow_up.minutes)}"
    for n, reason in enumerate(follow_up.because):
        yield f"  {'because' if n == 0 else '       '} {reason.told}"
    for caution in follow_up.cautions:
        yield f"  caution {caution}"
    settled = follow_up.settled
    if settled is not None:
        yield f"  settled {settled.day}: {settled.written}  ({settled.origin})"


def why_tree_lines(follow_ups: Sequence[FollowUp], tree: Tree, today: date) -> Iterator[str]:
    """Everything of one tree with its reasons: what is open first, then what is settled."""
    is_open = [f for f in follow_ups if f.state(today) in OPEN]
    for heading, some in (
        ("Open", is_open),
        ("Settled", [f for f in follow_ups if f not in is_open]),
    ):
        yield Heading(f"{heading} ({len(some)})")
        for follow_up in some:
            yield from why_lines(follow_up, tree, today)
            yield ""


def open_first(follow_ups: Iterable[FollowUp], today: date) -> list[FollowUp]:
    """What is open, the soonest first; then what is settled, the latest first."""
    some = list(follow_ups)
    is_open = [f for f in some if f.state(today) in OPEN]
    rest = [f for f in some if f.state(today) not in OPEN]
    return [
        *sorted(is_open, key=lambda f: (f.window.best, f.id)),
        *sorted(rest, key=_settled_on, reverse=True),
    ]


def _settled_on(follow_up: FollowUp) -> tuple[date, str]:
    on = follow_up.settled.day if follow_up.settled else follow_up.window.closes
    return on, follow_up.id


def tree_lines(
    tree: Tree,
    species: Species | None,
    follow_ups: Sequence[FollowUp],
    today: date,
    names: Mapping[str, str],
) -> Iterator[str]:
    """A tree: what it is, what is on it, what is due, what was done last."""
    yield Heading(f"{tree.title} ({tree.handle})")
    for label, value in _facts(tree, species, names):
        yield f"  {label:<10} {value}"
    if tree.on_tree:
        yield Heading("On it")
        for thing in tree.on_tree:
            yield f"  {_thing(thing, today)}"
    shown = [f for f in follow_ups if f.is_open(today)]
    if shown:
        yield Heading("Due")
        for follow_up in shown[:LAST_LINES]:
            window = between(follow_up.window.opens, follow_up.window.closes, today.year)
            yield f"  {follow_up.state(today):<8} {follow_up.title}  –  {window}"
    if tree.history:
        yield Heading("Done")
        for entry in tree.history[-LAST_LINES:][::-1]:
            yield f"  {_done(entry)}"


def _facts(
    tree: Tree, species: Species | None, names: Mapping[str, str]
) -> Iterator[tuple[str, str]]:
    kind = tree.kind + (f" ‘{tree.cultivar}’" if tree.cultivar else "")
    if species is not None and species.botanical.casefold() != tree.kind.casefold():
        kind += f" ({species.botanical})"
    yield "kind", kind
    if not tree.here:
        since = f" since {full_day(tree.standing_since)}" if tree.standing_since else ""
        yield "standing", f"{tree.standing}{since}"
    for label, handle in (
        ("owner", tree.owner),
        ("place", tree.place),
        ("pot", tree.pot),
        ("mix", tree.mix),
    ):
        if handle:
            yield label, names.get(handle, handle)
    if tree.strength:
        yield "strength", tree.strength
    for label, measure in tree.sizes.items():
        yield label, str(measure)
    if tree.zones:
        yield "vigour", ", ".join(f"{zone.name} {zone.score}" for zone in tree.zones)
    if tree.opened:
        yield "opened", ", ".join(f"{wedge} {when}" for wedge, when in tree.opened)


def _thing(thing: OnTree, today: date) -> str:
    count = f" x {thing.count}" if thing.count > 1 else ""
    part = f" on {thing.part}" if thing.part else ""
    left = " – left from before the last repotting" if thing.from_before else ""
    what = thing.what if thing.what.startswith(thing.sort) else f"{thing.sort} {thing.what}"
    return f"{what}{count}{part}, since {day(thing.since, today.year)}{left}"


def _done(entry: Entry) -> str:
    event, by, first = entry.event, entry.corrected_by, entry.as_written
    remark = f" – {event.remark}" if event.remark else ""
    held = "held back: " if event.held else ""
    line = f"{event.when.text}  {held}{event.written}{remark}"
    if by is None or first is None:
        return line
    if entry.undone:
        return f"{line}  [not done: corrected on {by.day}]"
    return f"{line}  [corrected on {by.day}; first written: {first.text}]"


def tree_json(tree: Tree) -> dict[str, object]:
    """A tree for a program."""
    return {
        "tree": tree.handle,
        "name": tree.title,
        "kind": tree.kind,
        "cultivar": tree.cultivar,
        "standing": tree.standing,
        "since": tree.since.isoformat() if tree.since else None,
        "owner": tree.owner,
        "place": tree.place,
        "pot": tree.pot,
        "mix": tree.mix,
        "strength": tree.strength,
        "planted_out": tree.planted_out,
        "quarantined": tree.quarantined,
        "wanted": tree.wanted,
        "sizes": {label: str(measure) for label, measure in tree.sizes.items()},
        "vigour": {zone.name: zone.score for zone in tree.zones},
        "opened": {wedge: when.isoformat() for wedge, when in tree.opened},
        "on_it": [
            {
                "sort": thing.sort,
                "what": thing.what,
                "part": thing.part,
                "count": thing.count,
                "thickness_mm": thing.thickness_mm,
                "since": thing.since.isoformat(),
                "from_before": thing.from_before,
            }
            for thing in tree.on_tree
        ],
        "last": {act: event.when.text for act, event in tree.last.items()},
        "history": [
            {
                "date": entry.event.when.text,
                "act": entry.event.said,
                "details": entry.event.text,
                "remark": entry.event.remark,
                "at": str(entry.event.origin),
                "corrected": entry.corrected_by is not None,
                "corrected_at": str(entry.corrected_by.origin) if entry.corrected_by else None,
                "first_written": entry.as_written.text if entry.as_written else None,
                "done": not (entry.undone or entry.event.held),
                "held_back": bool(entry.event.held),
                "kept": list(entry.event.kept),
            }
            for entry in tree.history
        ],
    }
