"""Begins the history of a tree that comes of another: parted off, cut free, or raised from it."""

from __future__ import annotations

from msgspec.structs import replace

from backbud.collection.batch import RAISED, begun
from backbud.collection.batch_moves import batch_parted
from backbud.collection.stand import Start, canonical, part_off
from backbud.collection.subjects import Whereabouts
from backbud.collection.taken_down import Lines
from backbud.journal.events import Event
from backbud.journal.things import Thing, Things


def beginning(handle: str, first_handle: str, start: Start, card: Thing | None) -> Whereabouts:
    """A tree before its first line."""
    return Whereabouts(
        start,
        start.owner,
        start.place,
        start.pot,
        start.standing,
        handle=handle,
        first_handle=first_handle,
        kind=card.text("kind") if card else "",
        since=card.since if card else None,
        batch=start.batch,
        lines=Lines(),
    )


def parted_from(tree: Whereabouts, new: Whereabouts, event: Event, things: Things) -> None:
    """It was one of a batch: it begins with all that was done to the batch."""
    card_says = new.start
    new.since = new.since or tree.since or event.when
    new.start = replace(tree.start, standing="not yet", batch=None, one_tree=card_says.one_tree)
    new.parted, new.parted_from = event.day, tree.handle
    new.owner, new.place = tree.owner, tree.place
    new.batch = batch_parted(tree.batch, event)
    new.lines.inherit(tree.lines.copied(), tree.handle)
    part_off(new, card_says, event, things)


def raised_from(tree: Whereabouts, new: Whereabouts, event: Event, things: Things) -> None:
    """It was cut free, or raised from cuttings or seed: with the owner of the old one where its
    card does not say."""
    card_says = new.start
    new.since = new.since or event.when
    raised = event.act in RAISED
    # Nobody says where cuttings and seed stand; a layer stays with its mother at first.
    place = card_says.place or ("" if raised else tree.place)
    new.start = replace(card_says, owner=card_says.owner or tree.owner, place=place)
    new.owner, new.place = new.start.owner, new.start.place
    new.standing, new.standing_since = "here", event.day
    if raised:
        new.batch = None if card_says.one_tree else begun(event) or card_says.batch
        into = event.first("into")
        new.pot = (canonical(things, into.handle) if into else "") or new.pot
