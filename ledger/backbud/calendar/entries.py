"""Lays out a work as one calendar entry; an open one reads the same on whatever day it is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from hashlib import blake2b
from urllib.parse import quote

from msgspec import Struct

from backbud.calendar import notes
from backbud.calendar.lines import (
    content_line,
    day_value,
    hours_value,
    moment_value,
    one_line,
    text_line,
)
from backbud.journal.settings import Settings
from backbud.pages.links import anchor_of, link, tree_page
from backbud.tongue import phrase, spoken
from backbud.views.weeks import brief_name
from backbud.views.work import WorkView

LONGEST_UID_OCTETS = 255  # what every reader must be able to keep (RFC 5545 §3.8.4.7)
_DAY = timedelta(days=1)
_LAST_DAY = date.max - _DAY  # the end is exclusive, so it needs a day more
_NOON = time(12, tzinfo=UTC)  # the same day nearly all over the earth


class CalendarEntry(Struct, frozen=True, gc=False):
    """One entry: the day it is sorted by, its UID, and its lines as bytes, not yet with a
    revision."""

    start: date
    uid: str
    content: bytes


def event_of(work: WorkView, settings: Settings) -> CalendarEntry:
    """Return the event (RFC 5545 §3.6.1) of a work.

    Nothing in an entry depends on today while the work is open. What is done lies on the day it was
    done, what was skipped stays where it was.
    """
    uid = uid_of(work.id, settings.journal_id)
    first, last = _days(work, settings)
    lines = [
        text_line("UID", uid),
        *_words(work, settings, phrase("done: ") if _is_done(work) else ""),
        content_line("DTSTART;VALUE=DATE", day_value(first)),
        content_line("DTEND;VALUE=DATE", day_value(last + _DAY)),
        content_line("TRANSP", "TRANSPARENT"),
    ]
    if work.state == "skipped":
        lines.append(content_line("STATUS", "CANCELLED"))
    lines += _alarms(work, settings, "START")
    return entry_of("VEVENT", first, uid, lines)


def task_of(work: WorkView, settings: Settings) -> CalendarEntry:
    """Return the task (RFC 5545 §3.6.2) of a work, as `event_of` does the event.

    It begins when the window opens and is due on the best day, or at the window's end where
    calendars show the window. A beginning must lie before what is due (§3.8.2.3), so a task of one
    day has none.
    """
    uid = task_uid_of(work.id, settings.journal_id)
    first = min(work.opens, _LAST_DAY)
    due = min(work.closes if settings.show == "window" else work.best, _LAST_DAY)
    lines = [text_line("UID", uid), *_words(work, settings)]
    if first < due:
        lines.append(content_line("DTSTART;VALUE=DATE", day_value(first)))
    lines.append(content_line("DUE;VALUE=DATE", day_value(due)))
    lines += _status(work)
    related = "START" if settings.show == "window" and first < due else "END"
    lines += _alarms(work, settings, related)
    return entry_of("VTODO", due, uid, lines)


def _status(work: WorkView) -> list[bytes]:
    """How a task stands (§3.8.1.11)."""
    if _is_done(work) and work.settled is not None:
        noon = datetime.combine(work.settled.day, _NOON)
        return [
            content_line("STATUS", "COMPLETED"),
            content_line("COMPLETED", moment_value(noon)),
            content_line("PERCENT-COMPLETE", "100"),
        ]
    skipped = work.state == "skipped"
    return [content_line("STATUS", "CANCELLED" if skipped else "NEEDS-ACTION")]


def entry_of(sort: str, day: date, uid: str, lines: list[bytes]) -> CalendarEntry:
    inside = b"".join(lines)
    return CalendarEntry(
        day, uid, b"".join((f"BEGIN:{sort}\r\n".encode(), inside, f"END:{sort}\r\n".encode()))
    )


def uid_of(follow_up_id: str, journal_id: str) -> str:
    """The UID of a follow-up's event: its id in ASCII (`%` and two digits for any other octet) and
    the journal's; a digest in the id's place where it is longer than any reader must keep."""
    return _uid(quote(follow_up_id), journal_id)


def task_uid_of(follow_up_id: str, journal_id: str) -> str:
    """The UID of a follow-up's task; no id begins so, since `quote` leaves no colon."""
    return _uid(f"task:{quote(follow_up_id)}", journal_id)


def joint_uid_of(name: str, journal_id: str) -> str:
    """The UID of an entry that stands for several works, or of a feed that moved: its name has a
    colon, which no id of a follow-up has in a UID."""
    sort, _, of = name.partition(":")
    return _uid(f"{sort}:{quote(of)}", journal_id)


def is_of_journal(uid: str, journal_id: str) -> bool:
    """Whether a UID is one that this journal gives out."""
    return uid.endswith(f"@{_quoted(journal_id)}")


def _uid(name: str, journal_id: str) -> str:
    uid = f"{name}@{_quoted(journal_id)}"
    if len(uid) <= LONGEST_UID_OCTETS:
        return uid
    return f"{blake2b(uid.encode(), digest_size=32).hexdigest()}@{_quoted(journal_id)}"


# Every entry ends with it.
@lru_cache(maxsize=16)
def _quoted(journal_id: str) -> str:
    return quote(journal_id)


def url_of(base_url: str, path: str, anchor: str = "") -> str:
    """The absolute URI of a file of the output, or of a place in it."""
    return link(path, f"{base_url.rstrip('/')}/", anchor)


def _is_done(work: WorkView) -> bool:
    return work.state == "done"


def _days(work: WorkView, settings: Settings) -> tuple[date, date]:
    """First and last day of an event."""
    settled = work.settled
    if _is_done(work) and settled is not None:
        first = last = settled.day
    elif settings.show == "window":
        first, last = work.opens, work.closes
    else:
        first = last = work.best
    return min(first, _LAST_DAY), min(last, _LAST_DAY)


def _words(work: WorkView, settings: Settings, before: str = "") -> tuple[bytes, ...]:
    """What a person reads."""
    summary = text_line("SUMMARY", _summary(work, before))
    return summary, *_words_alike(work, settings.base_url, spoken())


# A work's event and its task, which is made soon after it, say the same.
@lru_cache(maxsize=1024)
def _words_alike(work: WorkView, base_url: str, language: str) -> tuple[bytes, ...]:
    """What a person reads below the title; `language`: the one that is spoken."""
    page = url_of(base_url, tree_page(work.tree), anchor_of(work.id)) if base_url else ""
    lines = [
        text_line("CATEGORIES", one_line(work.act)),
        text_line("DESCRIPTION", _description(work, page)),
    ]
    if work.place and work.place_name:
        lines.append(text_line("LOCATION", one_line(work.place_name)))
    if page:
        lines.append(content_line("URL", page))
    return tuple(lines)


# When a frost is told on its evening, whatever the settings say: while there is light to carry pots
# by; ours, no source.
BEFORE_DUSK = timedelta(hours=15)


def alarms(
    said: str, settings: Settings, related: str, also: Iterable[timedelta] = ()
) -> Iterator[bytes]:
    """The alarms that the settings ask for (§3.6.6), at an hour of a day before; and others, by the
    time from the midnight that the first day begins with."""
    # A day without a time begins at its midnight (§3.8.6.3).
    hour = timedelta(hours=settings.alarm_hour)
    asked = (hour - timedelta(days=days) for days in settings.alarm_days)
    told = text_line("DESCRIPTION", said)
    for before in dict.fromkeys((*asked, *also)):
        yield _ALARM_BEGINS
        yield told
        yield _trigger(related, before)


_ALARM_BEGINS = content_line("BEGIN", "VALARM") + content_line("ACTION", "DISPLAY")


# The settings ask for the same few, of each entry.
@lru_cache(maxsize=64)
def _trigger(related: str, before: timedelta) -> bytes:
    """The last lines of an alarm."""
    when = content_line(f"TRIGGER;RELATED={related}", hours_value(before))
    return when + content_line("END", "VALARM")


def _alarms(work: WorkView, settings: Settings, related: str) -> Iterator[bytes]:
    """Nothing rings for what is done with."""
    if work.is_open:
        yield from alarms(_summary(work), settings, related)


def _summary(work: WorkView, before: str = "") -> str:
    return _title(brief_name(work.tree_name, work.tree), work.title, before, spoken())


# An event, its task and the alarms of both say the same.
@lru_cache(maxsize=1024)
def _title(tree: str, work: str, before: str, language: str) -> str:
    """A tree and its work; `language`: the one that is spoken."""
    return notes.tree_first(tree, work, before)


def _description(work: WorkView, page: str) -> str:
    days = notes.window(work)
    if not work.is_open and work.settled is not None:
        days = phrase(
            "{state} on {day}. {days}",
            state=work.state.capitalize(),
            day=work.settled.day,
            days=days,
        )
    return notes.note(days, work.minutes, work.cautions, notes.reasons(work.reasons), page)
