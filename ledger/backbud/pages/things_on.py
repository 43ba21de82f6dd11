"""Lays out what is on a tree and in its pot: what should be out of it first, then sort by sort."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.tongue import as_named, phrase
from backbud.views.plain_words import thing_called
from backbud.views.tree import ThingView, TreeView

# What goes together, in the order the page shows it.
_SORTS = {
    "wire": "wire", "guy": "guy wire", "wrap": "wrapping", "tie": "anchor tie", "mesh": "mesh",
    "graft": "graft", "layer": "layer", "protection": "protection", "guard": "guard",
    "shade": "shade",
}  # fmt: skip
_SORT_ORDER = {sort: at for at, sort in enumerate(_SORTS)}


class ThingRow(Struct, frozen=True, gc=False):
    """Something on the tree or in its pot: what, where, since when, how long; when it bites."""

    what: str
    part: str
    since: str
    long: str
    at: str
    from_before: bool
    bites: str = ""


def _thing_order(thing: ThingView) -> tuple[bool, int, date, int, str]:
    sort = _SORT_ORDER.get(thing.sort, len(_SORT_ORDER))
    return not thing.from_before, sort, thing.since, thing.line, thing.part


def things_on(tree: TreeView, today: date) -> Iterable[ThingRow]:
    """What is on it, what should be out of it first."""
    return (_thing(thing, today) for thing in sorted(tree.on_it, key=_thing_order))


def _thing(thing: ThingView, today: date) -> ThingRow:
    sort = _SORTS.get(thing.sort, thing.sort)
    return ThingRow(
        words.sentence(thing_called(thing.what, sort))
        + (f" × {thing.count}" if thing.count > 1 else ""),
        as_named(thing.part),
        words.day(thing.since, today.year),
        words.days((today - thing.since).days),
        thing.at,
        thing.from_before,
        _bites(thing.bites, today) if thing.bites else "",
    )


def _bites(bite: date, today: date) -> str:
    day = words.day(bite, today.year)
    if bite < today:
        return phrase("should have begun to bite about {day}, look at it", day=day)
    return phrase("bites about {day}", day=day)
