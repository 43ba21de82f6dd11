"""Makes the parts of a large work in turn, every other one in a copy of this process."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TypeVar

from backbud.journal.room_for_copy import has_room_for_copy
from backbud.journal.second_process import SecondProcess, begun_beside

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
    left = deque(parts)
    second = _begun_for_second(left, there)
    try:
        while left:
            yield from here(left.popleft())
            if second is None:
                second = _begun_for_second(left, there)
                continue
            data, other = b"".join(second.pieces()), left.popleft()
            # The next is made while this one is taken over.
            second = None
            second = _begun_for_second(left, there)
            yield from came(data) if data else here(other)
    finally:
        if second is not None:
            deque(second.pieces(), maxlen=0)


def _begun_for_second(left: Sequence[Part], there: Callable[[Part], bytes]) -> SecondProcess | None:
    """A copy that makes the second of the parts that are left; None where it cannot be had."""
    if len(left) < 2 or not has_room_for_copy():
        return None
    return begun_beside(partial(_in_one_piece, there, left[1]))


def _in_one_piece(there: Callable[[Part], bytes], part: Part) -> Iterator[bytes]:
    """A copy that dies has sent nothing."""
    yield there(part)
