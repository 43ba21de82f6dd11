"""Tells which pictures the diary names, of which tree, from which side."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Iterator
from os.path import isabs

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.journal.events import Event, Origin
from backbud.journal.events_again import events_again
from backbud.journal.read import Journal
from backbud.memo import NO_MEMO, Memo
from backbud_grammar.act_words import ActWord
from backbud_grammar.dates import WrittenDate

# What is read. Anything else with an ending is a file that no page can show.
ENDINGS = ("jpg", "jpeg", "png", "webp", "heic", "heif")
ACT: ActWord = "photographed"
_HAS_ENDING = re.compile(r"\.[A-Za-z0-9]{1,5}$")


class Named(Struct, frozen=True):
    """A picture as a line names it.

    `path`: from the journal's folder, or as written where it leads out of it. `side`: front, back,
    left, right, above, roots …, or "". `when`: the date of the page. `for_owner`, `for_public`:
    marked for the tree's owner to see, or for anybody.
    """

    path: str
    side: str
    when: WrittenDate
    origin: Origin
    written: str
    for_owner: bool = False
    for_public: bool = False

    @property
    def is_outside(self) -> bool:
        """Whether it leads out of the journal's folder."""
        path = self.path
        return path == ".." or path.startswith("../") or isabs(path) or path[1:2] == ":"

    @property
    def is_shown(self) -> bool:
        """Whether a page can show a file of such an ending."""
        return self.path.rpartition(".")[2].casefold() in ENDINGS


def pictures_of(tree: Tree) -> tuple[Named, ...]:
    """Every picture that the diary names of a tree, oldest first; words that name no file are
    none."""
    counted = (entry.event for entry in tree.history if not entry.undone)
    return tuple(picture for event in counted for picture in _in_event(event))


def pictures_in(journal: Journal, kept: Memo = NO_MEMO) -> tuple[Named, ...]:
    """Every picture that a line of the diary names, page by page, whatever became of the line."""
    events = events_again(journal.pages, kept, ACT)
    return tuple(picture for event in events for picture in _in_event(event))


def paths_of(pictures: Iterable[Named]) -> tuple[str, ...]:
    """The path of each picture that lies in the journal, or should; each once, sorted."""
    return tuple(sorted({one.path for one in pictures if one.is_shown and not one.is_outside}))


def marked_for(event: Event, whom: str) -> bool:
    """Whether a line about a picture says that the `owner`, or the `public`, may see it."""
    return any(whom in detail.words.casefold().split() for detail in event.all("for"))


def _in_event(event: Event) -> Iterator[Named]:
    if event.act != ACT:
        return
    side = event.first("side")
    for file in event.all("file"):
        written = file.words.strip()
        if _HAS_ENDING.search(written):
            path = posixpath.normpath(written.replace("\\", "/"))
            yield Named(path, side.words if side else "", event.when, event.origin, written,
                        marked_for(event, "owner"), marked_for(event, "public"))  # fmt: skip
