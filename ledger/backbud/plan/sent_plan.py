"""Puts what was planned of one tree into octets, for another process of the same run, and back.

What both processes have is only named: the act's row by its word, the line that settled a work by
its place in the tree's history.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any, get_type_hints

import msgspec
from msgspec import Struct

from backbud.collection.state import Entry
from backbud.plan.followups import FollowUp
from backbud_grammar.forms import ActForm

# The fields that are only named: by a word, by a number.
_NAMED: Mapping[str, Any] = {"row": str, "settled": int | None}
_FIELDS = tuple(
    (name, _NAMED.get(name, sort))
    for name, sort in get_type_hints(FollowUp).items()
    if name in FollowUp.__struct_fields__
)
_SentFollowUp: Any = msgspec.defstruct("_SentFollowUp", _FIELDS, array_like=True, gc=False)
_ROW = FollowUp.__struct_fields__.index("row")
_SETTLED = FollowUp.__struct_fields__.index("settled")


class _SentTree(Struct, array_like=True, gc=False):
    """What was planned of a tree. `handle`: whose it is; `follow_ups`, `bites`: as the plan has
    them."""

    handle: str
    follow_ups: list[_SentFollowUp]
    bites: tuple[date | None, ...]


_TREE = msgspec.msgpack.Decoder(_SentTree)


class CannotBeSent(ValueError):
    """A follow-up holds what the other process does not have."""


def sent_tree(
    handle: str,
    follow_ups: Sequence[FollowUp],
    bites: tuple[date | None, ...],
    entries: Sequence[Entry],
    acts: Mapping[str, ActForm],
) -> bytes:
    """What was planned of a tree. `entries`: its history; `acts`: the journal's table of acts.

    CannotBeSent where it holds a line or a row that is in neither.
    """
    places = {id(entry.event): at for at, entry in enumerate(entries)}

    def sent(one: FollowUp) -> Any:
        values = [getattr(one, name) for name in FollowUp.__struct_fields__]
        row, settled = one.row, one.settled
        if acts.get(row.word) is not row:
            raise CannotBeSent(row.word)
        values[_ROW] = row.word
        if settled is not None:
            if id(settled) not in places:
                raise CannotBeSent(str(settled.origin))
            values[_SETTLED] = places[id(settled)]
        return _SentFollowUp(*values)

    return msgspec.msgpack.encode(_SentTree(handle, list(map(sent, follow_ups)), bites))


def tree_that_came(
    data: bytes, entries_of: Callable[[str], Sequence[Entry]], acts: Mapping[str, ActForm]
) -> tuple[str, tuple[FollowUp, ...], tuple[date | None, ...]]:
    """A tree's handle, its follow-ups and its bites. `entries_of`: finds its history."""
    tree = _TREE.decode(data)
    history = entries_of(tree.handle)

    def came(one: Any) -> FollowUp:
        values = [getattr(one, name) for name in FollowUp.__struct_fields__]
        values[_ROW] = acts[values[_ROW]]
        settled = values[_SETTLED]
        if settled is not None:
            values[_SETTLED] = history[settled].event
        return FollowUp(*values)

    return tree.handle, tuple(map(came, tree.follow_ups)), tree.bites
