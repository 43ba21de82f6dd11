"""Keeps the path of a feed that is made no more: for a year it says where its works went.

Whoever subscribed would else see an error, or an old feed for ever. The day on which a feed ended
is that of its one entry's revision, so nothing else need be remembered.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec import Struct

from backbud.calendar import notes
from backbud.calendar.entries import CalendarEntry, entry_of, joint_uid_of, url_of
from backbud.calendar.lines import content_line, day_value, one_line, text_line
from backbud.calendar.revisions import Revisions
from backbud.journal.settings import Settings
from backbud.pages.links import ALL_TASKS, EVERYTHING, FEEDS, TASKS
from backbud.tongue import full_day, phrase

_SORT = "ended"
KEEPS_ITS_PATH = timedelta(days=365)
# So long its entry stands in the calendar.
_SHOWN = timedelta(days=28)
_OWNERS = "owners/"


class EndedFeed(Struct, frozen=True):
    """A feed that ended on a day. `instead`: the path of the one that shows its works now, ""
    where there is none for the same eyes."""

    path: str
    since: date
    instead: str = ""

    @property
    def name(self) -> str:
        """As the settings name it: `tasks/trees/hoshi`."""
        return self.path.removeprefix(FEEDS).removesuffix(".ics")

    @property
    def tasks(self) -> bool:
        return self.name.startswith(TASKS)


def ended_feeds(
    once_written: Iterable[str], now: Iterable[str], remembered: Revisions, settings: Settings,
    today: date,
) -> tuple[EndedFeed, ...]:  # fmt: skip
    """Return the feeds that ended within a year. `once_written`: the paths of the last output."""
    made = set(now)
    sort = f"{_SORT}:"
    known = {_path_of(key) for key in remembered if key.startswith(sort)}
    gone = {path for path in once_written if path.startswith(FEEDS) and path.endswith(".ics")}
    found = []
    for path in sorted((gone | known) - made - {""}):
        before = remembered.get(uid_of_ended(path, settings.journal_id))
        since = today if before is None else before.stamp
        if today - since <= KEEPS_ITS_PATH:
            found.append(EndedFeed(path, since, _instead_of(path, made)))
    return tuple(found)


def uid_of_ended(path: str, journal_id: str) -> str:
    """The UID of the one entry of a feed that ended."""
    return joint_uid_of(f"{_SORT}:{path}", journal_id)


def is_of_ended(uid: str) -> bool:
    """Whether a UID is that of a feed's end, which nobody need do."""
    return uid.startswith(f"{_SORT}:")


def entry_of_ended(feed: EndedFeed, settings: Settings) -> CalendarEntry:
    """The one entry: a task where the feed held tasks, so that it stands where they stood."""
    uid = uid_of_ended(feed.path, settings.journal_id)
    first, last = day_value(feed.since), day_value(feed.since + _SHOWN)
    lines = [
        text_line("UID", uid),
        text_line("SUMMARY", phrase("this calendar has ended")),
        text_line("DESCRIPTION", _note(feed, settings)),
    ]
    if feed.tasks:
        lines += [content_line("DUE;VALUE=DATE", last), content_line("STATUS", "NEEDS-ACTION")]
        return entry_of("VTODO", feed.since, uid, lines)
    lines += [
        content_line("DTSTART;VALUE=DATE", first),
        content_line("DTEND;VALUE=DATE", last),
        content_line("TRANSP", "TRANSPARENT"),
    ]
    return entry_of("VEVENT", feed.since, uid, lines)


def _note(feed: EndedFeed, settings: Settings) -> str:
    until = full_day(feed.since + KEEPS_ITS_PATH)
    if not feed.instead:
        return phrase("Nothing stands in it any more. Its address ends on {until}.", until=until)
    is_shown = settings.base_url and not is_of_owner(feed)
    link = url_of(settings.base_url, feed.instead) if is_shown else ""
    said = phrase(
        "Its works stand in {instead}: subscribe to that. This address ends on {until}.",
        instead=feed.instead,
        until=until,
    )
    return notes.note(one_line(said), 0, (), (), link)


def is_of_owner(feed: EndedFeed) -> bool:
    """Whether another than the keeper read it; the keeper's pages are not linked there."""
    return feed.name.removeprefix(TASKS).startswith(_OWNERS)


def _instead_of(path: str, made: set[str]) -> str:
    """The feed that shows its works: its events where its tasks ended, else the feed of all."""
    name = path.removeprefix(FEEDS).removeprefix(TASKS)
    events = f"{FEEDS}{name}"
    if name.startswith(_OWNERS):
        return events if events in made else ""
    return ALL_TASKS if path.startswith(f"{FEEDS}{TASKS}") else EVERYTHING


def _path_of(key: str) -> str:
    from urllib.parse import unquote

    return unquote(key.removeprefix(f"{_SORT}:").rpartition("@")[0])
