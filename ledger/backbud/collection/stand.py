"""Says how each act changes where a tree stands, whose it is, its pot, and whether it is here.

The replay of the whole journal and the fold of one tree both ask this, so it stands apart.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from msgspec import Struct

from backbud.collection.batch import ARRIVALS, RAISED, Batch, batch_on_card, is_of_one_tree
from backbud.collection.state import Standing
from backbud.journal.events import Event
from backbud.journal.things import Thing, Things
from backbud_grammar.act_words import ActWord, DetailWord, as_act
from backbud_grammar.forms import ActForm

DEPARTURES: Mapping[ActWord, Standing] = {
    "sold": "sold",
    "lent": "lent",
    "returned": "returned",
    "died": "died",
    "lost": "lost",
}


# Somebody's, but nobody knows whose: no handle is so written.
UNKNOWN_OWNER = "?"


class Start(Struct, frozen=True, gc=False):
    """How a tree stood before the first line about it; handles, or "".

    `batch`: how many its card says that there are. `one_tree`: the card tells of one tree alone.
    """

    owner: str
    place: str
    pot: str
    standing: Standing
    batch: Batch | None = None
    one_tree: bool = False


class Stand(Struct):
    """Whose a tree is, where it stands, in which pot, and whether it is here, at some moment.

    `batch`: how many there are, where the handle stands for more than one tree.
    """

    start: Start
    owner: str
    place: str
    pot: str
    standing: Standing
    standing_since: date | None = None
    planted_out: bool = False
    batch: Batch | None = None


def start_on_card(card: Thing | None, things: Things, standing: Standing) -> Start:
    """How a tree stands by its card."""
    if card is None:
        return Start("", "", "", standing)
    return Start(
        owner_on_card(card, things),
        canonical(things, card.text("place")),
        canonical(things, card.text("pot")),
        standing,
        batch_on_card(card),
        is_of_one_tree(card),
    )


def owner_on_card(card: Thing, things: Things) -> str:
    """Whose a tree is by its card: a person's handle, "" for the keeper's own.

    UNKNOWN_OWNER where a line tells of an owner and names nobody that is known: a slip of the pen
    must not make a customer's tree the keeper's.
    """
    written = card.text("owner")
    if not written:
        return UNKNOWN_OWNER if "owner" in card.unread else ""
    found = things.find(written)
    return found.handle if found is not None and found.kind == "person" else UNKNOWN_OWNER


def canonical(things: Things, written: str) -> str:
    """The handle by which a thing is known, however it is written; "" where there is none."""
    found = things.find(written) if written else None
    return found.handle if found else ""


def _arrived(stand: Stand, event: Event, things: Things) -> None:
    if event.act == "bought":
        stand.owner = ""
    sender = event.first("from")
    lent_for_work = event.has("for") or event.has("on loan")
    if event.act == "received" and sender is not None and lent_for_work and not stand.owner:
        stand.owner = canonical(things, sender.handle)
    stand.place = stand.place or stand.start.place
    stand.standing, stand.standing_since = "here", event.day
    _potted(stand, event, things)


def is_its_beginning(stand: Stand, act: ActWord) -> bool:
    """Whether an act of `RAISED` begins this very tree; of any other act, true."""
    return act not in RAISED or stand.standing == "not yet"


def _raised(stand: Stand, event: Event, things: Things) -> None:
    if is_its_beginning(stand, event.act):
        _arrived(stand, event, things)


# What died, or nobody found again, is last known where it stood.
_WENT_AWAY: tuple[ActWord, ...] = ("sold", "returned")


def _left(stand: Stand, event: Event, things: Things) -> None:
    to = event.first("to")
    if event.act == "returned" and stand.standing == "lent" and to is None:
        stand.standing, stand.standing_since = "here", event.day
        return
    if event.act == "sold" and to is not None:
        stand.owner = canonical(things, to.handle) or stand.owner
    if event.says("stays"):
        return
    stand.standing, stand.standing_since = DEPARTURES[event.act], event.day
    if event.act in _WENT_AWAY:
        stand.place = ""


def _moved(stand: Stand, event: Event, things: Things) -> None:
    to = event.first("to")
    place = canonical(things, to.handle) if to is not None else ""
    if event.act == "planted-out":
        stand.planted_out, stand.pot = True, ""
    elif place and place != stand.place:
        stand.planted_out = False
    stand.place = place or stand.place


# How roots are cut of a tree that stands in open ground, whatever else is written of it.
_IN_THE_GROUND: tuple[DetailWord, ...] = ("in the ground", "trenched", "by spade")


def _root_pruned(stand: Stand, event: Event, things: Things) -> None:
    if event.says(*_IN_THE_GROUND):
        stand.planted_out, stand.pot = True, ""


def _potted(stand: Stand, event: Event, things: Things) -> None:
    into = event.first("into")
    pot = canonical(things, into.handle) if into is not None else ""
    if pot:
        stand.pot, stand.planted_out = pot, False
    elif event.has("pot size"):
        # A pot that is on no card, so that it no longer stands in the one that is.
        stand.pot, stand.planted_out = "", False


def part_off(stand: Stand, card: Start, event: Event, things: Things) -> None:
    """One of a batch, or some, begin to stand for themselves; `card`: what the new card says.

    Where the batch stood in a tray, what is parted off it does no more.
    """
    to, into = event.first("to"), event.first("into")
    place = canonical(things, to.handle) if to is not None else ""
    stand.place = place or card.place or stand.place
    stand.pot = (canonical(things, into.handle) if into is not None else "") or card.pot
    stand.owner = card.owner or stand.owner
    stand.standing, stand.standing_since, stand.planted_out = "here", event.day, False


def _lifted(stand: Stand, event: Event, things: Things) -> None:
    """Out of open ground, and into the pot that is named."""
    _moved(stand, event, things)
    stand.planted_out = False
    _potted(stand, event, things)


STANDS: Mapping[ActWord, Callable[[Stand, Event, Things], None]] = {
    **dict.fromkeys(ARRIVALS, _arrived),
    **dict.fromkeys(RAISED, _raised),
    **dict.fromkeys(DEPARTURES, _left),
    **dict.fromkeys(("moved", "planted-out", "quarantined"), _moved),
    "lifted": _lifted,
    "root-pruned": _root_pruned,
}


def stands_after(act: ActForm) -> Callable[[Stand, Event, Things], None] | None:
    """What an act changes of a tree's standing; None where it changes nothing."""
    return STANDS.get(as_act(act.word)) or (_potted if "fills_pot" in act.traits else None)
