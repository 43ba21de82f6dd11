"""Finds the visits of other people's trees: from their coming to their going."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import zip_longest

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.batch import ARRIVALS
from backbud.collection.fold import each_after
from backbud.collection.stand import DEPARTURES
from backbud.collection.state import Entry, Standing, Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.things import Things

# Lent out and come back, it is the same visit still.
_ENDS: tuple[Standing, ...] = ("returned", "sold", "died", "lost")
_PAID_AHEAD = ("deposit", "in advance")
_TURNS = {*ARRIVALS, *DEPARTURES}


class Visit(Struct, frozen=True):
    """A tree of somebody else's in the house.

    `owner`: a person's handle. `tree`: as it was at the end of the visit, or as it is today.
    `came`: None where it was here before the diary speaks of it. `went`: None while it is here;
    `how`: returned, sold, died or lost. `entries`: what was written of it from its coming until
    its next one, so that a bill that is written after it went is in it, and before them what was
    agreed and paid ahead for it. `to_come`: that is all there is yet.
    """

    owner: str
    tree: Tree
    came: date | None
    went: date | None
    how: Standing
    entries: tuple[Entry, ...]
    to_come: bool = False

    @property
    def is_here(self) -> bool:
        return self.went is None and not self.to_come


def visits_of(
    histories: Histories, things: Things, handle: str, keeper: str, today: date
) -> tuple[Visit, ...]:
    """The visits of a tree until a day, oldest first; none of a tree of the keeper's own.

    `keeper`: the handle of the keeper's card, "" where there is none.
    """
    at = histories.trees[handle]
    if {at.owner, at.start.owner} <= {"", keeper} and not _may_change_hands(at.entries):
        return ()
    entries = tuple(one for one in at.entries if one.event.day <= today)
    turns = [n for n, one in enumerate(entries) if not one.undone and one.event.act in _TURNS]
    counts = {0, len(entries), *(n + 1 for n in turns)}
    states = dict(each_after(histories, things, handle, counts))
    begins = [n for n in turns if n and _begins(entries[n], states[n + 1])]
    parts = zip([0, *begins], [*begins, len(entries)], strict=True)
    found = [_visit(entries, begin, end, states) for begin, end in parts]
    theirs = [one for one in found if one.owner and one.owner != keeper]
    return tuple(_as_they_came(theirs, states[len(entries)], things))


def _as_they_came(visits: Sequence[Visit], now: Tree, things: Things) -> Iterator[Visit]:
    """The visits, each with what was agreed and paid ahead of its coming. A tree that nobody has
    received is in the house only where its card or the diary says that it stands here."""
    ahead: tuple[Entry, ...] = ()
    for one, after in zip_longest(visits, visits[1:]):
        visit = replace(one, entries=(*ahead, *one.entries))
        ahead = ()
        again = after is not None and after.owner == one.owner and after.came is not None
        if visit.came is None and visit.went is None and not _was_here(visit, things):
            if again:
                ahead = visit.entries
            elif any(not entry.undone for entry in visit.entries):
                yield replace(visit, to_come=True)
            continue
        if again and after is not None and visit.went is None:
            # It came again, so it had gone.
            visit = replace(visit, went=after.came, how="returned")
        elif visit.went is not None:
            ahead = tuple(entry for entry in one.entries if _is_ahead(entry, visit.went))
            kept = tuple(entry for entry in visit.entries if entry not in ahead)
            visit = replace(visit, entries=kept)
        yield visit
        if ahead and not again:
            yield Visit(one.owner, now, None, None, now.standing, ahead, to_come=True)
            ahead = ()


def _is_ahead(entry: Entry, went: date) -> bool:
    """Whether a line is about a coming that is still ahead of a tree that went."""
    event = entry.event
    if entry.undone or event.held or event.day < went:
        return False
    paid_ahead = event.act == "paid" and any(d.words in _PAID_AHEAD for d in event.all("how"))
    return event.day > went and (event.was("agreed", "quoted", "insured") or paid_ahead)


def _was_here(visit: Visit, things: Things) -> bool:
    """Whether a tree that nobody received stood here: its card says where, and not at its owner's,
    or something was done to it."""
    card = things.find(visit.owner)
    home = card.text("place") if card is not None else ""
    if visit.tree.place and visit.tree.place != home:
        return True
    return any(
        not one.undone and not one.event.held and "no_work" not in one.event.row.traits
        for one in visit.entries
    )


def _may_change_hands(entries: Sequence[Entry]) -> bool:
    """Whether anything was written by which a tree becomes somebody else's."""
    return any(one.event.was("sold", "received") for one in entries)


def _begins(entry: Entry, after: Tree) -> bool:
    """Whether a visit begins with a line: the tree comes, or is sold and stays where it is."""
    return entry.event.act in ARRIVALS or (entry.event.act == "sold" and after.here)


def _visit(entries: tuple[Entry, ...], begin: int, end: int, states: Mapping[int, Tree]) -> Visit:
    first = entries[begin] if begin < end else None
    after = states.get(begin + 1)
    comes = first is not None and after is not None and _begins(first, after)
    start = after if comes and after is not None else states[0]
    gone = next((n for n in range(begin, end) if _is_gone(states.get(n + 1))), None)
    last = states[gone + 1] if gone is not None else states[end] if end == len(entries) else start
    return Visit(
        start.owner,
        last,
        first.event.day if comes and first is not None else None,
        None if gone is None else entries[gone].event.day,
        last.standing,
        # What was done while it was one of a batch is on the batch's account.
        tuple(entry for entry in entries[begin:end] if not entry.within),
    )


def _is_gone(tree: Tree | None) -> bool:
    return tree is not None and tree.standing in _ENDS
