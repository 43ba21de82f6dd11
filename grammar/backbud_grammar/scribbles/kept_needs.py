"""Keeps between runs what the patterns of the tables need, since to work it out takes a while.

It is in the person's own cache folder, with the parser's tables.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Collection, Sequence

from msgspec import MsgspecError, Struct, msgpack

from backbud_grammar.cache_folder import keep_in_cache, recalled_from_cache
from backbud_grammar.version import language_mark

# For each way to write a pattern some sets of stretches of letters, of each of which one must stand
# in a text that it fits.
Needs = tuple[tuple[frozenset[str], ...], ...]
_NAME = "needed-words"


class _NeedsTable(Struct):
    """What is kept, and of which version of the tables it is."""

    mark: str
    needs: dict[str, Needs]


class KeptNeeds:
    """What patterns need, worked out by `work_out` where no earlier run did."""

    def __init__(self, work_out: Callable[[str], Needs]) -> None:
        self._work_out = work_out
        self._known: dict[str, Needs] | None = None

    def of(self, patterns: Sequence[str], own: Collection[str]) -> list[Needs]:
        """What each of some patterns needs. `own`: those that are of one journal, and not kept."""
        if self._known is None:
            self._known = recalled_needs()
        known = self._known
        new = {one: self._work_out(one) for one in patterns if one not in known and one not in own}
        if new:
            known.update(new)
            table = msgpack.encode(_NeedsTable(_mark(), known))
            keep_in_cache(_NAME, lambda file: file.write(table))
        return [known[one] if one in known else self._work_out(one) for one in patterns]


def recalled_needs() -> dict[str, Needs]:
    """What an earlier run of this version kept."""
    data = recalled_from_cache(_NAME, lambda file: file.read())
    try:
        table = msgpack.decode(data or b"", type=_NeedsTable)
    except MsgspecError:
        return {}
    return table.needs if table.mark == _mark() else {}


def _mark() -> str:
    return f"{sys.version} {language_mark()}"
