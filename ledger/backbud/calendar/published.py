"""Reads the revisions of entries out of the feeds of the last run, where no other are left."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from backbud.calendar.revisions import Revision, Revisions, published_revisions
from backbud.calendar.which_feeds import Feed
from backbud.pages.links import ALL_TASKS, EVERYTHING, FEEDS


def published(feeds: Iterable[Feed], read: Callable[[str], bytes]) -> Revisions:
    """Return the revisions that the feeds of the last run carry, where what was remembered is lost.

    `read`: the bytes of a file of the output, b"" where there is none.
    """
    found: dict[str, Revision] = {}
    for feed in feeds:
        if feed.owner or feed.path in (EVERYTHING, ALL_TASKS) or _is_of_tree(feed.path):
            found |= published_revisions(read(feed.path), feed.owner)
    return found


def _is_of_tree(path: str) -> bool:
    return path.startswith(f"{FEEDS}trees/")
