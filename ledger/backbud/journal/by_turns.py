"""Makes the parts of a large work in turn, every other one in a copy of this process."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TypeVar

from backbud.journal.room_for_copy import has_room_for_copy
from backbud.journal.second_process import begun_beside

Part = TypeVar("Part")
Made = TypeVar("Made")


def by_turns(
    parts: Sequence[Part],
    here: Callable[[Part], Iterator[Made]],
    there: Callable[[Part], bytes],
    came: Callable[[bytes], Iterator[Made]],
) -> Iterator[Made]:
    """What is made of each part, in the order of the parts.

    `here`: makes one; `there`: makes one in a copy and puts it into octets, of which there are
    some, and writes nothing; `came`: takes these over. A part that does not come back whole is made
    here. Each copy makes one part: what both write to is soon one again.
    """
    left = list(parts)
    while left:
        part, *left = left
        if not (left and has_room_for_copy()):
            yield from here(part)
            continue
        other, *left = left
        second = begun_beside(partial(_in_one_piece, there, other))
        try:
            yield from here(part)
        finally:
            data = b"".join(second.pieces()) if second is not None else b""
        yield from came(data) if data else here(other)


def _in_one_piece(there: Callable[[Part], bytes], part: Part) -> Iterator[bytes]:
    """A copy that dies has sent nothing."""
    yield there(part)
