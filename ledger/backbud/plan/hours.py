"""Learns from the `worked` lines how many minutes each act takes, for the works to come.

A line counts for what was done to the same subjects on that day. Where it names the work (`2 h on
wiring`), it counts for that alone; where it stands for several acts, its time is parted among them
as their usual minutes are.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from itertools import chain

from msgspec.structs import replace

from backbud.bench.hours import ActOfSize, Worked, learned_minutes, minutes_for
from backbud.collection.state import Entry, Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.things import Things
from backbud.plan.followups import FollowUp
from backbud.plan.world import ByTree
from backbud_grammar.forms import ActForm
from backbud_grammar.measures import Measure


def learned(
    histories: Histories, things: Things, today: date, by_tree: ByTree | None = None
) -> Mapping[ActOfSize, float]:
    """Return the median minutes of each act and class of height, until a day."""

    def worked_on(handle: str) -> tuple[Worked, ...]:
        # The hours spent on a batch are the batch's.
        entries = [entry for entry in histories.trees[handle].entries if not entry.within]
        return tuple(_of_tree(entries, _height_on_card(things, handle), today))

    by_tree = by_tree or ByTree()
    found = [
        by_tree.once("worked", handle, histories, things, partial(worked_on, handle))
        for handle in histories.trees
    ]
    return by_tree.together(
        "learned", (found,), lambda: learned_minutes(chain.from_iterable(found))
    )


def timed(
    tree: Tree, follow_ups: Iterable[FollowUp], known: Mapping[ActOfSize, float]
) -> tuple[FollowUp, ...]:
    """Give each work that has no minutes of its own those that were learned, or the usual ones."""
    height_cm = _cm(tree.sizes.get("height"))
    return tuple(
        one if one.minutes else replace(one, minutes=_minutes(one.row, height_cm, known))
        for one in follow_ups
    )


def _minutes(act: ActForm, height_cm: float | None, known: Mapping[ActOfSize, float]) -> int:
    return max(round(minutes_for(act.word, height_cm, known, act.minutes)), 1)


def _height_on_card(things: Things, handle: str) -> float | None:
    card = things.by_handle.get(handle)
    return _cm(card.measure("height")) if card is not None else None


def _cm(measure: Measure | None) -> float | None:
    height_cm = None if measure is None else measure.within("cm")
    return height_cm if height_cm else None


def _of_tree(entries: Sequence[Entry], height_cm: float | None, today: date) -> Iterator[Worked]:
    """What each act took by each `worked` line, with the height the tree had then."""
    by_day: dict[date, list[Entry]] = {}
    for entry in entries:
        event = entry.event
        if event.act == "worked" and event.exact and not entry.undone and event.day <= today:
            by_day.setdefault(event.day, [])
    if not by_day:
        return
    heights: dict[date, float | None] = {}
    for entry in entries:
        event = entry.event
        if event.act == "measured" and not entry.undone:
            height_cm = _cm(event.measure("height")) or height_cm
        day = event.when.first
        if day in by_day and not entry.undone:
            by_day[day].append(entry)
            heights[day] = height_cm
    for day, done in by_day.items():
        for act, minutes in _of_day(done):
            yield act, heights[day], minutes


def worked_minutes(
    entries: Iterable[Entry], first: date, last: date
) -> Iterator[tuple[str, float]]:
    """What a tree took in a span of days by its `worked` lines: the word of each act that a line is
    about, "" where it can be told of none, and the minutes."""
    by_day: dict[date, list[Entry]] = {}
    for entry in entries:
        event = entry.event
        day = event.when.first
        if first <= day <= last and event.exact and not entry.undone:
            by_day.setdefault(day, []).append(entry)
    for done in by_day.values():
        if any(entry.event.act == "worked" for entry in done):
            yield from _of_day(done, tell_all=True)


def _of_day(done: Sequence[Entry], *, tell_all: bool = False) -> Iterator[tuple[str, float]]:
    works = [entry for entry in done if "no_work" not in entry.event.row.traits]
    for entry in done:
        event = entry.event
        time = event.first("time") if event.act == "worked" else None
        if time is None or time.measure is None:
            continue
        minutes = time.measure.within("min") / entry.divided_by(time)
        acts = _covered(entry, works)
        whole = sum(act.minutes for act in acts)
        if minutes > 0 and whole:
            for act in acts:
                yield act.word, minutes * act.minutes / whole
        elif minutes > 0 and tell_all:
            yield "", minutes


def _covered(worked: Entry, works: Sequence[Entry]) -> list[ActForm]:
    """The acts of the day that a line is about: those it names, of those under its own subjects."""
    event = worked.event
    same = [
        entry.event.row
        for entry in works
        if (entry.event.file, entry.event.subjects) == (event.file, event.subjects)
    ]
    rows = same or [entry.event.row for entry in works]
    here = list({row.word: row for row in rows}.values())
    words = f" {' '.join(d.words for d in event.details)} "
    named = [row for row in here if any(f" {word} " in words for word in row.called)]
    return named or here
