"""Makes a number of a person who asked to be forgotten, from the day that their card says on.

The diary's own lines stay as they are written: who was forgotten is found by every name they had,
and shown by none of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec.structs import replace

from backbud.journal.things import Thing, Things
from backbud_grammar.dates import read_date
from backbud_grammar.handles import fold
from backbud_grammar.problems import Misread

# What work and prices are reckoned with, and what tells that it is a number.
_KEPT = frozenset({"since", "rate", "forgotten"})


def with_numbers(things: Things, today: date) -> Things:
    """The same things, with a number in the place of each person who is forgotten by the day."""
    found = sorted(_forgotten(things, today), key=lambda one: one[0])
    if not found:
        return things
    by_handle, spellings = dict(things.by_handle), dict(things.spellings)
    hidden: dict[str, tuple[str, ...]] = {}
    number = 0
    for _, person in found:
        number += 1
        while fold(f"person-{number}") in spellings:
            number += 1
        handle = f"person-{number}"
        known = [written for written, whose in spellings.items() if whose == person.handle]
        hidden[handle] = tuple(dict.fromkeys((person.title, person.handle, *known)))
        spellings |= dict.fromkeys((*known, handle), handle)
        del by_handle[person.handle]
        lines = tuple(line for line in person.lines if line.detail.name in _KEPT)
        by_handle[handle] = replace(person, handle=handle, first_handle=handle, lines=lines)
    return Things(by_handle, spellings, hidden)


def _forgotten(things: Things, today: date) -> Iterator[tuple[date, Thing]]:
    """In the order of their cards, so that who is forgotten later has a later number."""
    for person in things.of_kind("person"):
        detail = person.detail("forgotten")
        if detail is None or not detail.date:
            continue
        try:
            when = read_date(detail.date)
        except Misread:
            continue
        if when.first <= today:
            yield when.first, person
