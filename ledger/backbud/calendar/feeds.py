"""Follow-ups and their trees go in; iCalendar feeds (RFC 5545, RFC 7986) come out as bytes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING
from zlib import crc32

from msgspec import Struct

from backbud.calendar.entries import CalendarEntry, entry_of, one_line, url_of
from backbud.calendar.revisions import (
    Revision,
    Revisions,
    revised,
    stamped,
    worth_keeping,
)
from backbud.collection.state import Tree
from backbud.journal.settings import Show
from backbud.pages.links import tree_page
from backbud.plan.followups import FollowUp

if TYPE_CHECKING:
    from icalendar import Timezone

EVERYTHING = "calendars/all.ics"
_PRODUCT = "-//backbud//backbud//EN"
_REFRESH = timedelta(hours=12)
# Dark enough to read on white; names that CSS has had since its first level.
_COLOURS = ("green", "teal", "navy", "purple", "maroon", "olive")
_END = b"END:VCALENDAR\r\n"


class Feed(Struct, frozen=True):
    """One calendar to subscribe to: its path in the output and the follow-ups it shows."""

    path: str
    name: str
    description: str
    follow_ups: tuple[FollowUp, ...]


def feeds_of(
    follow_ups: Iterable[FollowUp], trees: Mapping[str, Tree], names: Mapping[str, str]
) -> tuple[Feed, ...]:
    """Return every feed with its open follow-ups.

    `trees`: by handle. `names`: of places and persons, by handle. Every tree has its feed, with
    work or without, so that who subscribes sees that nothing is left to do. Its path has the
    tree's first handle, so that it stays when the tree is renamed, and else is named as its page.
    """
    still_open = tuple(f for f in follow_ups if f.outcome == "open")
    return tuple(feed for sort in SORTS for feed in sort(still_open, trees, names))


def _everything(
    follow_ups: tuple[FollowUp, ...], trees: Mapping[str, Tree], names: Mapping[str, str]
) -> Iterator[Feed]:
    yield Feed(EVERYTHING, "All trees", "What falls due on every tree.", follow_ups)


def _by_tree(
    follow_ups: tuple[FollowUp, ...], trees: Mapping[str, Tree], names: Mapping[str, str]
) -> Iterator[Feed]:
    of_tree: dict[str, list[FollowUp]] = {handle: [] for handle in trees}
    for follow_up in follow_ups:
        of_tree[follow_up.tree].append(follow_up)
    for handle, tree in trees.items():
        yield Feed(
            f"calendars/{tree_page(tree.first_handle).removesuffix('.html')}.ics",
            tree.title,
            f"What falls due on {', '.join(filter(None, (tree.title, tree.kind)))}.",
            tuple(of_tree[handle]),
        )


# Every sort of feed; another sort is one more function here.
Sort = Callable[[tuple[FollowUp, ...], Mapping[str, Tree], Mapping[str, str]], Iterator[Feed]]
SORTS: tuple[Sort, ...] = (_everything, _by_tree)


def write_feeds(
    feeds: Sequence[Feed],
    trees: Mapping[str, Tree],
    names: Mapping[str, str],
    today: date,
    journal_id: str,
    remembered: Revisions,
    *,
    show: Show = "best day",
    base_url: str = "",
) -> tuple[dict[str, bytes], Revisions]:
    """Return each feed's bytes by its path, and the revisions to remember for the next run.

    What has lapsed on `today` is left out; else `today` only enters the revision of an entry that
    is new or has changed. `show`: an entry lies on the best day of its window, or spans all of it.
    `base_url`: an absolute URI under which the output is served; without it no entry has a URL.
    Raises ValueError where two different follow-ups have one id.
    """
    entries: dict[str, CalendarEntry] = {}
    revisions: dict[str, Revision] = {}
    for follow_up in _shown(feeds, today):
        tree = trees[follow_up.tree]
        place = names.get(tree.place, tree.place)
        entry = entry_of(follow_up, tree, place, journal_id, show, base_url)
        entries[follow_up.id] = entry
        revisions[entry.uid] = revised(remembered.get(entry.uid), entry.content, today)
    files = {feed.path: _feed(feed, entries, revisions, base_url) for feed in feeds}
    kept = {uid: old for uid, old in remembered.items() if worth_keeping(old, today)}
    return files, kept | revisions


def _shown(feeds: Sequence[Feed], today: date) -> list[FollowUp]:
    """Every follow-up of the feeds once, without those that lapsed or whose next one is there."""
    found: dict[str, FollowUp] = {}
    for feed in feeds:
        for follow_up in feed.follow_ups:
            known = found.setdefault(follow_up.id, follow_up)
            if known is not follow_up and known != follow_up:
                raise ValueError(f"two different follow-ups have the id {follow_up.id}")
    return [f for f in found.values() if f.state(today) not in ("lapsed", "replaced")]


def _feed(
    feed: Feed, entries: Mapping[str, CalendarEntry], revisions: Revisions, base_url: str
) -> bytes:
    """One feed's bytes. Entries were written once for all feeds, and are only put in here."""
    from icalendar import Calendar, vDuration, vText, vUri

    calendar = Calendar()
    calendar.add("version", vText("2.0"))
    calendar.add("prodid", vText(_PRODUCT))
    calendar.add("calscale", vText("GREGORIAN"))
    calendar.add("name", vText(one_line(feed.name)))
    calendar.add("description", vText(one_line(feed.description)))
    calendar.add("color", vText(_COLOURS[crc32(feed.path.encode()) % len(_COLOURS)]))
    calendar.add("refresh-interval", vDuration(_REFRESH), parameters={"VALUE": "DURATION"})
    if base_url:
        calendar.add("source", vUri(url_of(base_url, feed.path)), parameters={"VALUE": "URI"})
    shown = {f.id: entries[f.id] for f in feed.follow_ups if f.id in entries}
    if not shown:
        calendar.add_component(_utc())
    in_order = sorted(shown.values(), key=lambda entry: (entry.start, entry.uid))
    lines = [stamped(entry.content, revisions[entry.uid]) for entry in in_order]
    return b"".join([calendar.to_ical().removesuffix(_END), *lines, _END])


def _utc() -> Timezone:
    """What stands in a feed that shows nothing, since one component must (RFC 5545 §3.6): people
    see nothing of it, and the subscription stays."""
    from icalendar import Timezone, TimezoneStandard

    standard = TimezoneStandard()
    standard.add("dtstart", datetime(1970, 1, 1))
    standard.add("tzoffsetfrom", timedelta())
    standard.add("tzoffsetto", timedelta())
    zone = Timezone()
    zone.add("tzid", "Etc/UTC")
    zone.add_component(standard)
    return zone
