"""The kinds of work that have a feed, and what a person calls them."""

from __future__ import annotations

from typing import NamedTuple

from backbud_grammar.forms import WorkName


class Work(NamedTuple):
    """A kind of work: its name in the rows of acts and in its feed's path, and its title."""

    name: WorkName
    title: str


# Every act of the language is one of these; a plugin's may be too.
WORKS: tuple[Work, ...] = (
    Work("roots", "Root work"),
    Work("branches", "Branches and leaves"),
    Work("wire", "Wire and guys"),
    Work("deadwood", "Deadwood"),
    Work("feed", "Feed"),
    Work("water", "Water"),
    Work("watch", "Watch"),
    Work("shelter", "Places and shelter"),
    Work("health", "Pests and hygiene"),
    Work("propagation", "New trees"),
    Work("business", "Coming and going"),
    Work("planning", "Plans"),
)
OTHER = Work("other", "Other work")
