"""Plans the trees of a large collection by two processes, a few trees at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import chain

from backbud.journal.shared_out import shared_out
from backbud.plan.sent_plan import CannotBeSent

# Of fewer trees it takes no longer to plan all than to begin a process and take over its answer.
MANY_TREES = 400
# So many are planned at a time: neither process waits for the other's last ones for long.
_TREES = 40


def planned_by_two(
    handles: Sequence[str],
    folder: str,
    planned: Callable[[str], None],
    sent: Callable[[str], bytes],
    came: Callable[[bytes], str],
) -> bool:
    """Plan each of these trees, here or in a copy of this process; False, and none is planned,
    where that would gain nothing or there can be no copy.

    `planned`: plans one here. `sent`: plans one there and puts it into octets. `came`: takes these
    over, and tells whose they are. `folder`: where a large file may lie.
    """
    if len(handles) < MANY_TREES:
        return False
    parts = [handles[at : at + _TREES] for at in range(0, len(handles), _TREES)]

    def made(part: int) -> Iterator[bytes]:
        for handle in parts[part]:
            try:
                yield sent(handle)
            except CannotBeSent:
                continue

    shared = shared_out(len(parts), folder, made)
    if shared is None:
        return False
    there: set[str] = set()
    with shared:
        for part, pieces in shared.parts():
            if pieces is None:
                for handle in parts[part]:
                    planned(handle)
                    there.add(handle)
            else:
                there.update(map(came, pieces))
    for handle in chain.from_iterable(parts):
        if handle not in there:
            planned(handle)
    return True
