"""Holds back what cannot be done with a tree because of whose it is, or of how many nobody read."""

from __future__ import annotations

import re

from backbud.collection.subjects import Whereabouts
from backbud.journal.events import Event
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE

_FIGURE = re.compile(r"\d")


def not_ones_own(event: Event, tree: Whereabouts) -> PlacedFlaw | None:
    """What holds back a line by whose the tree is: nobody sells what is another's, or brings back
    to its owner what has none."""
    if tree.standing != "here" or tree.before:
        return None
    if event.act == "sold" and tree.owner:
        hint = (
            f"Where its owner has it back, write returned; where it was yours, write bought from "
            f"{tree.owner} before this."
        )
    elif event.act == "collected" and tree.owner:
        hint = "Where its owner came for it, write returned."
    else:
        return None
    message = f"“{tree.handle}” belongs to “{tree.owner}”, {CHANGES_NOTHING}"
    return flaw_at(event.origin, HELD_CODE, message, hint, 0, len(event.act))


def how_many_unread(event: Event, tree: Whereabouts) -> PlacedFlaw | None:
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
