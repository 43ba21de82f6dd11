"""The kinds of work that have a feed, and what a person calls them."""

from __future__ import annotations

from typing import NamedTuple

from backbud_grammar.forms import WorkName


class WorkKind(NamedTuple):
    """A kind of work: its name in the rows of acts and in its feed's path, and its title."""

    name: WorkName
    title: str


# Every act of the language is one of these; a plugin's may be too.
WORKS: tuple[WorkKind, ...] = (
    WorkKind("roots", "Root work"),
    WorkKind("branches", "Branches and leaves"),
    WorkKind("wire", "Wire and guys"),
    WorkKind("deadwood", "Deadwood"),
    WorkKind("feed", "Feed"),
    WorkKind("water", "Water"),
    WorkKind("watch", "Watch"),
    WorkKind("shelter", "Places and shelter"),
    WorkKind("health", "Pests and hygiene"),
    WorkKind("propagation", "New trees"),
    WorkKind("business", "Coming and going"),
    WorkKind("planning", "Plans"),
)
OTHER = WorkKind("other", "Other work")
