"""Holds back a line that takes something off a part of a tree where none of it is.

What a diary says came off must have been put on, or have been on before the diary began.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from backbud.collection.held import held
from backbud.collection.on_tree import put_on_by
from backbud.collection.state import Entry
from backbud.collection.subjects import Whereabouts
from backbud.journal.problems import PlacedFlaw, flaw_at, line_at
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE

# Of the parts that have any so many are told.
MOST_TOLD = 6


def held_where_nothing_is(
    entry: Entry, tree: Whereabouts, texts: Mapping[str, bytes]
) -> tuple[Entry, PlacedFlaw | None]:
    """The entry of a tree, held back where there is nothing on a part that it names, and why.

    `texts`: the bytes of each file.
    """
    event, effect = entry.event, put_on_by(entry.event.row)
    if not event.parts or effect is None:
        return entry, None
    change, on_tree = effect(event), tree.lines.on_tree
    part = on_tree.without(change)
    if not part:
        return entry, None
    things = on_tree.of(*change.off)
    places = list(dict.fromkeys(thing.part for thing in things))
    more = f" and {len(places) - MOST_TOLD} more" if len(places) > MOST_TOLD else ""
    offset = line_at(event.origin, texts).find(part, event.column - 1) - event.column + 1
    flaw = flaw_at(
        event.origin,
        HELD_CODE,
        f"no {things[0].sort} is on “{part}” of “{tree.handle}”, {CHANGES_NOTHING}",
        f"On it: {things[0].sort} on {', '.join(places[:MOST_TOLD])}{more}.",
        max(offset, 0),
        len(part) if offset > 0 else len(event.act),
    )
    return replace(entry, event=held(event)), flaw
