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
from backbud.journal.things import Thing, Things
from backbud_grammar.act_words import ActWord
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE

# What comes by these becomes one's own.
_COMES: tuple[ActWord, ...] = ("bought", "collected")
# What is agreed with its owner, or billed to them; a price may be told to who would buy it.
WITH_ITS_OWNER: frozenset[ActWord] = frozenset({"agreed", "billed"})
_NAME = re.compile(r"[^\W\d_]+")
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
    elif _is_agreed_with_another(event, tree, things):
        hint = (
            "Where the price was agreed with its owner, write agreed and the price, and who said "
            "so after “ -- ”; else begin the line with noted."
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
    return person is not None and not _is_owner(person, tree, things)


def _is_owner(person: Thing, tree: Whereabouts, things: Things) -> bool:
    """Whether a person owns a tree, or is called by the first of its owner's names: `Ty`, on a tree
    of Ty Beasley, and `Mrs O`, on one of Mrs Ostrander; or nobody knows whose it is."""
    if tree.owner in (person.handle, UNKNOWN_OWNER):
        return True
    owner = things.find(tree.owner) if tree.owner else None
    if owner is None:
        return False
    said, whole = (_NAME.findall(one.title.casefold()) for one in (person, owner))
    *first, last = said or [""]
    is_initial = len(last) == 1 and bool(first)
    return (
        0 < len(said) <= len(whole)
        and whole[: len(first)] == first
        and (whole[len(first)].startswith(last) if is_initial else whole[len(first)] == last)
    )


def _is_agreed_with_another(event: Event, tree: Whereabouts, things: Things) -> bool:
    """Whether a price is said, in other words, to be agreed with or billed to who does not
    own the tree: a helper who says yes agrees to nothing."""
    if event.act not in WITH_ITS_OWNER:
        return False
    said = (event.first("with") or event.first("to")) if event.own else None
    person = things.find(said.handle) if said is not None and said.handle else None
    return person is not None and not _is_owner(person, tree, things)


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
