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
from backbud.tongue import continued, phrase
from backbud.views.people import PersonView

# A phone takes an address of this sort as a calendar to subscribe to, not as a file to keep.
SUBSCRIBED = "webcal"


class PageWay(Struct, frozen=True, gc=False):
    """What is reached, and its path below the output; `anchor`: the place on it."""

    words: str
    path: str
    anchor: str = ""


class Ways(Struct, frozen=True, gc=False):
    """What a page ends with: its calendars, and its sheets for paper."""

    calendars: tuple[PageWay, ...]
    paper: tuple[PageWay, ...] = ()


def every_page() -> Ways:
    """The ways from any page: the calendar of all trees, and the week."""
    return Ways((_all(),), (_the_week(),))


def of_bench() -> Ways:
    """Those of the first page: what can be ticked off, too."""
    return Ways((_all(), PageWay(phrase("tasks to tick off"), ALL_TASKS)), (_the_week(),))


def of_year() -> Ways:
    """Those of the year: the calendar of each kind of work."""
    kinds = (PageWay(continued(phrase(one.title)), feed_path("works", one.name)) for one in WORKS)
    return Ways((_all(), *kinds))


def _all() -> PageWay:
    return PageWay(phrase("all trees, by week"), EVERYTHING)


def _the_week() -> PageWay:
    return PageWay(phrase("the week"), WEEK)


def ways_of_tree(tree: Tree) -> Ways:
    """A tree's calendar; its card, and its label where it stands here."""
    card = PageWay(phrase("its card, A5"), "", "card")
    label = PageWay(phrase("its label"), labels_page(tree.place), label_anchor(tree.handle))
    feed = PageWay(tree.title, feed_path("trees", tree.first_handle))
    return Ways((feed,), (card, label) if tree.here else (card,))


def of_place(handle: str, name: str, first_handles: Mapping[str, str]) -> Ways:
    """A place's calendar, that of all where nobody wrote the place; the labels of its trees."""
    feed = (
        PageWay(name, feed_path("places", first_handles.get(handle, handle))) if handle else _all()
    )
    return Ways((feed,), (_the_week(), PageWay(phrase("labels"), labels_page(handle))))


def of_people(people: Iterable[PersonView], first_handles: Mapping[str, str]) -> Ways:
    """The calendar of everybody who has trees here."""
    feeds = tuple(
        PageWay(one.name, feed_path("owners", first_handles.get(one.person, one.person)))
        for one in people
        if one.trees
    )
    return Ways(feeds or (_all(),))


def subscription(path: str, address: str, base: str) -> str:
    """The link to a calendar: one that a phone subscribes to where it is known how the pages are
    reached, else the way to the file."""
    _, found, rest = address.partition("://")
    return link(path, f"{SUBSCRIBED}://{rest.rstrip('/')}/" if found else base)
