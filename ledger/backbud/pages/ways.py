"""The ways that end each page: the calendar of what it shows, to subscribe to, and its paper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct

from backbud.calendar.works import WORKS
from backbud.collection.state import Tree
from backbud.pages.links import (
    ALL_TASKS,
    EVERYTHING,
    WEEK,
    feed_path,
    label_anchor,
    labels_page,
    link,
)
from backbud.views.people import PersonView

# A phone takes an address of this sort as a calendar to subscribe to, not as a file to keep.
SUBSCRIBED = "webcal"


class PageWay(Struct, frozen=True):
    """What is reached, and its path below the output; `anchor`: the place on it."""

    words: str
    path: str
    anchor: str = ""


class Ways(Struct, frozen=True):
    """What a page ends with: its calendars, and its sheets for paper."""

    calendars: tuple[PageWay, ...]
    paper: tuple[PageWay, ...] = ()


_ALL = PageWay("all trees, by week", EVERYTHING)
_THE_WEEK = PageWay("the week", WEEK)
EVERY_PAGE = Ways((_ALL,), (_THE_WEEK,))
OF_BENCH = Ways((_ALL, PageWay("tasks to tick off", ALL_TASKS)), (_THE_WEEK,))
OF_YEAR = Ways(
    (_ALL, *(PageWay(work.title.lower(), feed_path("works", work.name)) for work in WORKS))
)


def ways_of_tree(tree: Tree) -> Ways:
    """A tree's calendar; its card, and its label where it stands here."""
    card = PageWay("its card, A5", "", "card")
    label = PageWay("its label", labels_page(tree.place), label_anchor(tree.handle))
    feed = PageWay(tree.title, feed_path("trees", tree.first_handle))
    return Ways((feed,), (card, label) if tree.here else (card,))


def of_place(handle: str, name: str, first_handles: Mapping[str, str]) -> Ways:
    """A place's calendar, that of all where nobody wrote the place; the labels of its trees."""
    feed = PageWay(name, feed_path("places", first_handles.get(handle, handle))) if handle else _ALL
    return Ways((feed,), (_THE_WEEK, PageWay("labels", labels_page(handle))))


def of_people(people: Iterable[PersonView], first_handles: Mapping[str, str]) -> Ways:
    """The calendar of everybody who has trees here."""
    feeds = tuple(
        PageWay(one.name, feed_path("owners", first_handles.get(one.person, one.person)))
        for one in people
        if one.trees
    )
    return Ways(feeds or (_ALL,))


def subscription(path: str, address: str, base: str) -> str:
    """The link to a calendar: one that a phone subscribes to where it is known how the pages are
    reached, else the way to the file."""
    _, found, rest = address.partition("://")
    return link(path, f"{SUBSCRIBED}://{rest.rstrip('/')}/" if found else base)
