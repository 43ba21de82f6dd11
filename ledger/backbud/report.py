"""Lays out for a terminal what wants doing, why, and a tree."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from backbud.plan.followups import State
from backbud.plan.waits import WAITS
from backbud.say import Heading
from backbud.tongue import full_day
from backbud.views.day import joint_title, rounds, stands_under
from backbud.views.history import EntryView
from backbud.views.one_cold import one_cold
from backbud.views.tree import ThingView, TreeView
from backbud.views.work import WorkView
from backbud.words import beside, between, between_in_full, day, minutes, number

HEADINGS: tuple[tuple[tuple[State, ...], str], ...] = (
    (("overdue", "now"), "Now"),
    (("coming",), "Coming"),
    (("promised",), "Given word: close it or plan it again"),
)
LAST_LINES = 12


def due_lines(found: Sequence[WorkView], today: date, within: timedelta) -> Iterator[str]:
    """What wants doing: overdue, now, coming; what one line of the diary asks of several trees
    stands there once, with the trees below it, by place."""
    if not found:
        yield f"Nothing is due until {day(today + within, today.year)}."
        return
    for states, heading in HEADINGS:
        some = [work for work in found if stands_under(work, today) in states]
        if not some:
            continue
        yield Heading(f"{heading} ({len(some)})")
        coming = "coming" in states
        some_rounds = rounds(some, by_days=coming)
        wide = max(len(_whose(those)) for those in some_rounds)
        for those in some_rounds:
            yield (
                f"  {_whose(those):<{wide}}  {joint_title(those)}  –  {_when(those, today)}"
                f"  ({minutes(sum(one.minutes for one in those))})"
                f"{f' · {WAITS}' if those[0].waits_on_weather else ''}"
            )
            if len(_trees(those)) > 1:
                yield from (f"  {'':<{wide}}    {told}" for told in _where_they_stand(those))
            # What comes later is looked at closely later.
            if not coming:
                yield from (f"  {'':<{wide}}    {told}" for told in _beside(those))
        yield ""
    yield f"Why: backbud why {found[0].tree}, or one work of it alone: its name behind that"


def _whose(those: Sequence[WorkView]) -> str:
    trees = _trees(those)
    return trees[0] if len(trees) == 1 else number(len(trees), "tree")


def _trees(those: Sequence[WorkView]) -> list[str]:
    """The trees of a round, of a batch with how many it is."""
    return list(
        dict.fromkeys(f"{one.tree} ({one.counted})" if one.counted else one.tree for one in those)
    )


def _where_they_stand(those: Sequence[WorkView]) -> Iterator[str]:
    """The trees of a round; where they stand at several places a line for each, as one walks."""
    places: dict[str, list[WorkView]] = {}
    for one in those:
        places.setdefault(one.place, []).append(one)
    if len(places) == 1:
        yield ", ".join(_trees(those))
        return
    for place, some in places.items():
        yield f"{place or 'no place'}: {', '.join(_trees(some))}"


def _beside(those: Sequence[WorkView]) -> Iterator[str]:
    """What is told beside a round: each once, with its trees where it is not of all."""
    told: dict[str, list[str]] = {}
    cold = one_cold(those)
    for one in those:
        said = cold if cold and one.cold is not None else one.said
        for text in (*((said,) if said else ()), *(f"! {c}" for c in one.cautions)):
            told.setdefault(text, []).append(one.tree)
    every = {one.tree for one in those}
    for text, trees in told.items():
        whose = "" if every <= set(trees) else f" ({', '.join(dict.fromkeys(trees))})"
        yield f"{text}{whose}"


def _when(those: Sequence[WorkView], today: date) -> str:
    first = min(those, key=lambda one: one.closes)
    stand = stands_under(first, today)
    if stand == "coming":
        days = between(first.opens, first.closes, today.year)
        if first.opens <= today:
            # It may be done already; its best week is still to come.
            days = f"open until {day(first.closes, today.year)}"
        inside = first.opens < first.best < first.closes
        return f"{days}, best {day(first.best, today.year)}" if inside else days
    word = "until" if stand == "now" else "was due"
    # What one tree is looked at for at one time is one look, and closes once.
    last = first.closes if len(_trees(those)) == 1 else max(one.closes for one in those)
    later = "" if last == first.closes else f", the last {day(last, today.year)}"
    return f"{word} {day(first.closes, today.year)}{later}"


def why_lines(work: WorkView, today: date) -> Iterator[str]:
    """The chain of reasons of one work."""
    yield Heading(f"{work.title} – {beside(work.title, work.tree_name, work.tree)}")
    yield f"  id      {work.id}"
    yield f"  state   {work.state}"
    yield (
        f"  when    {between(work.opens, work.closes, today.year)}, "
        f"best {day(work.best, today.year)}"
    )
    if work.moved_from is not None:
        was = work.moved_from
        told = between(was.opens, was.closes, today.year)
        if was.opens.year != work.opens.year:  # Beside another year its own is not to be guessed.
            told = between_in_full(was.opens, was.closes)
        yield f"  was     {told}"
    yield f"  takes   {minutes(work.minutes)}"
    if work.said:
        yield f"  today   {work.said}"
    for n, reason in enumerate(work.because):
        yield f"  {'because' if n == 0 else '       '} {reason}"
    for caution in work.cautions:
        yield f"  caution {caution}"
    settled = work.settled
    if settled is not None:
        yield f"  settled {settled.day}: {settled.text}  ({settled.at})"


def why_tree_lines(works: Iterable[WorkView], today: date) -> Iterator[str]:
    """Everything of one tree with its reasons: what is open first, then what is settled."""
    some = list(works)
    for heading, those in (
        ("Open", [work for work in some if work.is_open]),
        ("Settled", [work for work in some if not work.is_open]),
    ):
        yield Heading(f"{heading} ({len(those)})")
        for work in those:
            yield from why_lines(work, today)
            yield ""


def tree_lines(tree: TreeView, today: date, *, as_read: bool = False) -> Iterator[str]:
    """A tree: what it is, what is on it, what is due, what was done last. `as_read`: the keeper's
    own words as what they mean."""
    yield Heading(f"{tree.name} ({tree.tree})")
    for label, value in _facts(tree):
        yield f"  {label:<10} {value}"
    if tree.on_it:
        yield Heading("On it")
        for thing in tree.on_it:
            yield f"  {_thing(thing, today)}"
    if tree.due:
        yield Heading("Due")
        for work in tree.due[:LAST_LINES]:
            window = between(work.opens, work.closes, today.year)
            yield f"  {work.state:<8} {work.title}  –  {window}"
    if tree.history:
        yield Heading("Done")
        for entry in tree.history[-LAST_LINES:][::-1]:
            yield f"  {_done(entry, as_read)}"


def _facts(tree: TreeView) -> Iterator[tuple[str, str]]:
    if tree.batch and tree.batch.said:
        parts = (f"{told} by {full_day(when)}" for told, when in tree.batch.parts())
        yield "count", "; ".join((tree.batch.said, *parts))
    if tree.parted_from:
        yield "parted off", tree.parted_from
    kind = tree.kind + (f" ‘{tree.cultivar}’" if tree.cultivar else "")
    if tree.botanical and tree.botanical.casefold() != tree.kind.casefold():
        kind += f" ({tree.botanical})"
    yield "kind", kind
    if not tree.here:
        since = f" since {full_day(tree.standing_since)}" if tree.standing_since else ""
        yield "standing", f"{tree.standing}{since}"
    for label, name in (
        ("owner", tree.owner_name),
        ("place", tree.place_name),
        ("pot", tree.pot_name),
        ("mix", tree.mix_name),
    ):
        if name:
            yield label, name
    if tree.strength:
        yield "strength", tree.strength
    yield from tree.sizes.items()
    if tree.vigour:
        yield "vigour", ", ".join(f"{zone} {score}" for zone, score in tree.vigour.items())
    if tree.opened:
        yield "opened", ", ".join(f"{wedge} {when}" for wedge, when in tree.opened.items())


def _thing(thing: ThingView, today: date) -> str:
    count = f" x {thing.count}" if thing.count > 1 else ""
    part = f" on {thing.part}" if thing.part else ""
    left = " – from before the last potting, not said to be out" if thing.from_before else ""
    what = thing.what if thing.what.startswith(thing.sort) else f"{thing.sort} {thing.what}"
    return f"{what}{count}{part}, since {day(thing.since, today.year)}{left}"


def _done(entry: EntryView, as_read: bool) -> str:
    remark = f" – {entry.remark}" if entry.remark else ""
    held = "held back: " if entry.held_back else ""
    told = "; ".join(filter(None, (entry.beside, entry.whose)))
    beside = f" · {told}" if told else ""
    when = f"{entry.date} {entry.hour}".rstrip()
    line = f"{when}  {held}{entry.as_read if as_read else entry.written}{beside}{remark}"
    if entry.late is not None:
        how = "changed" if entry.late.changed else "written down"
        line = f"{line}  [{how} on {entry.late.on}]"
    by = entry.correction
    if by is None or entry.first_written is None:
        return line
    if by.undone:
        return f"{line}  [not done: corrected on {by.when.first}]"
    return f"{line}  [corrected on {by.when.first}; first written: {entry.first_written}]"
