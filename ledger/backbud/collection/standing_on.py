"""Says where a tree stood on a day, whose it was and whether it was here, without its history.

To fold one tree takes milliseconds; this is for whoever asks of all trees at once.
"""

from __future__ import annotations

from datetime import date

from backbud.collection.stand import Stand, canonical, part_off, stands_after, start_on_card
from backbud.collection.subjects import Whereabouts
from backbud.journal.things import Things


def standing_on(at: Whereabouts, things: Things, day: date) -> Stand:
    """How a tree stood at the end of a day."""
    last = at.lines.last_told
    if last is None or last.event.day <= day:
        # It stands so still.
        return at
    start = at.start
    stand = Stand(start, start.owner, start.place, start.pot, start.standing)
    if at.parted is not None and day < at.parted:
        stand.standing = "not yet"
        return stand
    for entry in at.lines.told:
        event = entry.event
        if event.day > day:
            break
        if entry.undone or event.held or entry.of is not None:
            continue
        if event.was("separated", "parted-off"):
            new = event.first("as")
            if new is not None and (canonical(things, new.words) or new.words) == at.handle:
                card = start_on_card(things.by_handle.get(at.handle), things, "here")
                part_off(stand, card, event, things)
            continue
        moves = stands_after(event.row)
        if moves is not None:
            moves(stand, event, things)
    return stand
