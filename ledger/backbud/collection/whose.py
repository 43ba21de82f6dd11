"""Holds back what cannot be done with a tree: by whose it is, by where it stands, or where nobody
read of how many."""

from __future__ import annotations

import re

from backbud.collection.cannot_be import here_already
from backbud.collection.places import outward
from backbud.collection.stand import UNKNOWN_OWNER
from backbud.collection.subjects import Whereabouts
from backbud.journal.events import Event
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.journal.things import Things
from backbud_grammar.act_words import ActWord
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE

# What comes by these becomes one's own.
_COMES: tuple[ActWord, ...] = ("bought", "collected")
_FIGURE = re.compile(r"\d")


def cannot_be_done(event: Event, tree: Whereabouts, things: Things) -> PlacedFlaw | None:
    """What holds back a line; None where it can be done with the tree."""
    return (
        _how_many_unread(event, tree)
        or _not_ones_own(event, tree, things)
        or _another_place(event, tree, things)
    )


def _not_ones_own(event: Event, tree: Whereabouts, things: Things) -> PlacedFlaw | None:
    """What holds back a line by whose the tree is: nobody sells what is another's, or brings back
    to its owner what has none."""
    if tree.standing != "here":
        return None
    if tree.before and event.act not in _COMES:
        return None
    if event.act == "sold" and tree.owner:
        hint = (
            f"Where its owner has it back, write returned; where it was yours, write bought from "
            f"{tree.owner} before this."
        )
    elif event.act == "collected" and tree.owner:
        hint = "Where its owner came for it, write returned."
    elif event.act == "returned" and _goes_to_another(event, tree, things):
        hint = (
            "Write who has it back: its owner; where another took it along, say so after “ -- ”. "
            "What is yours is lent, or sold."
        )
    else:
        return _comes_again(event, tree)
    whose = f"belongs to “{tree.owner}”" if tree.owner else "is your own"
    message = f"“{tree.handle}” {whose}, {CHANGES_NOTHING}"
    return flaw_at(event.origin, HELD_CODE, message, hint, 0, len(event.act))


def _goes_to_another(event: Event, tree: Whereabouts, things: Things) -> bool:
    """Whether a tree is said, in other words, to go back to who does not own it: who picked it up
    may only have carried it."""
    to = event.first("to") if event.own else None
    person = things.find(to.handle) if to is not None and to.handle else None
    return person is not None and tree.owner != UNKNOWN_OWNER and person.handle != tree.owner


def _comes_again(event: Event, tree: Whereabouts) -> PlacedFlaw | None:
    """What holds back the buying or collecting of a tree that is one's own and here already."""
    adds = tree.batch is not None and event.has("quantity")
    if event.act not in _COMES or tree.owner or adds:
        return None
    if tree.before:
        before, tree.before = tree.before, ""
        return here_already(event, tree, before)
    message = f"“{tree.handle}” is yours and here already, {CHANGES_NOTHING}"
    hint = (
        "If it was away in between, write sold or returned before this; of another tree, write it "
        "below its own handle."
    )
    return flaw_at(event.origin, "here-already", message, hint, 0, len(event.act))


def _another_place(event: Event, tree: Whereabouts, things: Things) -> PlacedFlaw | None:
    """What holds back a move from where the tree does not stand: one of the two is wrong."""
    said = event.first("from") if event.act == "moved" else None
    start = things.find(said.handle) if said is not None and said.handle else None
    here = things.find(tree.place) if tree.place else None
    if start is None or here is None or start in outward(here, things):
        return None
    if here in outward(start, things):
        # The narrower place is told for the first time.
        return None
    message = f"“{tree.handle}” stands in “{tree.place}”, {CHANGES_NOTHING}"
    hint = f"Write the move to “{start.handle}” before this, or leave out from {start.handle}."
    return flaw_at(event.origin, HELD_CODE, message, hint, 0, len(event.act))


def _how_many_unread(event: Event, tree: Whereabouts) -> PlacedFlaw | None:
    """What holds back a line about a batch with a figure that nobody read: it means all of them
    only where no number is said."""
    if tree.batch is None or tree.batch.count == 1 or event.row.bearing == "keeps":
        return None
    unread = next((words for words in event.kept if _FIGURE.search(words)), "")
    if not unread or event.has("quantity"):
        return None
    return flaw_at(
        event.origin,
        "wrong-count",
        f"“{unread}” may say to how many of “{tree.handle}” it was done, {CHANGES_NOTHING}",
        "Write the number by itself, and free words after “ -- ”.",
        0,
        len(event.act),
    )
